//! **P11 `fault-rating`** – does every switch and breaker bear the fault current that the service can feed?
//!
//! I_fault ≤ I_rated
//!
//! - I_fault  fault current available where the service enters           [A]
//! - I_rated  fault current that a part interrupts or withstands         [A]
//!
//! Source:      NFPA 70, 110.9 and 110.10, from memory; ratings of the loaded catalogue.
//! Valid for:   alternating current; the figure that the utility gives.
//! Agreement:   both sides of the limit below.
//! Not covered: what the run of conductors takes off the fault current, ratings of breakers in series, batteries, generators.

use super::all_fed::CAUTION;
use super::code::{Code, Table};
use super::given::roles;
use crate::finding::worst_first;
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, sources};
use units::{Kind, Value};

/// The check.
pub static CHECK: Check = Check {
    code: "P11",
    name: "fault-rating",
    topic: Topic::Power,
    question: "Does every switch and breaker bear the fault current that the service can feed?",
    formula: "I_fault ≤ I_rated",
    symbols: &[
        Symbol { symbol: "I_fault", meaning: "fault current available where the service enters", kind: Kind::Current },
        Symbol { symbol: "I_rated", meaning: "fault current a part interrupts or withstands", kind: Kind::Current },
    ],
    sources: &[&sources::NFPA_70, &sources::CATALOGUE],
    valid: "alternating current; the figure that the utility gives",
    leaves_out: "what the run of conductors takes off the fault current, ratings of breakers in series, batteries, generators",
    caution: Some(CAUTION),
    asked: Some(Asked::Supply),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let rated: Vec<_> = roles(case).filter_map(|(device, role)| Some((device, role.interrupts()?))).collect();
    if rated.is_empty() {
        return vec![Finding::holds(check, Subject::Supply, "nothing here has to interrupt a fault of the service")];
    }
    let brief = &case.project.brief;
    if super::given::mains(brief.supply).volts.is_empty() {
        let why = "the supply is direct current, whose faults this does not cover";
        return vec![Finding::out_of_range(check, Subject::Supply, why)];
    }
    let Some(available) = brief.power.fault_current else {
        let why = "fault current available where the service enters";
        let help = "Ask the utility, and say it in the brief";
        return vec![Finding::needs_data(check, Subject::Supply, why).help(help)];
    };
    let available = Value::new(available.0, Kind::Current);
    let place = Code::of(brief.power.code).place(Table::FaultRating);
    let findings = rated.into_iter().map(|(device, rating)| {
        let rating = Value::new(rating.0, Kind::Current);
        let steps = vec![
            Step::input("I_fault", "fault current available where the service enters, said in the brief", available),
            Step::input("I_rated", Phrase::from("of ").then(case.name(device)), rating).from_source(place),
        ];
        Finding::at_most(check, Subject::Device(device.fitted.id), available, rating, 1.0)
            .about(case.name(device))
            .working(steps)
            .help("Take a part that bears more, or fuses before it that limit the fault current")
    });
    worst_first(findings.collect())
}

#[cfg(test)]
mod tests {
    use units::Amperes;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, rack, step};
    use crate::power::testing::{disconnect, interrupting};

    #[track_caller]
    fn check(fault: Option<f64>, outcome: Outcome, given: Option<f64>) -> Vec<Finding> {
        let mut desk = Desk::new();
        desk.add(disconnect(100.0), rack(0, 1));
        desk.add(interrupting(10_000.0), rack(0, 2));
        desk.project.brief.power.fault_current = fault.map(Amperes);
        let found = desk.run(&CHECK);
        assert_eq!((found[0].outcome, found[0].given.map(|value| value.number)), (outcome, given));
        found
    }

    #[test]
    fn the_least_rating_decides() {
        let found = check(Some(10_000.0), Outcome::Holds, Some(10_000.0));
        assert_eq!((step(&found[0], "I_rated"), found.len()), (10_000.0, 1));
        assert_eq!(check(Some(10_001.0), Outcome::Fails, Some(10_001.0)).len(), 1);
        assert_eq!(check(Some(22_001.0), Outcome::Fails, Some(22_001.0)).len(), 2);
    }

    #[test]
    fn the_fault_current_is_asked_for_and_not_guessed() {
        check(None, Outcome::NeedsData, None);
        assert_eq!(Desk::new().run(&CHECK)[0].outcome, Outcome::Holds);
    }

    #[test]
    fn says_nothing_of_direct_current() {
        let mut desk = Desk::new();
        desk.add(disconnect(100.0), rack(0, 1));
        desk.project.brief.supply = project::SiteSupply::Remote48Dc;
        assert_eq!(desk.run(&CHECK)[0].outcome, Outcome::OutOfRange);
    }
}
