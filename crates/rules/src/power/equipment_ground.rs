//! **P09 `equipment-ground`** – has every circuit a grounding conductor as large as its breaker asks for?
//!
//! A_ground ≥ min(A(I_breaker), A_line)
//!
//! - I_breaker     breaker of the circuit                                       [A]
//! - A_ground      area of its equipment grounding conductor                    [cm²]
//! - A(I_breaker)  least area by the table                                      [cm²]
//! - A_line        area of its line conductors, which it need not exceed        [cm²]
//!
//! Source:      NFPA 70, Table 250.122 and 250.122(A) of the edition in the brief; areas by the gauge's definition.
//! Valid for:   circuits of alternating current behind the disconnect.
//! Agreement:   T08-23, T08-24; both sides of the limit below.
//! Not covered: direct current, whose frames are bonded to the ground bar; conduit that serves as ground; that it grows where
//!              line conductors are larger for their voltage lost, which the sizing sees to.

use project::Conductor;
use units::{Amperes, Kind, Value};

use super::all_fed::CAUTION;
use super::circuits::names::subject;
use super::circuits::{Circuit, Run, metal_name};
use super::code::{Code, Size};
use crate::network::Electricity;
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "P09",
    name: "equipment-ground",
    topic: Topic::Power,
    question: "Has every circuit a grounding conductor as large as its breaker asks for?",
    formula: "A_ground ≥ min(A(I_breaker), A_line)",
    symbols: &[
        Symbol { symbol: "I_breaker", meaning: "breaker of the circuit", kind: Kind::Current },
        Symbol { symbol: "A_ground", meaning: "area of its grounding conductor", kind: Kind::SmallArea },
        Symbol { symbol: "A(I_breaker)", meaning: "least area by the table", kind: Kind::SmallArea },
        Symbol { symbol: "A_line", meaning: "area of its line conductors", kind: Kind::SmallArea },
    ],
    sources: &[&sources::NFPA_70],
    valid: "circuits of alternating current behind the disconnect",
    leaves_out: "direct current, whose frames are bonded to the ground bar; conduit that serves as ground; that it grows \
                 where line conductors are larger for their voltage lost, which the sizing sees to",
    caution: Some(CAUTION),
    asked: Some(Asked::Supply),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let mut steps = Vec::new();
    let mut told: Vec<f64> = Vec::new();
    let mut findings = Vec::new();
    for circuit in case.circuits().circuits.iter().filter(|circuit| is_grounded(circuit)) {
        // Without breaker or conductors the checks of those tell it.
        let (Some(breaker), Some(wire)) = (circuit.breaker, circuit.wire) else { continue };
        let (working, wrong) = judge(case, circuit.metal, breaker, wire.size, wire.ground);
        if let Some(finding) = wrong {
            findings
                .push(finding(check, subject(case, circuit.node)).about(super::about(case, circuit)).working(working));
        } else if !told.contains(&breaker) {
            told.push(breaker);
            steps.extend(working);
        }
    }
    if !findings.is_empty() {
        return findings;
    }
    let none = "there is no circuit of alternating current behind a disconnect";
    let why = if steps.is_empty() { none } else { "every circuit has it" };
    vec![Finding::holds(check, Subject::Supply, why).working(steps)]
}

/// Whether a grounding conductor belongs to it.
fn is_grounded(circuit: &Circuit) -> bool {
    circuit.is_wired() && circuit.run != Run::Service && matches!(circuit.flows, Electricity::Alternating { .. })
}

type Told = Box<dyn Fn(&Check, Subject) -> Finding>;

/// The working of a circuit, and what is wrong with it.
fn judge(case: &Case, metal: Conductor, breaker: f64, line: Size, ground: Option<Size>) -> (Vec<Step>, Option<Told>) {
    let asked = Code::of(case.project.brief.power.code).equipment_ground(breaker, metal);
    let mut steps = vec![Step::input("I_breaker", "breaker of the circuit", Amperes(breaker))];
    let Some(asked) = asked else {
        let told = move |check: &Check, subject| {
            let why = Phrase::from("the table of grounding conductors ends below ").value(Amperes(breaker));
            Finding::out_of_range(check, subject, why)
        };
        return (steps, Some(Box::new(told)));
    };
    let area = |size: Size| Value::new(size.area() / 100.0, Kind::SmallArea);
    let named = |what: &str, size: Size| format!("{what}, {} {}", size.name(), metal_name(metal));
    steps.push(
        Step::input("A(I_breaker)", named("least by the table", asked.value), area(asked.value))
            .from_source(asked.source),
    );
    steps.push(Step::input("A_line", named("line conductors", line), area(line)));
    let least = asked.value.min(line);
    if let Some(ground) = ground {
        steps.push(Step::input("A_ground", named("grounding conductor", ground), area(ground)));
        if ground >= least {
            return (steps, None);
        }
    }
    let told = move |check: &Check, subject| {
        let why = match ground {
            Some(ground) => format!("its grounding conductor is {}", ground.name()),
            None => "it has no grounding conductor".to_owned(),
        };
        Finding::fails(check, subject, why).help(format!("Take at least {}", least.name()))
    };
    (steps, Some(Box::new(told)))
}

#[cfg(test)]
mod tests {
    use catalogue::Supply;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, step};
    use crate::power::testing::{desk, disconnect, load, panel};

    #[track_caller]
    fn check(breaker: f64, line: &str, ground: Option<&str>, outcome: Option<Outcome>) {
        let size = |name: &str| Size::named(name).unwrap();
        let (_, wrong) = Desk::new().with(|case| judge(case, Conductor::Copper, breaker, size(line), ground.map(size)));
        assert_eq!(wrong.map(|wrong| wrong(&CHECK, Subject::Supply).outcome), outcome, "{breaker} A, {ground:?}");
    }

    #[test]
    fn the_grounding_conductor_is_as_large_as_the_breaker_asks() {
        check(20.0, "12 AWG", Some("12 AWG"), None);
        check(20.0, "12 AWG", Some("14 AWG"), Some(Outcome::Fails));
        check(60.0, "6 AWG", Some("10 AWG"), None);
        check(60.1, "6 AWG", Some("10 AWG"), Some(Outcome::Fails));
        check(60.0, "6 AWG", None, Some(Outcome::Fails));
        // It need not be larger than the line conductors.
        check(15.0, "16 AWG", Some("16 AWG"), None);
        check(1200.1, "500 kcmil", Some("4/0 AWG"), Some(Outcome::OutOfRange));
    }

    #[test]
    fn all_circuits_of_a_cabinet_have_theirs() {
        let found = desk(vec![disconnect(100.0), panel(12, 100.0), load(600.0, Supply::V120Ac)]).run(&CHECK).remove(0);
        assert_eq!(found.outcome, Outcome::Holds);
        assert!((step(&found, "A_ground") - Size::Awg8.area() / 100.0).abs() < 1e-12);
        let nothing = Desk::new().run(&CHECK).remove(0);
        assert_eq!((nothing.outcome, nothing.working.len()), (Outcome::Holds, 0));
    }
}
