//! Pressure under a rectangular base.
//!
//! q_max = N / (b · d) · (1 + 6 · e_x / b + 6 · e_y / d)
//!
//! - q_max  greatest pressure, at a corner            [Pa]
//! - N      weight                                    [N]
//! - b, d   width and depth of the base               [m]
//! - e      distance of the load from its middle      [m]
//!
//! Source:      statics of a rigid base on even ground.
//! Valid for:   loads inside the kern, 6 · e_x / b + 6 · e_y / d ≤ 1; beyond it a corner would have to pull.
//! Not covered: pads that bend, bases that bear on their rim only.

/// Greatest pressure under a base, Pa, from N and m; `None` outside the kern.
#[must_use]
pub fn greatest_pressure(weight: f64, [width, depth]: [f64; 2], [off_x, off_y]: [f64; 2]) -> Option<f64> {
    let tilt = 6.0 * off_x.abs() / width + 6.0 * off_y.abs() / depth;
    let inside = width > 0.0 && depth > 0.0 && tilt <= 1.0;
    // q_max = N / (b · d) · (1 + 6 · e_x / b + 6 · e_y / d)
    inside.then(|| weight / (width * depth) * (1.0 + tilt))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_centred_load_presses_evenly() {
        assert_eq!(greatest_pressure(6000.0, [2.0, 1.5], [0.0, 0.0]), Some(2000.0));
    }

    #[test]
    fn at_the_kerns_edge_it_doubles_and_beyond_it_says_so() {
        let doubled = greatest_pressure(6000.0, [2.0, 1.5], [2.0 / 6.0, 0.0]).unwrap();
        assert!((doubled - 4000.0).abs() < 1e-9);
        assert_eq!(greatest_pressure(6000.0, [2.0, 1.5], [0.334, 0.0]), None);
        assert_eq!(greatest_pressure(6000.0, [2.0, 1.5], [-0.2, 0.2]), None);
        assert_eq!(greatest_pressure(6000.0, [0.0, 1.5], [0.0, 0.0]), None);
    }
}
