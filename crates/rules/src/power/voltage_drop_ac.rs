//! **P07 `voltage-drop-ac`** – does enough voltage arrive at loads of alternating current?
//!
//! v = 2 · I · R · L / U ≤ 3 %,  v + v_feeders ≤ 5 %;  three phases: √3 instead of 2
//!
//! - I          load of a circuit                          [A]
//! - R          resistance of its conductors at 75 °C      [Ω/km]
//! - L          its length, one way                        [m]
//! - U          nominal voltage                            [V]
//! - v          share lost over the branch                 [–]
//! - v_all      with that lost over service and feeders    [–]
//!
//! Source:      [`CODE_DROP`]: a recommendation of the code, not a rule.
//! Valid for:   loads at their most; resistance of direct current, which up to about 1/0 AWG is that of alternating current.
//! Not covered: reactance; starting of compressors; cords; what the utility loses before the service.

use units::{Amperes, Kind, Metres, Value};

use super::all_fed::CAUTION;
use super::circuits::names::subject;
use super::circuits::{ALTERNATING_BRANCH, ALTERNATING_FEEDER, Circuit, Circuits, Run};
use super::code::Code;
use crate::finding::worst_first;
use crate::network::Electricity;
use crate::sources::CODE_DROP;
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "P07",
    name: "voltage-drop-ac",
    topic: Topic::Power,
    question: "Does enough voltage arrive at loads of alternating current?",
    formula: "v = 2 · I · R · L / U ≤ 3 %; v_all ≤ 5 %",
    symbols: &[
        Symbol { symbol: "I", meaning: "load of the circuit", kind: Kind::Current },
        Symbol { symbol: "R", meaning: "resistance of its conductors at 75 °C", kind: Kind::ResistancePerLength },
        Symbol { symbol: "L", meaning: "its length, one way", kind: Kind::Elevation },
        Symbol { symbol: "U", meaning: "nominal voltage", kind: Kind::Voltage },
        Symbol { symbol: "v", meaning: "share lost over the branch", kind: Kind::Share },
        Symbol { symbol: "v_all", meaning: "with that lost over service and feeders", kind: Kind::Share },
    ],
    sources: &[&CODE_DROP],
    valid: "loads at their most; the code recommends these limits and does not demand them; resistance of direct current; \
            conductors are made larger than their current asks where that keeps the limits",
    leaves_out: "reactance, which above 1/0 AWG counts; starting of compressors; cords; what is lost before the service",
    caution: Some(CAUTION),
    asked: Some(Asked::Supply),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let all = case.circuits();
    let judged = |circuit: &&Circuit| {
        let alternating = matches!(circuit.flows, Electricity::Alternating { .. });
        alternating && circuit.wire.is_some() && !matches!(circuit.run, Run::Cord | Run::Inlet)
    };
    let circuits: Vec<&Circuit> = all.circuits.iter().filter(judged).collect();
    if circuits.iter().any(|circuit| circuit.length.is_none()) {
        return vec![Finding::needs_data(check, Subject::Supply, "where the ends of its conductors are")];
    }
    let told = super::worth_telling(circuits.into_iter().map(|circuit| (nearest(all, circuit).used(), circuit)));
    let findings: Vec<Finding> = told.into_iter().map(|circuit| judge(check, case, all, circuit)).collect();
    if findings.is_empty() {
        return vec![Finding::holds(check, Subject::Supply, "there is no circuit of alternating current")];
    }
    worst_first(findings)
}

/// Whether a circuit is of the service or a feeder.
fn of_service(circuit: &Circuit) -> bool {
    matches!(circuit.run, Run::Service | Run::Feeder)
}

/// What is lost on the way to the end of a circuit.
struct Lost {
    /// Over the circuit itself, and what it may lose.
    own: [f64; 2],
    /// With what service and feeders lose before it, and what all may lose.
    whole: [f64; 2],
}

impl Lost {
    fn used(&self) -> f64 {
        (self.own[0] / self.own[1]).max(self.whole[0] / self.whole[1])
    }
}

fn nearest(all: &Circuits, circuit: &Circuit) -> Lost {
    // Feeders carry the voltage between phases, of which a branch of one phase has its part.
    let before = all.of_node(circuit.from).map_or(0.0, |from| lost_before(all, from));
    let own = circuit.drop_share();
    let (limit, whole) = if of_service(circuit) {
        (ALTERNATING_FEEDER, ALTERNATING_FEEDER)
    } else {
        (ALTERNATING_BRANCH, ALTERNATING_BRANCH + ALTERNATING_FEEDER)
    };
    Lost { own: [own, limit], whole: [own + before, whole] }
}

fn judge(check: &Check, case: &Case, all: &Circuits, circuit: &Circuit) -> Finding {
    let share = |number: f64| Value::new(number, Kind::Share);
    let volts = circuit.flows.volts();
    let lost = nearest(all, circuit);
    let resistance =
        circuit.wire.and_then(|wire| Code::of(case.project.brief.power.code).resistance(wire.size, circuit.metal));
    let (root, formula) = if circuit.flows.poles() == 3 {
        ("√3 · ", "√3 · I · R · L / U")
    } else {
        ("2 · ", "2 · I · R · L / U")
    };
    let current = Amperes(circuit.amperes);
    let ohms = Value::new(resistance.map_or(0.0, |entry| entry.value), Kind::ResistancePerLength);
    let length = Metres(circuit.length.unwrap_or(0.0));
    let working = vec![
        Step::input("I", "load of the circuit", current),
        Step::input("R", "resistance of its conductors at 75 °C", ohms).from_source(&CODE_DROP),
        Step::input("L", "its length, one way", length),
        Step::input("U", "nominal voltage", Value::new(volts, Kind::Voltage)),
        Step::computed(
            "v",
            "share lost over it",
            formula,
            Phrase::from(root)
                .value(current)
                .text(" · ")
                .value(ohms)
                .text(" · ")
                .value(length)
                .text(" / ")
                .value(Value::new(volts, Kind::Voltage)),
            share(lost.own[0]),
        ),
        Step::input("v_all", "with that lost over service and feeders", share(lost.whole[0])),
    ];
    // The one of the two that is nearer to its limit speaks.
    let [given, allowed] = if lost.own[0] / lost.own[1] >= lost.used() { lost.own } else { lost.whole };
    let finding = Finding::at_most(check, subject(case, circuit.node), share(given), share(allowed), 1.0);
    let help = "A shorter run, a higher voltage, or conductors in parallel would do; the limit is a recommendation";
    finding.about(super::about(case, circuit)).working(working).help(help)
}

/// Share lost from the service to the end of a feeder.
fn lost_before(all: &Circuits, feeder: &Circuit) -> f64 {
    let before = all.of_node(feeder.from).map_or(0.0, |from| lost_before(all, from));
    before + if of_service(feeder) { feeder.drop_share() } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use catalogue::Supply;
    use units::Metres;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, step};
    use crate::power::testing::{desk, load, panel};

    fn at(run: f64, watts: f64) -> Desk {
        let mut desk = desk(vec![panel(12, 100.0), load(watts, Supply::V230Ac)]);
        desk.project.brief.power.service_run = Metres(run);
        desk
    }

    fn check(run: f64, watts: f64) -> Outcome {
        at(run, watts).run(&CHECK).remove(0).outcome
    }

    #[test]
    fn larger_conductors_keep_the_limit_as_long_as_there_are_any() {
        let widest = |run: f64, watts: f64| at(run, watts).with(|case| case.circuits().circuits[0].wire);
        let near_wire = widest(10.0, 9500.0);
        let far_wire = widest(200.0, 9500.0);
        assert_eq!(check(200.0, 9500.0), Outcome::Holds);
        assert!(far_wire.is_some_and(|wire| wire.for_drop) && near_wire.is_some_and(|wire| !wire.for_drop));
        assert_eq!(check(20_000.0, 9500.0), Outcome::Fails);
    }

    #[test]
    fn nothing_is_lost_over_no_length() {
        let found = at(0.0, 9500.0).run(&CHECK).remove(0);
        assert_eq!(found.outcome, Outcome::Holds);
        assert!(step(&found, "v") < 0.01);
    }

    #[test]
    fn an_empty_cabinet_loses_nothing() {
        assert_eq!(Desk::new().run(&CHECK)[0].outcome, Outcome::Holds);
    }
}
