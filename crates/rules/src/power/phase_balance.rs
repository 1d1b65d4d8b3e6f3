//! **P03 `phase-balance`** – do the phases of the supply carry about the same?
//!
//! ΔI = I_most − I_least ≤ s · I_main
//!
//! - I_most   current of the phase that carries most   [A]
//! - I_least  current of the phase that carries least  [A]
//! - ΔI       what one carries more than the other     [A]
//! - s        share of the rated current, 25 %         [–]
//! - I_main   rated current of what limits the service [A]
//!
//! Source:      common practice.
//! Valid for:   loads at their most, heaters beside what cools.
//! Not covered: what is on at which hour.

use units::{Amperes, Kind, Value};

use super::all_fed::CAUTION;
use super::circuits::{Circuit, Circuits, phase_letter};
use crate::sources::PRACTICE;
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// Common practice, no source: phases within a quarter of the rated current of one another.
const SHARE: f64 = 0.25;
/// *Tight* begins here.
const RESERVE: f64 = 0.9;

/// The check.
pub static CHECK: Check = Check {
    code: "P03",
    name: "phase-balance",
    topic: Topic::Power,
    question: "Do the phases of the supply carry about the same?",
    formula: "ΔI = I_most − I_least ≤ s · I_main",
    symbols: &[
        Symbol { symbol: "I_most", meaning: "current of the phase that carries most", kind: Kind::Current },
        Symbol { symbol: "I_least", meaning: "current of the phase that carries least", kind: Kind::Current },
        Symbol { symbol: "ΔI", meaning: "what one carries more than the other", kind: Kind::Current },
        Symbol { symbol: "s", meaning: "share of the rated current", kind: Kind::Share },
        Symbol { symbol: "I_main", meaning: "rated current of what limits the service", kind: Kind::Current },
    ],
    sources: &[&PRACTICE],
    valid: "loads at their most, heaters beside what cools",
    leaves_out: "what is on at which hour",
    caution: Some(CAUTION),
    asked: Some(Asked::Supply),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let all = case.circuits();
    if all.phase_count == 1 {
        return vec![Finding::holds(check, Subject::Supply, "the supply has one phase")];
    }
    let currents = all.phase_amperes(case.project.brief.supply);
    let currents = &currents[..all.phase_count];
    let most = (0..all.phase_count).fold(0, |most, one| if currents[one] > currents[most] { one } else { most });
    let least = currents.iter().copied().fold(f64::INFINITY, f64::min);
    let apart = currents[most] - least;
    let Some(main) = all.main else {
        return vec![Finding::tells(check, Subject::Supply, Amperes(apart))];
    };
    let allowed = SHARE * main;
    let working = vec![
        Step::input("I_most", "current of the phase that carries most", Amperes(currents[most])),
        Step::input("I_least", "current of the phase that carries least", Amperes(least)),
        Step::computed(
            "ΔI",
            "what one carries more than the other",
            "I_most − I_least",
            Phrase::new().number(Amperes(currents[most])).text(" − ").number(Amperes(least)),
            Amperes(apart),
        ),
        Step::input("s", "share of the rated current", Value::new(SHARE, Kind::Share)).from_source(&PRACTICE),
        Step::input("I_main", "rated current of what limits the service", Amperes(main)),
    ];
    let mut finding =
        Finding::at_most(check, Subject::Supply, Amperes(apart), Amperes(allowed), RESERVE).working(working);
    if let Some(load) = to_move(all, most, apart * super::circuits::to_neutral(case.project.brief.supply)) {
        let help = Phrase::from("Move to another phase: ").then(super::about(case, load));
        finding = finding.help(help);
    } else {
        finding = finding.help("Loads of one phase that are smaller, or run on two phases, would do");
    }
    vec![finding.about(format!("phase {}", phase_letter(most)))]
}

/// The load of one phase whose move brings the phases nearest to one another.
fn to_move(all: &Circuits, most: usize, apart: f64) -> Option<&Circuit> {
    let single = all.circuits.iter().filter(|circuit| circuit.poles == 1 && circuit.legs[most]);
    let after = |circuit: &&Circuit| (apart - 2.0 * circuit.load.total()).abs();
    single.filter(|circuit| after(circuit) < apart).min_by(|one, other| after(one).total_cmp(&after(other)))
}

#[cfg(test)]
mod tests {
    use catalogue::Supply;
    use project::{ChosenFeed, Fed, ItemId, SiteSupply};

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, step};
    use crate::power::testing::{desk, load, near, panel};

    /// Loads of 120 V, each asked for a position, on a load centre of 100 A.
    fn asked(loads: &[(f64, u32)]) -> Desk {
        let devices =
            std::iter::once(panel(12, 100.0)).chain(loads.iter().map(|(va, _)| load(0.95 * va, Supply::V120Ac)));
        let mut desk = desk(devices.collect());
        desk.project.build.feeds = loads
            .iter()
            .zip(2..)
            .map(|((_, position), id)| ChosenFeed {
                load: Fed::Device(ItemId(id)),
                from: None,
                position: Some(*position),
            })
            .collect();
        desk
    }

    #[track_caller]
    fn check(loads: &[(f64, u32)], apart: f64, outcome: Outcome) {
        let found = asked(loads).run(&CHECK).remove(0);
        near(step(&found, "ΔI"), apart);
        assert_eq!(found.outcome, outcome);
    }

    #[test]
    fn a_quarter_of_the_rated_current_is_the_limit() {
        check(&[(3000.0, 1)], 25.0, Outcome::Tight);
        check(&[(3012.0, 1)], 25.1, Outcome::Fails);
        check(&[(2700.0, 1)], 22.5, Outcome::Holds);
        check(&[(2712.0, 1)], 22.6, Outcome::Tight);
    }

    #[test]
    fn rows_are_phases_in_turn_whatever_the_side() {
        // Positions 1 and 2 are phase A, 3 and 4 phase B.
        check(&[(1200.0, 1), (1200.0, 2)], 20.0, Outcome::Holds);
        check(&[(1200.0, 1), (1200.0, 4)], 0.0, Outcome::Holds);
        check(&[(1200.0, 1), (1200.0, 5)], 20.0, Outcome::Holds);
    }

    #[test]
    fn names_what_to_move() {
        let found = asked(&[(2400.0, 1), (1200.0, 2), (1200.0, 5)]).run(&CHECK).remove(0);
        assert_eq!(found.outcome, Outcome::Fails);
        assert_eq!(found.help[0].shown(units::System::Metric), "Move to another phase: Box, A 2 (LC1-1)");
    }

    #[test]
    fn by_itself_the_load_centre_is_balanced() {
        let loads = [900.0, 700.0, 500.0, 300.0].map(|watts| load(watts, Supply::V120Ac));
        let desk = desk(std::iter::once(panel(12, 100.0)).chain(loads).collect());
        near(step(&desk.run(&CHECK)[0], "ΔI"), 0.0);
    }

    #[test]
    fn one_phase_needs_no_balance() {
        let mut desk = asked(&[(3012.0, 1)]);
        desk.project.brief.supply = SiteSupply::Single120;
        assert_eq!(desk.run(&CHECK)[0].outcome, Outcome::Holds);
        assert_eq!(Desk::new().run(&CHECK)[0].outcome, Outcome::Holds);
    }
}
