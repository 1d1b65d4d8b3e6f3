//! **P08 `voltage-drop-dc`** – does enough voltage arrive at loads of direct current?
//!
//! V = Σ 2 · I · R · L ≤ 1 V from the bus to a load, of 48 V
//!
//! - I  load of each circuit on the way, at the end of discharge  [A]
//! - R  resistance of its conductors at 75 °C                     [Ω/km]
//! - L  its length, one way                                       [m]
//! - V  lost on the way from the bus to a load                    [V]
//!
//! Source:      common practice. Operators allow about 2 V from the strings to the loads at the end of discharge, of which
//!              half is taken here from the bus on, and 0.5 V from a string to the bus.
//! Valid for:   plants of 48 V; of another voltage in proportion.
//! Not covered: fuses, breakers, lugs; whether what arrives is enough for the load (B05).

use units::{Kind, Metres, Value, Volts};

use super::all_fed::CAUTION;
use super::circuits::names::subject;
use super::circuits::{BUS_TO_LOAD, Circuit, Circuits, Run, STRING_DROP};
use crate::finding::worst_first;
use crate::network::{NodeKind, PLANT};
use crate::sources::{CODE_DROP, PRACTICE};
use crate::{Asked, Case, Check, Finding, Step, Subject, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "P08",
    name: "voltage-drop-dc",
    topic: Topic::Power,
    question: "Does enough voltage arrive at loads of direct current?",
    formula: "V = Σ 2 · I · R · L ≤ 1 V from the bus to a load, 0.5 V from a string to the bus",
    symbols: &[
        Symbol {
            symbol: "I",
            meaning: "load of each circuit on the way, at the end of discharge",
            kind: Kind::Current,
        },
        Symbol { symbol: "R", meaning: "resistance of its conductors at 75 °C", kind: Kind::ResistancePerLength },
        Symbol { symbol: "L", meaning: "length of all the way, one way", kind: Kind::Elevation },
        Symbol { symbol: "V", meaning: "lost on the way", kind: Kind::Voltage },
    ],
    sources: &[&PRACTICE, &CODE_DROP],
    valid: "plants of 48 V at the end of their discharge, 42 V; of another voltage in proportion; limits are common practice",
    leaves_out: "fuses, breakers and lugs; whether what arrives is enough for the load",
    caution: Some(CAUTION),
    asked: Some(Asked::Supply),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let all = case.circuits();
    let ends = |circuit: &&Circuit| {
        let end = matches!(circuit.run, Run::Branch | Run::String | Run::Service | Run::Feeder);
        end && circuit.flows.is_direct() && circuit.wire.is_some()
    };
    let circuits: Vec<&Circuit> = all.circuits.iter().filter(ends).collect();
    if circuits.iter().any(|circuit| circuit.length.is_none()) {
        return vec![Finding::needs_data(check, Subject::Supply, "where the ends of its conductors are")];
    }
    let used = |circuit: &Circuit| lost(case, all, circuit).0 / allowed(circuit);
    let told = super::worth_telling(circuits.into_iter().map(|circuit| (used(circuit), circuit)));
    let findings: Vec<Finding> = told.into_iter().map(|circuit| judge(check, case, all, circuit)).collect();
    if findings.is_empty() {
        return vec![Finding::holds(check, Subject::Supply, "there is no circuit of direct current")];
    }
    worst_first(findings)
}

/// What is lost up to the bus, or of what comes before it up to the source, V, and how long the way is, m.
fn lost(case: &Case, all: &Circuits, circuit: &Circuit) -> (f64, f64) {
    let passed = |kind: NodeKind| match circuit.run {
        Run::Branch => kind == NodeKind::Distribution,
        Run::String => kind == NodeKind::CutOut,
        _ => matches!(kind, NodeKind::JunctionBox | NodeKind::Disconnect),
    };
    let (mut lost, mut length) = (circuit.drop, circuit.length.unwrap_or(0.0));
    let mut at = circuit;
    while passed(case.network.nodes[at.from].kind) {
        let Some(before) = all.of_node(at.from) else { break };
        lost += before.drop;
        length += before.length.unwrap_or(0.0);
        at = before;
    }
    (lost, length)
}

/// Most voltage that a load on a −48 V bus loses on its way from there, V, at the end of a discharge; none while a conductor
/// on such a way has no size or no length.
#[must_use]
pub fn greatest_fall(case: &Case) -> Option<f64> {
    let all = case.circuits();
    let branches = all.circuits.iter().filter(|circuit| circuit.run == Run::Branch && circuit.flows == PLANT);
    let falls = branches.map(|circuit| {
        let known = circuit.wire.is_some() && circuit.length.is_some();
        known.then(|| lost(case, all, circuit).0)
    });
    falls.collect::<Option<Vec<f64>>>().map(|falls| falls.into_iter().fold(0.0, f64::max))
}

/// What may be lost, V.
fn allowed(circuit: &Circuit) -> f64 {
    let practice = if circuit.run == Run::String { STRING_DROP } else { BUS_TO_LOAD };
    practice * circuit.flows.volts() / 48.0
}

fn judge(check: &Check, case: &Case, all: &Circuits, circuit: &Circuit) -> Finding {
    let (lost, length) = lost(case, all, circuit);
    let finding = Finding::at_most(check, subject(case, circuit.node), Volts(lost), Volts(allowed(circuit)), 1.0);
    let working = vec![
        Step::input("L", "length of all the way, one way", Metres(length)),
        Step::input("I", "load of the last circuit", Value::new(circuit.amperes, Kind::Current)),
        Step::input("V", "lost on the way", Volts(lost)).from_source(&PRACTICE),
    ];
    let help = "A shorter way, or a distribution nearer to it, would do";
    finding.about(super::about(case, circuit)).working(working).help(help)
}

#[cfg(test)]
mod tests {
    use catalogue::Supply;
    use project::SiteSupply;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, step};
    use crate::power::testing::{desk, disconnect, distribution, load, rectifier};

    #[test]
    fn conductors_grow_until_a_volt_is_left_to_lose() {
        let desk = desk(vec![rectifier(6000.0), distribution(8, 150.0), load(1500.0, Supply::V48Dc)]);
        let found = desk.run(&CHECK).remove(0);
        assert_eq!(found.outcome, Outcome::Holds);
        let lost = step(&found, "V");
        assert!(lost > 0.0 && lost <= 1.0, "{lost}");
    }

    fn remote(run: f64) -> Desk {
        let mut desk = desk(vec![disconnect(100.0), distribution(8, 100.0), load(1500.0, Supply::V48Dc)]);
        desk.project.brief.supply = SiteSupply::Remote48Dc;
        desk.project.brief.power.service_run = Metres(run);
        desk
    }

    #[test]
    fn a_kilometre_of_direct_current_fails_and_ten_metres_hold() {
        assert_eq!(remote(10.0).run(&CHECK)[0].outcome, Outcome::Holds);
        let found = remote(1000.0).run(&CHECK).remove(0);
        assert_eq!(found.outcome, Outcome::Fails);
        assert!(!found.help.is_empty());
    }

    #[test]
    fn an_empty_cabinet_loses_nothing() {
        assert_eq!(Desk::new().run(&CHECK)[0].outcome, Outcome::Holds);
    }
}
