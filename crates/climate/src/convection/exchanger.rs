//! How much of what it could an exchanger moves: effectiveness over its number of transfer units.
//!
//! ε = Q / Q_most,  NTU = U·A / C_min,  C_r = C_min / C_max
//! parallel:      ε = [1 − exp(−NTU (1 + C_r))] / (1 + C_r)
//! counter-flow:  ε = [1 − exp(−NTU (1 − C_r))] / [1 − C_r · exp(−NTU (1 − C_r))]; NTU / (1 + NTU) where C_r = 1
//! cross-flow, both unmixed:  ε = 1 − exp{NTU^0.22 / C_r · [exp(−C_r · NTU^0.78) − 1]}
//! cross-flow, the smaller stream mixed:  ε = 1 − exp{−[1 − exp(−C_r · NTU)] / C_r}
//! cross-flow, the greater stream mixed:  ε = {1 − exp[−C_r · (1 − exp(−NTU))]} / C_r
//!
//! - Q      heat moved                                       [W]
//! - Q_most C_min · (warm inlet − cold inlet)                [W]
//! - C      flow of heat capacity of a stream, ρ · c_p · V̇  [W/K]
//!
//! Source:      Kays & London; Bergman et al., Fundamentals of Heat and Mass Transfer, table of effectiveness relations.
//! Valid for:   0 ≤ C_r ≤ 1, NTU ≥ 0.
//! Agreement:   tests/reference/hx_effectiveness.csv to 10⁻⁶; its exact series of the cross-flow within 0.02 of this form.
//! Not covered: heat through the casing, condensation.

/// How the two streams pass each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Arrangement {
    /// In the same direction.
    Parallel,
    /// Against each other.
    Counter,
    /// Across each other, neither mixed: an approximation.
    CrossUnmixed,
    /// Across each other, the stream of the smaller capacity mixed.
    CrossSmallMixed,
    /// Across each other, the stream of the greater capacity mixed.
    CrossGreatMixed,
}

/// Effectiveness of an exchanger, 0 to 1; `None` outside the range.
#[must_use]
pub fn effectiveness(arrangement: Arrangement, transfer_units: f64, ratio: f64) -> Option<f64> {
    if !(transfer_units >= 0.0 && transfer_units.is_finite() && (0.0..=1.0).contains(&ratio)) {
        return None;
    }
    let (ntu, c) = (transfer_units, ratio);
    if c < 1e-9 {
        // One stream keeps its temperature: all arrangements are one.
        return Some(1.0 - libm::exp(-ntu));
    }
    Some(match arrangement {
        Arrangement::Parallel => (1.0 - libm::exp(-ntu * (1.0 + c))) / (1.0 + c),
        Arrangement::Counter if c > 1.0 - 1e-9 => ntu / (1.0 + ntu),
        Arrangement::Counter => {
            let e = libm::exp(-ntu * (1.0 - c));
            (1.0 - e) / (1.0 - c * e)
        }
        Arrangement::CrossUnmixed => {
            let inner = libm::exp(-c * libm::pow(ntu, 0.78)) - 1.0;
            1.0 - libm::exp(libm::pow(ntu, 0.22) / c * inner)
        }
        Arrangement::CrossSmallMixed => 1.0 - libm::exp(-(1.0 - libm::exp(-c * ntu)) / c),
        Arrangement::CrossGreatMixed => (1.0 - libm::exp(-c * (1.0 - libm::exp(-ntu)))) / c,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn says_so_outside_its_range() {
        for (ntu, ratio) in [(-0.1, 0.5), (1.0, 1.1), (f64::NAN, 0.5), (1.0, -0.1)] {
            assert_eq!(effectiveness(Arrangement::Counter, ntu, ratio), None);
        }
    }

    #[test]
    fn counter_flow_is_best_and_parallel_flow_worst() {
        for (ntu, ratio) in [(0.5, 0.5), (2.0, 1.0), (5.0, 0.9)] {
            let of = |arrangement| effectiveness(arrangement, ntu, ratio).unwrap();
            let cross = of(Arrangement::CrossUnmixed);
            assert!(of(Arrangement::Counter) > cross && cross > of(Arrangement::Parallel));
        }
    }
}
