//! Heat through a wall: resistances in series.
//!
//! 1/U = 1/h_i + Σ t/λ + 1/h_o
//!
//! - U    overall heat-transfer coefficient   [W/(m²·K)]
//! - h_i  film inside                         [W/(m²·K)]
//! - t    thickness of a layer                [m]
//! - λ    its thermal conductivity            [W/(m·K)]
//! - h_o  film outside                        [W/(m²·K)]
//!
//! Source:      first principles.
//! Valid for:   flat layers in good contact; no ribs or fixings through the insulation.
//! Agreement:   tests/published/heat.toml, T05-22.

/// A layer of a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// Thickness, m.
    pub thickness: f64,
    /// Thermal conductivity, W/(m·K).
    pub conductivity: f64,
}

/// Overall heat-transfer coefficient of layers between two films, W/(m²·K).
#[must_use]
pub fn overall_coefficient(inside_film: f64, layers: &[Layer], outside_film: f64) -> f64 {
    let layers: f64 = layers.iter().map(|layer| layer.thickness / layer.conductivity).sum();
    1.0 / (1.0 / inside_film + layers + 1.0 / outside_film)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bare_films_stand_alone() {
        // 1 / (1/8 + 1/17) = 136/25
        assert!((overall_coefficient(8.0, &[], 17.0) - 5.44).abs() < 1e-12);
    }

    #[test]
    fn every_layer_lowers_it() {
        let sheet = Layer { thickness: 0.003, conductivity: 138.0 };
        let foam = Layer { thickness: 0.025, conductivity: 0.026 };
        let bare = overall_coefficient(8.0, &[sheet], 17.0);
        assert!(bare < 5.44);
        assert!(overall_coefficient(8.0, &[sheet, foam], 17.0) < bare);
    }
}
