//! What a vented solar shield lets through.
//!
//! s = h_r / (h_o + h_c + h_r)
//! h_r = 4 · σ · T³ / (2/ε − 1)
//!
//! - s    share of the sun taken up by the shield that reaches the skin   [–]
//! - h_o  film on the shield's outside                                    [W/(m²·K)]
//! - h_c  film on its inside, convection only                             [W/(m²·K)]
//! - h_r  radiation from the shield to the skin                           [W/(m²·K)]
//! - σ    Stefan–Boltzmann constant                                       [W/(m²·K⁴)]
//! - T    mean temperature of shield and skin                             [K]
//! - ε    emissivity of both                                              [–]
//!
//! Source:      first principles: the shield's sheet loses what it takes up to outdoor air on both sides and by
//!              radiation to the skin. h_c is the convective part of a still film, from memory.
//! Valid for:   a gap open above and below, at least 20 mm wide, with air at outdoor temperature.
//! Not covered: hot air caught in a narrow or closed gap.

/// Stefan–Boltzmann constant, W/(m²·K⁴). Exact to the figures given (SI).
const STEFAN_BOLTZMANN: f64 = 5.670_374e-8;
/// Convective part of a still film, W/(m²·K): 8 less 5.7 · 0.9 by radiation. From memory, to be confirmed.
pub const GAP_CONVECTION: f64 = 3.0;
/// Mean temperature of a shield in the sun and the skin behind it, K: about 60 °C. Stated, not reckoned.
pub const MEAN_TEMPERATURE: f64 = 333.15;
/// Least gap the method covers, mm.
pub const LEAST_GAP: f64 = 20.0;

/// Radiation between two parallel sheets of one emissivity, W/(m²·K).
#[must_use]
pub fn radiation(emissivity: f64) -> f64 {
    // h_r = 4 · σ · T³ / (2/ε − 1)
    4.0 * STEFAN_BOLTZMANN * MEAN_TEMPERATURE * MEAN_TEMPERATURE * MEAN_TEMPERATURE / (2.0 / emissivity - 1.0)
}

/// Share of the sun taken up by a shield that reaches the skin behind it.
#[must_use]
pub fn share_let_through(outside_film: f64, emissivity: f64) -> f64 {
    let h_r = radiation(emissivity);
    h_r / (outside_film + GAP_CONVECTION + h_r)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hand_calculation_comes_out() {
        // 4 · 5.670374e-8 · 333.15³ = 8.3867; ÷ (2/0.9 − 1 = 1.2222) = 6.8619; ÷ (17 + 3 + 6.8619) = 0.25545
        assert!((radiation(0.9) - 6.8619).abs() < 1e-3);
        assert!((share_let_through(17.0, 0.9) - 0.25545).abs() < 1e-4);
    }

    #[test]
    fn a_shinier_shield_lets_less_through() {
        assert!(share_let_through(17.0, 0.12) < share_let_through(17.0, 0.9));
    }
}
