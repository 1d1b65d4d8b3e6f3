//! Tipping over an edge of the footprint.
//!
//! α = atan(a / z),  S = V · a / (F · h)
//!
//! - α  angle at which it tips                                  [°]
//! - a  distance of the centre of gravity from the edge         [mm]
//! - z  height of the centre of gravity                         [mm]
//! - S  safety: moment that holds over moment that tips         [–]
//! - V  weight                                                  [force]
//! - F  horizontal force                                        [force]
//! - h  its height                                              [mm]
//!
//! Source:      statics.
//! Valid for:   a rigid cabinet standing free on level, firm ground.
//! Agreement:   tests/reference/statics_anchors.json, tipping, to nine figures.
//! Not covered: anchors, soft ground, open doors, wind (a later topic).

/// Angle at which it tips, degrees; `None` when the centre of gravity does not lie above the ground.
#[must_use]
pub fn tip_angle(arm: f64, height: f64) -> Option<f64> {
    (height > 0.0).then(|| libm::atan2(arm, height).to_degrees())
}

/// Safety against tipping; `None` when nothing tips it.
#[must_use]
pub fn safety(weight: f64, arm: f64, force: f64, height: f64) -> Option<f64> {
    let tipping = force * height;
    // S = V · a / (F · h)
    (tipping > 0.0).then(|| weight * arm / tipping)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn at_its_tip_angle_the_safety_is_one() {
        let angle = tip_angle(300.0, 900.0).unwrap();
        assert!((angle - 18.434_948_822_922).abs() < 1e-9);
        let force = 1000.0 * libm::tan(angle.to_radians());
        assert!((safety(1000.0, 300.0, force, 900.0).unwrap() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn nothing_tips_without_height_or_force() {
        assert_eq!(tip_angle(300.0, 0.0), None);
        assert_eq!(safety(1000.0, 300.0, 0.0, 900.0), None);
    }
}
