//! **P06 `ampacity`** – do all conductors bear what flows, and does their breaker protect them?
//!
//! I ≤ I_z = min(I_90 · k_a · k_b, I_t),  I_breaker ≤ next standard rating ≥ I_z
//!
//! - I          load of the circuit                                    [A]
//! - I_90       ampacity of the size in its own column of 90 °C        [A]
//! - k_a        correction for the air around it                       [–]
//! - k_b        correction for other conductors in its bundle          [–]
//! - I_t        ampacity of the size in the column of its terminals    [A]
//! - I_z        what it bears                                          [A]
//! - I_least    125 % of what is continuous and the rest, at most I_t  [A]
//! - I_breaker  its breaker                                            [A]
//!
//! Source:      [`CODE_CONDUCTORS`], [`CODE_BREAKERS`]; the tables of the edition asked for.
//! Valid for:   insulation of 90 °C; air as `circuits` states; single conductors, not more than the table has.
//! Not covered: conductors in parallel; roofs in the sun; sizes by IEC 60364 where that is in force.

use units::{Amperes, Celsius, Kind, Value};

use super::all_fed::CAUTION;
use super::circuits::names::subject;
use super::circuits::{Circuit, Wire, metal_name};
use super::code::{Code, Column};
use crate::finding::worst_first;
use crate::sources::{CODE_BREAKERS, CODE_CONDUCTORS, PRACTICE};
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "P06",
    name: "ampacity",
    topic: Topic::Power,
    question: "Do all conductors bear what flows, and does their breaker protect them?",
    formula: "I ≤ I_z = min(I_90 · k_a · k_b, I_t); I_breaker ≤ next standard rating ≥ I_z",
    symbols: &[
        Symbol { symbol: "I", meaning: "load of the circuit", kind: Kind::Current },
        Symbol { symbol: "I_90", meaning: "ampacity of the size in its column of 90 °C", kind: Kind::Current },
        Symbol { symbol: "k_a", meaning: "correction for the air around it", kind: Kind::Ratio },
        Symbol { symbol: "k_b", meaning: "correction for others in its bundle", kind: Kind::Ratio },
        Symbol { symbol: "I_t", meaning: "ampacity in the column of its terminals", kind: Kind::Current },
        Symbol { symbol: "I_z", meaning: "what it bears", kind: Kind::Current },
        Symbol { symbol: "I_breaker", meaning: "its breaker", kind: Kind::Current },
    ],
    sources: &[&CODE_CONDUCTORS, &CODE_BREAKERS, &PRACTICE],
    valid: "insulation of 90 °C; air in the cabinet 10 K above the hottest outdoor air and bundles of at most nine \
            conductors that carry current (common practice); sites of the IEC too are sized by these tables",
    leaves_out: "conductors in parallel; conduits on roofs in the sun; sizes by IEC 60364 where that is in force",
    caution: Some(CAUTION),
    asked: Some(Asked::Supply),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    // Without a breaker there is nothing to protect a conductor, which P04 tells.
    let wired = case.circuits().circuits.iter().filter(|circuit| circuit.is_wired());
    let judged = wired.filter_map(|circuit| Some((circuit, circuit.breaker?)));
    let used = |circuit: &Circuit| circuit.wire.map_or(f64::INFINITY, |wire| circuit.amperes / wire.ampacity);
    let told = super::worth_telling(judged.map(|(circuit, _)| (used(circuit), circuit)));
    let findings: Vec<Finding> = told.into_iter().filter_map(|circuit| judge(check, case, circuit)).collect();
    if findings.is_empty() {
        return vec![Finding::holds(check, Subject::Supply, "there is no conductor")];
    }
    worst_first(findings)
}

fn judge(check: &Check, case: &Case, circuit: &Circuit) -> Option<Finding> {
    let breaker = circuit.breaker?;
    let subject = subject(case, circuit.node);
    let about = super::about(case, circuit);
    let Some(wire) = circuit.wire else {
        let why = Phrase::from("no size of the table is protected by ")
            .value(Amperes(breaker))
            .text(" in air of ")
            .value(Celsius(circuit.ambient));
        let finding = Finding::fails(check, subject, why).about(about);
        return Some(finding.help("Several smaller circuits, a higher voltage, or cooler air would do"));
    };
    let finding = Finding::at_most(check, subject, Amperes(circuit.amperes), Amperes(wire.ampacity), 1.0);
    Some(finding.about(about).working(working(case, circuit, wire, breaker)))
}

fn working(case: &Case, circuit: &Circuit, wire: Wire, breaker: f64) -> Vec<Step> {
    let code = Code::of(case.project.brief.power.code);
    let ratio = |number: f64| Value::new(number, Kind::Ratio);
    let size = format!("ampacity of {} {} in its column of 90 °C", wire.size.name(), metal_name(circuit.metal));
    let conductors = format!("{} conductors that carry current", circuit.bundled);
    let mut steps = vec![Step::input("I", "load of the circuit", Amperes(circuit.amperes))];
    // The circuit has conductors, so all of these stand in the tables.
    let (Some(own), Some(air), Some(bundle)) = (
        code.ampacity(wire.size, circuit.metal, Column::C90),
        code.ambient_factor(Column::C90, circuit.ambient),
        code.bundling_factor(circuit.bundled),
    ) else {
        return steps;
    };
    let warm = Phrase::from("air of ").value(Celsius(circuit.ambient));
    steps.extend([
        Step::input("I_90", size, Amperes(own.value)).from_source(own.source),
        Step::input("k_a", warm, ratio(air.value)).from_source(air.source),
        Step::input("k_b", conductors, ratio(bundle.value)).from_source(bundle.source),
        Step::input("I_t", "ampacity in the column of its terminals", Amperes(wire.terminal_ampacity)),
        Step::computed(
            "I_z",
            "what it bears",
            "min(I_90 · k_a · k_b, I_t)",
            Phrase::from("min(")
                .number(Amperes(own.value))
                .text(" · ")
                .number(ratio(air.value))
                .text(" · ")
                .number(ratio(bundle.value))
                .text(", ")
                .number(Amperes(wire.terminal_ampacity))
                .text(")"),
            Amperes(wire.ampacity),
        ),
    ]);
    if let Some(next) = code.standard_rating(wire.ampacity) {
        let meaning = Phrase::from("its breaker, at most ").value(Amperes(next.value));
        steps.push(Step::input("I_breaker", meaning, Amperes(breaker)).from_source(next.source));
    }
    steps
}
