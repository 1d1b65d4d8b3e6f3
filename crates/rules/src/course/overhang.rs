//! Shadow that a roof throws on an upright face below it.
//!
//! Of a point at height up along the sun's ray, a roof that reaches out by o throws its edge y = o · tan Ω below itself and
//! x = o · |tan γ| aside, where tan Ω = up / out and tan γ = aside / out of the ray before the face.
//! share = clamp(y − g, 0, H) / H · clamp(W − max(x_m − a, 0), 0, W) / W
//!
//! - o     how far the roof reaches out before the face          [mm]
//! - g     gap between the roof and the upper edge of the face   [mm]
//! - a     how far the roof reaches past the face at its ends    [mm]
//! - H, W  height and width of the face                          [mm]
//! - x_m   how far the shadow is shifted in its middle           [mm]
//!
//! Source:      geometry.
//! Valid for:   a straight edge along the whole face.
//! Agreement:   exact, but for a shadow that runs past the end within its own height: there the middle stands for it.
//! Not covered: less sky seen from below the roof, the turned-down edge; both let in less than is reckoned.

/// A roof over an upright face, mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Overhang {
    /// How far it reaches out before the face.
    pub out: f64,
    /// How far it reaches past the face at either end.
    pub past: f64,
    /// Gap between it and the upper edge of the face.
    pub above: f64,
    /// Width of the face.
    pub width: f64,
    /// Height of the face.
    pub height: f64,
}

impl Overhang {
    /// Share of the face in its shadow, with the sun in a direction: out from the face, aside along it, and up.
    #[must_use]
    pub fn shadow(&self, out: f64, aside: f64, up: f64) -> f64 {
        if self.out <= 0.0 || out <= 0.0 || up <= 0.0 {
            return 0.0;
        }
        let down = (self.out * up / out).min(self.above + self.height);
        if down <= self.above {
            return 0.0;
        }
        // Shift of the shadow's end where it is in the middle of its height: x / y is aside / up.
        let shift = (down + self.above) / 2.0 * aside.abs() / up;
        let width = (self.width - (shift - self.past).max(0.0)).clamp(0.0, self.width);
        (down - self.above) / self.height * width / self.width
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ROOF: Overhang = Overhang { out: 100.0, past: 0.0, above: 25.0, width: 800.0, height: 1600.0 };

    #[track_caller]
    fn check(sun: [f64; 3], expected: f64) {
        let found = ROOF.shadow(sun[0], sun[1], sun[2]);
        assert!((found - expected).abs() < 1e-12, "{found} instead of {expected}");
    }

    #[test]
    fn the_shadow_comes_out_by_hand() {
        // 60° high, straight before the face: 100 · tan 60° = 173.2 below the roof, 148.2 of 1600 on the face.
        check([0.5, 0.0, 0.75_f64.sqrt()], (100.0 * 3.0_f64.sqrt() - 25.0) / 1600.0);
        // 45° to the side and as high as out: 100 down, 75 on the face, shifted by 62.5 in the middle.
        check([1.0, 1.0, 1.0], 75.0 / 1600.0 * (800.0 - 62.5) / 800.0);
    }

    #[test]
    fn a_low_sun_and_a_sun_behind_throw_none_and_one_overhead_all() {
        check([1.0, 0.0, 0.2], 0.0);
        check([-1.0, 0.0, 1.0], 0.0);
        check([1.0, 0.0, -0.1], 0.0);
        check([1e-6, 0.0, 1.0], 1.0);
        assert_eq!(Overhang { out: 0.0, ..ROOF }.shadow(0.1, 0.0, 1.0), 0.0);
    }
}
