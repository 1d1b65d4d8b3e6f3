//! **W11 `door-load`** – do the doors carry what is fitted to them?
//!
//! m_door = Σ m of climate units and devices on one leaf
//!
//! - m_door  mass on the leaf    [kg]
//! - m_max   what it carries     [kg]
//!
//! Source:      figures of the catalogue and the user.
//! Valid for:   loads at rest, as the door's maker has in mind.
//! Not covered: wind on the open leaf. The reserve of a tenth is common practice, no source.

use project::{End, Place, UnitAt};
use units::Kind;

use super::sums::{CAUTION, kilograms, unsaid};
use crate::finding::worst_first;
use crate::sources::CATALOGUE;
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, bay_letter};

/// Share of the limit above which it is tight. Common practice, no source.
const RESERVE: f64 = 0.9;

/// The check.
pub static CHECK: Check = Check {
    code: "W11",
    name: "door-load",
    topic: Topic::Weight,
    question: "Do the doors carry what is fitted to them?",
    formula: "Σ m ≤ m_max",
    symbols: &[
        Symbol { symbol: "m_door", meaning: "mass on one leaf", kind: Kind::Mass },
        Symbol { symbol: "m_max", meaning: "what it carries", kind: Kind::Mass },
    ],
    sources: &[&CATALOGUE],
    valid: "loads at rest",
    leaves_out: "wind on the open leaf",
    caution: Some(CAUTION),
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let build = &case.project.build;
    let Some(door) = case.catalogue.doors.get(&build.door) else {
        return vec![Finding::needs_data(check, Subject::Cabinet, case.missing_parts())];
    };
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let mut findings = Vec::new();
    for bay in 0..build.bays.len() {
        for end in [End::Front, End::Rear] {
            let units = case.units.iter().filter(|(fitted, _)| fitted.at == UnitAt::Door { bay, end });
            let mut sum = 0.0 + units.map(|(_, spec)| spec.mass.0).sum::<f64>();
            let mut unknown = Vec::new();
            for device in case.devices.iter().filter(|device| device.space.is_some()) {
                if !matches!(device.fitted.at, Place::Door { bay: at, end: on, .. } if at == bay && on == end) {
                    continue;
                }
                match device.spec.mass {
                    Some(mass) => sum += mass.0,
                    None => unknown.push(geometry::Of::Device(device.fitted.id)),
                }
            }
            if !unknown.is_empty() {
                findings.push(unsaid(check, case, &unknown));
                continue;
            }
            let end = if end == End::Front { "front" } else { "rear" };
            let about = format!("{end} door {}", bay_letter(bay));
            let working = vec![
                Step::input("m_door", format!("on the {about}"), kilograms(sum)).from_source(&CATALOGUE),
                Step::input("m_max", door.name.as_str(), door.carries).from_source(&CATALOGUE),
            ];
            let finding = Finding::at_most(check, Subject::Bay(bay), kilograms(sum), door.carries, RESERVE);
            findings.push(finding.about(about).working(working).help(stronger(case, sum)));
        }
    }
    worst_first(findings)
}

/// The weakest door of the catalogue that carries so much, kg.
fn stronger(case: &Case, kg: f64) -> Phrase {
    let others = case.catalogue.doors.values().filter(|door| kg <= RESERVE * door.carries.0);
    match others.reduce(|least, one| if one.carries.0 < least.carries.0 { one } else { least }) {
        Some(door) => Phrase::from(door.name.as_str()).text(" carries ").value(door.carries),
        None => "No door of this catalogue carries it; a unit on a side wall would do".into(),
    }
}

#[cfg(test)]
mod tests {
    use units::Kilograms;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device};

    fn check(carries: f64, outcome: Outcome) {
        let mut desk = Desk::new();
        // The desk's exchanger weighs 20 kg.
        desk.exchanger(80.0, 0);
        for door in desk.catalogue.doors.values_mut() {
            door.carries = Kilograms(carries);
        }
        let found = desk.run(&CHECK);
        assert_eq!((found[0].outcome, found.len()), (outcome, 1), "{carries} kg");
    }

    #[test]
    fn the_limit_holds_on_both_sides() {
        check(22.3, Outcome::Holds);
        check(22.2, Outcome::Tight);
        check(20.0, Outcome::Tight);
        check(19.9, Outcome::Fails);
        check(0.0, Outcome::Fails);
    }

    #[test]
    fn devices_on_the_leaf_count_and_a_door_that_carries_more_is_named() {
        let mut desk = Desk::new();
        desk.exchanger(80.0, 0);
        let nought = units::Millimetres(0.0);
        desk.add(device(1), Place::Door { bay: 0, end: End::Front, across: nought, up: nought });
        let mut strong = desk.catalogue.doors[&"door".into()].clone();
        (strong.name, strong.carries) = ("Strong".to_owned(), Kilograms(90.0));
        desk.catalogue.doors.insert("strong".into(), strong);
        desk.catalogue.doors.get_mut(&"door".into()).unwrap().carries = Kilograms(29.0);
        let finding = desk.run(&CHECK).remove(0);
        assert_eq!((finding.outcome, finding.given.map(|given| given.number)), (Outcome::Fails, Some(30.0)));
        assert_eq!(finding.help[0].shown(units::System::Metric), "Strong carries 90\u{a0}kg");
    }

    #[test]
    fn a_device_without_a_mass_is_asked_for() {
        let mut desk = Desk::new();
        let nought = units::Millimetres(0.0);
        let at = Place::Door { bay: 0, end: End::Rear, across: nought, up: nought };
        desk.add(catalogue::Device { mass: None, ..device(1) }, at);
        assert_eq!(desk.run(&CHECK)[0].outcome, Outcome::NeedsData);
    }
}
