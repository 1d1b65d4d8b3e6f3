//! **W10 `rail-load`** – do each bay's rails carry what hangs on them?
//!
//! m_rail = Σ m of devices on rails and on their shelves
//!
//! - m_rail  mass on the rails of one bay    [kg]
//! - m_max   what they carry                 [kg]
//!
//! Source:      figures of the catalogue and the user.
//! Valid for:   loads at rest, spread over front and rear rails as the maker has in mind.
//! Not covered: shaking, deep devices on front rails only. The reserve of a tenth is common practice, no source.

use project::Place;
use units::Kind;

use super::sums::{CAUTION, heaviest, helped, kilograms, unsaid};
use crate::finding::worst_first;
use crate::sources::CATALOGUE;
use crate::{Case, Check, Finding, Step, Subject, Symbol, Topic, bay_letter};

/// Share of the limit above which it is tight. Common practice, no source.
const RESERVE: f64 = 0.9;

/// The check.
pub static CHECK: Check = Check {
    code: "W10",
    name: "rail-load",
    topic: Topic::Weight,
    question: "Do each bay's rails carry what hangs on them?",
    formula: "Σ m ≤ m_max",
    symbols: &[
        Symbol { symbol: "m_rail", meaning: "mass on the rails of one bay", kind: Kind::Mass },
        Symbol { symbol: "m_max", meaning: "what they carry", kind: Kind::Mass },
    ],
    sources: &[&CATALOGUE],
    valid: "loads at rest",
    leaves_out: "shaking, deep devices on front rails only",
    caution: Some(CAUTION),
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let build = &case.project.build;
    let Some(family) = case.catalogue.families.get(&build.family) else {
        return vec![Finding::needs_data(check, Subject::Cabinet, case.missing_parts())];
    };
    if case.devices.len() < build.devices.len() {
        return vec![Finding::needs_data(check, Subject::Cabinet, case.missing_parts())];
    }
    let mut findings = Vec::new();
    for bay in 0..build.bays.len() {
        let mut sum = 0.0;
        let mut unknown = Vec::new();
        let mut on_rails = Vec::new();
        for device in case.devices.iter().filter(|device| device.space.is_some()) {
            let place = match device.fitted.at {
                Place::Shelf { shelf, .. } => build.device(shelf).map_or(Place::Unplaced, |shelf| shelf.at),
                place => place,
            };
            if !matches!(place, Place::Rack { bay: at, .. } if at == bay) {
                continue;
            }
            on_rails.push(device);
            match device.spec.mass {
                Some(mass) => sum += mass.0,
                None => unknown.push(geometry::Of::Device(device.fitted.id)),
            }
        }
        if !unknown.is_empty() {
            findings.push(unsaid(check, case, &unknown));
            continue;
        }
        let (letter, number) = (bay_letter(bay), on_rails.len());
        let working = vec![
            Step::input("m_rail", format!("{number} devices on the rails of bay {letter}"), kilograms(sum))
                .from_source(&CATALOGUE),
            Step::input("m_max", "what they carry", family.rail_load).from_source(&CATALOGUE),
        ];
        let finding = Finding::at_most(check, Subject::Bay(bay), kilograms(sum), family.rail_load, RESERVE);
        let finding = finding.about(format!("bay {letter}")).working(working);
        let heaviest = heaviest(case, "On the floor or in another bay would do: ", on_rails.into_iter());
        findings.push(helped(finding, heaviest));
    }
    worst_first(findings)
}

#[cfg(test)]
mod tests {
    use catalogue::Device;
    use project::Place;
    use units::Kilograms;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack};

    fn check(kg: f64, outcome: Outcome) {
        let mut desk = Desk::two_bays();
        desk.add(Device { mass: Some(Kilograms(kg)), ..device(1) }, rack(1, 1));
        desk.add(Device { mass: Some(Kilograms(9000.0)), ..device(1) }, Place::Unplaced);
        let found = desk.run(&CHECK);
        assert_eq!((found[0].outcome, found[0].subject, found.len()), (outcome, Subject::Bay(1), 1), "{kg} kg");
    }

    #[test]
    fn the_limit_holds_on_both_sides() {
        check(270.0, Outcome::Holds);
        check(270.1, Outcome::Tight);
        check(300.0, Outcome::Tight);
        check(300.1, Outcome::Fails);
    }

    #[test]
    fn the_heaviest_device_of_the_bay_is_named_and_shelves_bear_on_the_rails() {
        let mut desk = Desk::new();
        let shelf = desk.add(Device { mass: Some(Kilograms(5.0)), ..device(1) }, rack(0, 5));
        let at = Place::Shelf { shelf, across: units::Millimetres(0.0) };
        desk.add(Device { mount: catalogue::Mount::Shelf, mass: Some(Kilograms(310.0)), ..device(1) }, at);
        let finding = desk.run(&CHECK).remove(0);
        assert_eq!(finding.given.map(|given| given.number), Some(315.0));
        let help = finding.help[0].shown(units::System::Metric);
        assert_eq!(help, "On the floor or in another bay would do: Box, on a shelf, 310\u{a0}kg");
    }

    #[test]
    fn a_device_without_a_mass_is_named() {
        let mut desk = Desk::new();
        desk.add(Device { mass: None, ..device(1) }, rack(0, 1));
        assert_eq!(desk.run(&CHECK)[0].outcome, Outcome::NeedsData);
    }
}
