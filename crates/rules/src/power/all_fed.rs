//! **P01 `all-fed`** – is everything fed that needs power?
//!
//! n_unfed = 0
//!
//! - n        inputs that need power                     [–]
//! - n_unfed  those that nothing feeds, or not rightly   [–]
//!
//! Source:      the network of power, which follows from the build.
//! Valid for:   what is placed.
//! Not covered: whether what feeds it is strong enough (other checks of Power).

use catalogue::Supply;
use project::{Fed, ItemId};

use crate::network::{NodeKind, Trouble};
use crate::sources::CATALOGUE;
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, count};

/// The caution beside every result of Power and Backup.
pub const CAUTION: &str = "Preliminary. Local code and the authority that enforces it decide; a licensed electrician or \
                           engineer confirms the design before anything is ordered or energised.";

/// The check.
pub static CHECK: Check = Check {
    code: "P01",
    name: "all-fed",
    topic: Topic::Power,
    question: "Is everything fed that needs power?",
    formula: "n_unfed = 0",
    symbols: &[
        Symbol { symbol: "n", meaning: "inputs that need power", kind: units::Kind::Count },
        Symbol { symbol: "n_unfed", meaning: "those that nothing feeds, or not rightly", kind: units::Kind::Count },
    ],
    sources: &[&CATALOGUE],
    valid: "what is placed",
    leaves_out: "whether what feeds it is strong enough",
    caution: Some(CAUTION),
    asked: Some(crate::Asked::Supply),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let own_source = |kind: NodeKind| matches!(kind, NodeKind::Service | NodeKind::Generator | NodeKind::Bus);
    let inputs = case.network.nodes.iter().filter(|node| !own_source(node.kind)).count();
    let working = |unfed: usize| {
        vec![
            Step::input("n", "inputs that need power", count(inputs)),
            Step::input("n_unfed", "those that nothing feeds, or not rightly", count(unfed)),
        ]
    };
    let mut findings: Vec<Finding> = case.network.troubles.iter().map(|trouble| told(check, case, *trouble)).collect();
    let unfed = findings.len();
    if let Some(first) = findings.first_mut() {
        first.working = working(unfed);
        return findings;
    }
    let why = if inputs == 0 { "nothing needs power" } else { "everything that needs power is fed" };
    vec![Finding::holds(check, Subject::Supply, why).working(working(0))]
}

fn told(check: &Check, case: &Case, trouble: Trouble) -> Finding {
    let (input, why, help): (Fed, Phrase, Phrase) = match trouble {
        Trouble::NoSource(input) => {
            let (name, help) = wanted(case, input);
            (input, Phrase::from(format!("nothing here gives {name}")), help.into())
        }
        Trouble::WrongSource(input, from) => {
            let why = Phrase::from("what was chosen does not give it power it runs on: ").then(name(case, from));
            (input, why, "Feed it from elsewhere, or let it be fed by itself".into())
        }
        Trouble::Loop(input, from) => {
            let why = Phrase::from("it would feed itself by way of ").then(name(case, from));
            (input, why, "Feed it from elsewhere, or let it be fed by itself".into())
        }
        Trouble::Full(input, from) => {
            let why = Phrase::from("no place is left on ").then(name(case, from));
            (input, why, "One with more places, or a second one, would do".into())
        }
    };
    let subject = match input {
        Fed::Device(id) | Fed::Second(id) => Subject::Device(id),
        Fed::Unit(id) => Subject::Unit(id),
    };
    Finding::fails(check, subject, why).about(name(case, input.item())).help(help)
}

/// Name of a device or climate unit.
fn name(case: &Case, id: ItemId) -> Phrase {
    let unit = || case.units.iter().find(|(fitted, _)| fitted.id == id).map(|(_, spec)| spec.name.as_str().into());
    case.device(id).map(|device| case.name(device)).or_else(unit).unwrap_or_default()
}

/// What an input runs on in words, and what would give it.
fn wanted(case: &Case, input: Fed) -> (&'static str, &'static str) {
    let unit = case.units.iter().find(|(fitted, _)| Fed::Unit(fitted.id) == input).map(|(_, spec)| spec.supply);
    let device = || case.device(input.item()).map(|device| device.spec.supply);
    match unit.or_else(device).unwrap_or_default() {
        Supply::V120Ac => ("120 V alternating current", "Another supply at the site, or an inverter, would do"),
        Supply::V230Ac => ("230 or 240 V alternating current", "Another supply at the site, or an inverter, would do"),
        Supply::WideAc => ("alternating current", "Another supply at the site, or an inverter, would do"),
        Supply::V48Dc => ("−48 V direct current", "Rectifiers would do"),
        Supply::V24Dc => ("24 V direct current", "A 24 V converter would do"),
        Supply::None => ("it power, as nobody has said what it runs on", "Say what it runs on"),
    }
}

#[cfg(test)]
mod tests {
    use catalogue::Device;
    use project::ChosenFeed;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack};

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, said: &str) {
        let found = desk.run(&CHECK).remove(0);
        let because = found.because.shown(units::System::Metric);
        assert_eq!((found.outcome, because.as_str()), (outcome, said));
    }

    #[test]
    fn nothing_is_left_unfed_silently() {
        let mut desk = Desk::new();
        check(&desk, Outcome::Holds, "nothing needs power");
        let load = desk.add(Device { supply: Supply::V120Ac, ..device(1) }, rack(0, 1));
        check(&desk, Outcome::Holds, "everything that needs power is fed");
        let direct = desk.add(Device { supply: Supply::V48Dc, ..device(1) }, rack(0, 2));
        check(&desk, Outcome::Fails, "nothing here gives −48 V direct current");
        let feed = ChosenFeed { load: Fed::Device(direct), from: Some(load), position: None };
        desk.project.build.feeds = vec![feed];
        check(&desk, Outcome::Fails, "what was chosen does not give it power it runs on: Box, A 1");
    }
}
