//! **P04 `breaker-ratings`** – does every circuit have a breaker that bears its load?
//!
//! 1.25 · I_c + I_n ≤ I_breaker
//!
//! - I_c        continuous current of the circuit, three hours or more [A]
//! - I_n        the rest of its current                                [A]
//! - I_least    what its breaker has to bear                           [A]
//! - I_breaker  its breaker: the next standard rating, or what its outlet, strip or cut-out is rated for [A]
//!
//! Source:      [`CODE_LOADS`], [`CODE_BREAKERS`].
//! Valid for:   breakers that are not said to bear their whole rating for hours; a converter counts with what it draws at
//!              its rating.
//! Not covered: starting of compressors, which breakers with a delay bear; selectivity.

use units::{Amperes, Kind};

use super::all_fed::CAUTION;
use super::circuits::names::subject;
use super::circuits::{Circuit, Run, rated_current};
use crate::finding::worst_first;
use crate::network::NodeKind;
use crate::sources::{CODE_BREAKERS, CODE_LOADS};
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "P04",
    name: "breaker-ratings",
    topic: Topic::Power,
    question: "Does every circuit have a breaker that bears its load?",
    formula: "I_least = 1.25 · I_c + I_n ≤ I_breaker",
    symbols: &[
        Symbol { symbol: "I_c", meaning: "continuous current of the circuit", kind: Kind::Current },
        Symbol { symbol: "I_n", meaning: "the rest of its current", kind: Kind::Current },
        Symbol { symbol: "I_least", meaning: "what its breaker has to bear", kind: Kind::Current },
        Symbol {
            symbol: "I_breaker",
            meaning: "the next standard rating, or that of its outlet, strip or cut-out",
            kind: Kind::Current,
        },
    ],
    sources: &[&CODE_LOADS, &CODE_BREAKERS],
    valid: "breakers that are not said to bear their whole rating for hours; a converter counts with what it draws at its \
            rating, one of two inputs with the whole load",
    leaves_out: "starting of compressors, which breakers with a delay bear; selectivity; the service and its feeders (P02) \
                 and the inlet (P13)",
    caution: Some(CAUTION),
    asked: Some(Asked::Supply),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    // The service and its feeders are judged when they have no breaker at all.
    let judged = |circuit: &&Circuit| match circuit.run {
        Run::Cord | Run::Inlet => false,
        Run::Service | Run::Feeder => circuit.breaker.is_none(),
        Run::Branch | Run::Bus | Run::String => true,
    };
    let circuits = case.circuits().circuits.iter().filter(judged);
    let used = |circuit: &Circuit| allowed(case, circuit).map_or(f64::INFINITY, |most| circuit.least_amperes / most);
    let told = super::worth_telling(circuits.map(|circuit| (used(circuit), circuit)));
    let findings: Vec<Finding> = told.into_iter().map(|circuit| judge(check, case, circuit)).collect();
    if findings.is_empty() {
        return vec![Finding::holds(check, Subject::Supply, "there is no circuit")];
    }
    worst_first(findings)
}

/// What a circuit may carry by its breaker, and a cut-out by its own rating, A; none without a breaker.
fn allowed(case: &Case, circuit: &Circuit) -> Option<f64> {
    let breaker = circuit.breaker?;
    let node = &case.network.nodes[circuit.node];
    let own = node.item().filter(|_| node.kind == NodeKind::CutOut).and_then(|id| rated_current(case, id));
    Some(own.map_or(breaker, |own| own.min(breaker)))
}

fn judge(check: &Check, case: &Case, circuit: &Circuit) -> Finding {
    let subject = subject(case, circuit.node);
    let about = super::about(case, circuit);
    let least = Step::computed(
        "I_least",
        "what its breaker has to bear",
        "1.25 · I_c + I_n",
        super::circuits::names::least_numbers(case, circuit),
        Amperes(circuit.least_amperes),
    )
    .from_source(&CODE_LOADS);
    let Some(allowed) = allowed(case, circuit) else {
        let why = Phrase::from("no standard breaker bears ").value(Amperes(circuit.least_amperes));
        let finding = Finding::fails(check, subject, why).about(about).working(vec![least]);
        return finding.help("Several smaller loads on circuits of their own, or a higher voltage, would do");
    };
    let working = vec![least, Step::input("I_breaker", "its breaker", Amperes(allowed)).from_source(&CODE_BREAKERS)];
    // The next standard rating is near its load by its nature, so nothing is *tight*.
    let finding = Finding::at_most(check, subject, Amperes(circuit.least_amperes), Amperes(allowed), 1.0);
    finding.about(about).working(working).help("Fewer loads on it, or something of a larger rating, would do")
}

#[cfg(test)]
mod tests {
    use catalogue::Supply;

    use super::*;
    use crate::heat::testing::Desk;
    use crate::power::testing::{desk, load, panel, strip};
    use crate::{Outcome, PlacedDevice};

    fn found(desk: &Desk) -> Finding {
        desk.run(&CHECK).remove(0)
    }

    /// The breaker of a load of so many VA at 240 V.
    #[track_caller]
    fn check(va: f64, breaker: f64) {
        let desk = desk(vec![panel(12, 200.0), load(0.95 * va, Supply::V230Ac)]);
        desk.with(|case| {
            let last = case.circuits().circuits.last().and_then(|circuit| circuit.breaker);
            assert_eq!(last, Some(breaker), "{va}");
        });
        assert_eq!(found(&desk).outcome, Outcome::Holds);
    }

    #[test]
    fn the_next_standard_rating_bears_a_quarter_more() {
        check(100.0, 15.0);
        check(15.0 * 240.0 / 1.25, 15.0);
        check(15.1 * 240.0 / 1.25, 20.0);
        check(40.0 * 240.0 / 1.25, 40.0);
        check(40.1 * 240.0 / 1.25, 45.0);
    }

    #[test]
    fn what_is_not_continuous_counts_once() {
        // Continuous 26 A and 5 A that are not: 37.5 A, so 40 A. Source: handbook T08-22.
        let load = crate::power::circuits::Load { continuous: 26.0, other: 5.0 };
        assert!((load.least() - 37.5).abs() < 1e-12);
        let rating = |least| crate::power::code::Code::of(project::CodeEdition::E2023).standard_rating(least);
        assert_eq!(rating(load.least()).map(|entry| entry.value), Some(40.0));
    }

    #[test]
    fn a_load_larger_than_any_breaker_fails_with_a_remedy() {
        let desk = desk(vec![panel(12, 200.0), load(5e6, Supply::V230Ac)]);
        let found = found(&desk);
        assert_eq!(found.outcome, Outcome::Fails);
        assert!(found.because.shown(units::System::Metric).starts_with("no standard breaker bears"));
        assert_eq!(found.help.len(), 1);
    }

    #[test]
    fn a_strip_bears_what_it_is_rated_for() {
        let loaded = |va: f64| {
            let server = catalogue::Device { kind: catalogue::DeviceKind::Compute, ..load(0.95 * va, Supply::WideAc) };
            desk(vec![panel(12, 100.0), strip(15.0), server])
        };
        assert_eq!(found(&loaded(120.0 * 15.0 / 1.25)).outcome, Outcome::Holds);
        assert_eq!(found(&loaded(120.0 * 15.1 / 1.25)).outcome, Outcome::Fails);
    }

    #[test]
    fn one_of_two_inputs_bears_the_whole_load() {
        let two = catalogue::Electrical { two_inputs: true, ..catalogue::Electrical::default() };
        let device = catalogue::Device { electrical: two, ..load(0.95 * 120.0 * 16.0, Supply::V120Ac) };
        let desk = desk(vec![panel(12, 100.0), panel(12, 100.0), device]);
        desk.with(|case| {
            let of_load = case.circuits().circuits.iter().filter(|circuit| circuit.run == Run::Branch);
            let breakers: Vec<_> = of_load.map(|circuit| (circuit.amperes.round(), circuit.breaker)).collect();
            assert_eq!(breakers, [(8.0, Some(20.0)), (8.0, Some(20.0))]);
        });
    }

    #[test]
    fn an_empty_cabinet_has_no_circuit() {
        assert_eq!(found(&Desk::new()).outcome, Outcome::Holds);
        let placed = |device: &PlacedDevice<'_>| device.space.is_some();
        Desk::new().with(|case| assert!(!case.devices.iter().any(placed)));
    }
}
