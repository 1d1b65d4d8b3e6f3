//! The flat sun figure of outside-plant practice.

/// A flat figure for the sun, put on each sunlit face at once instead of a reckoned sun.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlatSun {
    /// Irradiance on each sunlit projected face, W/m².
    pub irradiance: f64,
    /// Where the figure comes from.
    pub document: &'static str,
    /// How far that has been confirmed.
    pub standing: &'static str,
}

/// 70 W/ft² on each sunlit face: the roof, one of front and rear, one side.
///
/// It already stands for a whole sunlit cabinet: never add it to, or compare it with, the 1120 W/m² on level ground.
pub const FLAT_SUN: FlatSun = FlatSun {
    irradiance: 753.0,
    document: "North American outside-plant practice, Telcordia GR-487",
    standing: "from memory, to be confirmed in the edition in force",
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_figure_is_seventy_watts_on_a_square_foot() {
        let square_foot = 0.3048 * 0.3048; // m²
        assert!((FLAT_SUN.irradiance - 70.0 / square_foot).abs() < 0.6);
    }
}
