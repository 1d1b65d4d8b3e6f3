//! The balance of one or two compartments: what comes in goes out.
//!
//! G_k = UA_k · (T_k − T_out) + UA_d · (T_k − T_other) + Σ Q_unit(T_k)
//!
//! - G_k     heat gained by the compartment: devices and sun   [W]
//! - UA_k    conductance of its outer faces                    [W/K]
//! - T_k     its inside air                                    [°C]
//! - T_out   outdoor air                                       [°C]
//! - UA_d    conductance of the divider                        [W/K]
//! - Q_unit  heat moved out by a unit, 0 below its thermostat  [W]
//!
//! Source:      heat balance, first principles.
//! Valid for:   steady state, air well mixed, units that move more heat from warmer air.
//! Agreement:   tests/published/heat.toml, T07-06, within 1e-6 K.
//! Not covered: layers of warmer air, heat stored in walls.
//!
//! The balance falls with the temperature, with a step at each thermostat, so that halving the interval finds the one
//! temperature at which it changes sign: between two thermostats the balance, at a thermostat the set point held.

use super::unit_map::Curve;

/// A unit at one outside temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct Mover {
    /// Its capacity over the inside temperature, W, as in its map.
    pub capacity: Curve,
    /// Share of that left at the site's altitude.
    pub left: f64,
    /// Inside temperature above which it works, °C.
    pub starts_above: f64,
}

impl Mover {
    /// Heat moved out at an inside temperature, W. Beyond the map it stays as at the map's end, which serves to find out
    /// that the balance lies beyond; no result is given there.
    fn moves(&self, inside: f64) -> f64 {
        let from = self.starts_above.max(self.capacity.lowest_inside());
        if inside <= from {
            return 0.0;
        }
        self.left * self.capacity.at(inside.min(self.capacity.highest_inside())).unwrap_or(0.0)
    }
}

/// A compartment.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Compartment {
    /// Heat gained, W.
    pub gain: f64,
    /// Conductance of its outer faces, W/K; above 0.
    pub conductance: f64,
    /// Its units.
    pub movers: Vec<Mover>,
}

impl Compartment {
    /// Gain less losses at an inside temperature, without the divider, W.
    #[must_use]
    pub fn surplus(&self, inside: f64, outside: f64) -> f64 {
        self.gain - self.conductance * (inside - outside) - self.moved(inside)
    }

    /// Heat moved out by its units at an inside temperature, W.
    #[must_use]
    pub fn moved(&self, inside: f64) -> f64 {
        self.movers.iter().map(|mover| mover.moves(inside)).sum()
    }

    /// Highest inside temperature that the maps of its units cover, °C; infinite without units.
    #[must_use]
    pub fn covered_to(&self) -> f64 {
        self.movers.iter().map(|mover| mover.capacity.highest_inside()).fold(f64::INFINITY, f64::min)
    }
}

/// Inside air of each compartment, °C. A temperature above [`Compartment::covered_to`] only says that the balance lies
/// somewhere above it.
#[must_use]
pub fn inside_air(compartments: &[Compartment], divider: f64, outside: f64) -> Vec<f64> {
    let Some(span) = search_span(compartments, outside) else { return vec![f64::NAN; compartments.len()] };
    match compartments {
        [one] => vec![falling_root(|t| one.surplus(t, outside), span)],
        [left, right] => {
            // For each temperature on the left, the right one follows; the left balance then falls with the left one.
            let follow = |t: f64| falling_root(|u| right.surplus(u, outside) + divider * (t - u), span);
            let t = falling_root(|t| left.surplus(t, outside) + divider * (follow(t) - t), span);
            vec![t, follow(t)]
        }
        _ => vec![f64::NAN; compartments.len()],
    }
}

/// Temperatures between which every balance lies: from the coldest place heat could go to, up to where the outer faces
/// alone lose everything.
fn search_span(compartments: &[Compartment], outside: f64) -> Option<[f64; 2]> {
    let mut low = outside;
    let mut gain = 0.0;
    let mut conductance = f64::INFINITY;
    for compartment in compartments {
        for mover in &compartment.movers {
            low = low.min(mover.starts_above.max(mover.capacity.lowest_inside()));
        }
        if !compartment.gain.is_finite() {
            return None;
        }
        gain += compartment.gain.max(0.0);
        conductance = conductance.min(compartment.conductance);
    }
    let high = outside + gain / conductance + 1.0;
    (conductance > 0.0 && low.is_finite() && high.is_finite()).then_some([low - 1.0, high])
}

/// Where a falling function changes sign, to 1e-9 K.
fn falling_root(of: impl Fn(f64) -> f64, [mut low, mut high]: [f64; 2]) -> f64 {
    // Enough halvings for any span of temperatures in the project's range; the bound keeps absurd ones finite.
    for _ in 0..64 {
        if high - low <= 1e-9 {
            break;
        }
        let middle = low + (high - low) / 2.0;
        if of(middle) > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    low + (high - low) / 2.0
}

#[cfg(test)]
mod tests {
    use catalogue::UnitMap;

    use super::*;

    /// A unit that moves `conductance` × (inside − outside), never less than 0.
    fn exchanger(conductance: f64, outside: f64, from: f64) -> Mover {
        let inside = vec![outside, outside + 40.0];
        let map = UnitMap {
            inside,
            outside: vec![outside],
            capacity: vec![vec![0.0], vec![40.0 * conductance]],
            input: vec![vec![0.0], vec![0.0]],
        };
        Mover { capacity: Curve::of(&map, &map.capacity, outside).unwrap(), left: 1.0, starts_above: from }
    }

    /// A unit of one capacity between 20 and 50 °C inside.
    fn conditioner(capacity: f64, set_point: f64) -> Mover {
        let map = UnitMap {
            inside: vec![20.0, 50.0],
            outside: vec![46.0],
            capacity: vec![vec![capacity]; 2],
            input: vec![vec![0.0]; 2],
        };
        Mover { capacity: Curve::of(&map, &map.capacity, 46.0).unwrap(), left: 1.0, starts_above: set_point }
    }

    fn check(compartment: Compartment, outside: f64, expected: f64) {
        let found = inside_air(&[compartment], 0.0, outside)[0];
        assert!((found - expected).abs() < 1e-6, "{found} against {expected}");
    }

    #[test]
    fn walls_alone_follow_the_hand_calculation() {
        // 46 + 1000/25 = 86
        check(Compartment { gain: 1000.0, conductance: 25.0, movers: vec![] }, 46.0, 86.0);
    }

    #[test]
    fn an_exchanger_helps_the_walls() {
        // 46 + 1200/(80 + 20) = 58
        let movers = vec![exchanger(80.0, 46.0, 30.0)];
        check(Compartment { gain: 1200.0, conductance: 20.0, movers }, 46.0, 58.0);
    }

    #[test]
    fn a_conditioner_holds_its_set_point_while_it_can() {
        let one = |capacity| Compartment { gain: 600.0, conductance: 20.0, movers: vec![conditioner(capacity, 35.0)] };
        // At 35 °C: 600 + 20 · 11 = 820 W to move.
        check(one(821.0), 46.0, 35.0);
        check(one(820.0), 46.0, 35.0);
        // At full capacity beyond: 46 + (600 − 800)/20 = 36.
        check(one(800.0), 46.0, 36.0);
    }

    #[test]
    fn a_balance_beyond_the_map_lies_above_its_end() {
        let one = Compartment { gain: 2000.0, conductance: 20.0, movers: vec![conditioner(800.0, 35.0)] };
        assert!(inside_air(std::slice::from_ref(&one), 0.0, 46.0)[0] > one.covered_to());
    }

    #[test]
    fn a_divider_shares_the_heat() {
        let bay = |gain| Compartment { gain, conductance: 10.0, movers: vec![] };
        // Sum: 1000 = 10 (ΔA + ΔB); difference: 1000 = 10 (ΔA − ΔB) + 2 · 5 (ΔA − ΔB), so ΔA − ΔB = 50, ΔA = 75, ΔB = 25.
        let found = inside_air(&[bay(1000.0), bay(0.0)], 5.0, 20.0);
        assert!((found[0] - 95.0).abs() < 1e-6 && (found[1] - 45.0).abs() < 1e-6, "{found:?}");
        let mirrored = inside_air(&[bay(0.0), bay(1000.0)], 5.0, 20.0);
        assert!((found[0] - mirrored[1]).abs() < 1e-6 && (found[1] - mirrored[0]).abs() < 1e-6);
    }

    #[test]
    fn nothing_to_lose_heat_through_gives_no_temperature() {
        assert!(inside_air(&[Compartment::default()], 0.0, 20.0)[0].is_nan());
        let absurd = Compartment { gain: f64::NAN, conductance: 10.0, movers: vec![] };
        assert!(inside_air(&[absurd], 0.0, 20.0)[0].is_nan());
    }

    #[test]
    fn more_heat_never_cools_and_warmer_air_outside_never_cools() {
        for unit in [exchanger(60.0, 40.0, 30.0), conditioner(700.0, 35.0)] {
            let one = |gain| Compartment { gain, conductance: 12.0, movers: vec![unit.clone()] };
            let mut last = f64::NEG_INFINITY;
            for step in 0..200 {
                let found = inside_air(&[one(10.0 * f64::from(step))], 0.0, 40.0)[0];
                assert!(found >= last - 2e-9);
                last = found;
            }
        }
    }
}
