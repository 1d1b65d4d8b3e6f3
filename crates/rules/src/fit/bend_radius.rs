//! **F08 `bend-radius`** – can the cables bend between each device and its door, and in the cable management?
//!
//! r = r_own, or 4 · d of four-pair copper, or 10 · d;  s_free ≥ r + d,  r_manager ≥ r
//!
//! - r_own      smallest bend of the cable at rest, by its own figure, at its inside                 [mm]
//! - d          diameter of the cable                                                                [mm]
//! - s_free     free distance before the face                                                        [mm]
//! - r_manager  largest bend that a cable management of the bay gives                                [mm]
//!
//! A cable management with a sharper bend is *tight*, never *fails*: it lets a cable bend too far and does not force it.
//!
//! Source:      [`sources::CABLE_BEND`] where the cable has no figure of its own; [`sources::GEOMETRY`].
//! Valid for:   cables at rest that leave by the face of a device on rails, shelves or doors and turn once; in the cable
//!              management signal cables alone, as power is led apart from them.
//! Agreement:   tests/published/fit.toml, T13-01, T13-02.
//! Not covered: parts on walls and floors; the length of connectors, which F03 asks for; cables under pull (20 · d); loose fibres.

use catalogue::Cables;
use geometry::Model;
use project::Place;
use units::Kind;

use super::cabling::{cables, is_managed, managers};
use super::names::part_name;
use super::room::{Room, SideOf, helps, length, room};
use super::subjects::{needs_model, worst_and_unfit};
use crate::{Case, Check, Finding, Outcome, Phrase, PlacedDevice, Step, Subject, Symbol, Topic, bay_letter, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "F08",
    name: "bend-radius",
    topic: Topic::Fit,
    question: "Can the cables bend between each device and its door, and in the cable management?",
    formula: "s_free ≥ r + d;  r_manager ≥ r;  r = 10 · d, of four-pair copper 4 · d, unless the cable has its own",
    symbols: &[
        Symbol { symbol: "r", meaning: "smallest bend of the cable at rest, at its inside", kind: Kind::Length },
        Symbol { symbol: "d", meaning: "diameter of the cable", kind: Kind::Length },
        Symbol { symbol: "s_free", meaning: "free distance before the face", kind: Kind::Length },
        Symbol { symbol: "r_manager", meaning: "largest bend a cable management of the bay gives", kind: Kind::Length },
    ],
    sources: &[&sources::CABLE_BEND, &sources::GEOMETRY],
    valid: "cables at rest that leave by the face of a device on rails, shelves or doors and turn once; in the cable management signal cables alone",
    leaves_out: "Parts on walls and floors; the length of connectors, which F03 asks for; cables under pull (20 · d); loose fibres.",
    caution: None,
    asked: None,
    run,
};

/// Smallest bend at rest, in diameters.
const ANY_CABLE: f64 = 10.0;
const FOUR_PAIR_COPPER: f64 = 4.0;

/// A bend that the cables of a device have to take.
struct Bend<'a> {
    device: &'a PlacedDevice<'a>,
    cables: Cables,
    at: At,
}

enum At {
    /// Before the face of the device.
    Face(Room),
    /// In the cable management of its bay: which bay, and the widest bend there.
    Manager(usize, f64),
}

/// Smallest bend of a device's cables at rest, mm, and how it comes about; none when nobody has said.
fn smallest_bend(device: &PlacedDevice<'_>, cables: Cables) -> Option<(f64, Rule)> {
    let d = cables.diameter.0;
    if cables.bend_radius.0 > 0.0 {
        Some((cables.bend_radius.0, Rule::Own))
    } else if d <= 0.0 {
        None
    } else if device.spec.copper_ports > 0 && device.spec.fibre_ports == 0 {
        Some((FOUR_PAIR_COPPER * d, Rule::FourPair))
    } else {
        Some((ANY_CABLE * d, Rule::Any))
    }
}

#[derive(Clone, Copy)]
enum Rule {
    Own,
    FourPair,
    Any,
}

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let Some(model) = &case.model else { return needs_model(check, case) };
    let bends = bends(case, model);
    let findings = worst_and_unfit(&bends, |bend| judge(check, bend), |bend, finding| tell(case, bend, finding));
    if findings.is_empty() {
        return vec![Finding::holds(check, Subject::Cabinet, "no placed device has cables")];
    }
    findings
}

fn bends<'a>(case: &'a Case, model: &Model) -> Vec<Bend<'a>> {
    let widest: Vec<Option<f64>> = (0..model.layout.bays.len())
        .map(|bay| managers(case, bay).map(|manager| manager.bend_radius.0).reduce(f64::max))
        .collect();
    let mut bends = Vec::new();
    for device in &case.devices {
        let (Some(cables), Some(placed)) = (cables(device), model.device(device.fitted.id)) else { continue };
        if matches!(device.fitted.at, Place::Wall { .. } | Place::Floor { .. }) {
            continue;
        }
        if let Some(room) = room(model, device, SideOf::Face) {
            bends.push(Bend { device, cables, at: At::Face(room) });
        }
        if let (true, Some(Some(radius))) = (is_managed(device), widest.get(placed.bay)) {
            bends.push(Bend { device, cables, at: At::Manager(placed.bay, *radius) });
        }
    }
    bends
}

fn judge(check: &Check, bend: &Bend<'_>) -> Finding {
    let subject = Subject::Device(bend.device.fitted.id);
    let Some((r, _)) = smallest_bend(bend.device, bend.cables) else {
        return Finding::needs_data(
            check,
            subject,
            format!("diameter or bend of the cables of {}", bend.device.spec.name),
        );
    };
    match &bend.at {
        At::Face(room) => Finding::at_least(check, subject, length(room.mm), length(r + bend.cables.diameter.0), 1.0),
        At::Manager(_, radius) if *radius >= r => Finding::at_least(check, subject, length(*radius), length(r), 1.0),
        At::Manager(_, radius) => {
            // It lets a cable bend too sharply and does not force it: the cable is led with care, or past it.
            let mut finding = Finding::tells(check, subject, length(*radius))
                .because("its edges let these cables bend too sharply: lead them past it");
            finding.outcome = Outcome::Tight;
            finding.allowed = Some(length(r));
            finding
        }
    }
}

fn tell(case: &Case, bend: &Bend<'_>, finding: Finding) -> Finding {
    let words = match bend.at {
        At::Face(_) => ": before its face",
        At::Manager(..) => ": in the cable management",
    };
    let finding = finding.about(case.name(bend.device).text(words));
    let Some((r, rule)) = smallest_bend(bend.device, bend.cables) else { return finding };
    let d = bend.cables.diameter.0;
    let mut steps = vec![Step::input("d", "diameter of the cable", length(d)), radius_step(r, d, rule)];
    match &bend.at {
        At::Face(room) => {
            let needed = r + d;
            let numbers = Phrase::new().number(length(r)).text(" + ").number(length(d));
            steps.push(
                Step::computed("s_needed", "distance one turn takes", "r + d", numbers, length(needed))
                    .from_source(&sources::GEOMETRY),
            );
            let to = Phrase::from("free distance before the face, to ").then(part_name(case, room.to));
            steps.push(Step::input("s_free", to, length(room.mm)).from_source(&sources::GEOMETRY));
            let mut finding = finding.working(steps);
            if needed > room.mm {
                let other = bend.device.spec.back_allowance.0;
                for help in helps(case, bend.device, SideOf::Face, needed - room.mm, other) {
                    finding = finding.help(help);
                }
            }
            finding
        }
        At::Manager(bay, radius) => {
            steps.push(
                Step::input("r_manager", "largest bend a cable management of the bay gives", length(*radius))
                    .from_source(&sources::CATALOGUE),
            );
            let finding = finding.working(steps);
            let letter = bay_letter(*bay);
            match gentler(case, *bay, r) {
                Some(name) => finding.help(format!("Take {name} in bay {letter}")),
                None => finding
                    .help(format!("Lead these cables past the cable management of bay {letter}, in arcs of their own")),
            }
        }
    }
}

fn radius_step(r: f64, d: f64, rule: Rule) -> Step {
    let by_rule = |meaning, formula, factor: &str| {
        let numbers = Phrase::from(factor).text(" · ").number(length(d));
        Step::computed("r", meaning, formula, numbers, length(r)).from_source(&sources::CABLE_BEND)
    };
    match rule {
        Rule::Own => Step::input("r", "smallest bend at rest, by the cable's own figure", length(r)),
        Rule::FourPair => by_rule("smallest bend at rest of four-pair copper", "4 · d", "4"),
        Rule::Any => by_rule("smallest bend at rest", "10 · d", "10"),
    }
}

/// The narrowest cable management whose bend is wide enough and that fits beside the rails.
fn gentler(case: &Case, bay: usize, radius: f64) -> Option<String> {
    let beside = case.layout()?.bays.get(bay)?.beside_rails();
    let fits = |manager: &&catalogue::Manager| manager.bend_radius.0 >= radius && manager.width.0 <= beside;
    let least = case.catalogue.managers.values().filter(fits).min_by(|a, b| a.width.0.total_cmp(&b.width.0))?;
    Some(least.name.clone())
}

#[cfg(test)]
mod tests {
    use catalogue::{Manager, ManagerSort, Trade};
    use units::{Kilograms, Millimetres};

    use super::super::trial::words;
    use super::*;
    use crate::heat::testing::{Desk, device, rack, step};

    /// A device 80 mm from its door with cables of this diameter and bend, in a bay without cable management.
    fn desk(diameter: f64, bend_radius: f64) -> Desk {
        let mut desk = Desk::new();
        let mut one = device(1);
        one.cables = Some(Cables { count: 4, diameter: Millimetres(diameter), bend_radius: Millimetres(bend_radius) });
        desk.add(one, rack(0, 5));
        desk
    }

    fn with_manager(mut desk: Desk, bend_radius: f64) -> Desk {
        let manager = Manager {
            name: "Rings".to_owned(),
            sort: ManagerSort::Rings,
            width: Millimetres(50.0),
            depth: Millimetres(50.0),
            bend_radius: Millimetres(bend_radius),
            mass_per_unit: Kilograms(0.1),
            trade: Trade::default(),
        };
        desk.catalogue.managers.insert("rings".into(), manager);
        desk.project.build.bays[0].manager_right = Some("rings".into());
        desk
    }

    /// The worst finding: outcome, what there is and what is needed.
    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, given: f64, needed: f64) -> Finding {
        let finding = desk.run(&CHECK).remove(0);
        assert_eq!(finding.outcome, outcome, "{finding:?}");
        assert!((finding.given.unwrap().number - given).abs() < 1e-9, "{:?} for {given}", finding.given);
        assert!((finding.allowed.unwrap().number - needed).abs() < 1e-9, "{:?} for {needed}", finding.allowed);
        finding
    }

    #[test]
    fn one_turn_takes_the_bend_and_the_cable_itself() {
        check(&desk(6.0, 74.0), Outcome::Holds, 80.0, 80.0);
        let finding = check(&desk(6.0, 84.0), Outcome::Fails, 80.0, 90.0);
        assert_eq!(words(&finding.help[0]), "Set the front rails of bay A 10 mm further in");
    }

    #[test]
    fn a_cable_without_a_figure_of_its_own_bends_by_the_rule() {
        let finding = check(&desk(7.0, 0.0), Outcome::Holds, 80.0, 77.0);
        assert_eq!(step(&finding, "r"), 70.0);
        let mut copper = desk(7.0, 0.0);
        if let project::DeviceWhat::Own(device) = &mut copper.project.build.devices[0].what {
            device.copper_ports = 4;
        }
        let finding = check(&copper, Outcome::Holds, 80.0, 35.0);
        assert_eq!(step(&finding, "r"), 28.0);
    }

    #[test]
    fn a_sharper_bend_in_the_cable_management_is_tight() {
        check(&with_manager(desk(6.0, 30.0), 30.0), Outcome::Holds, 30.0, 30.0);
        let finding = check(&with_manager(desk(6.0, 31.0), 30.0), Outcome::Tight, 30.0, 31.0);
        assert!(words(&finding.about).ends_with("in the cable management"));
        assert!(words(&finding.help[0]).starts_with("Lead these cables past"));
    }

    #[test]
    fn says_so_without_data() {
        let finding = desk(0.0, 0.0).run(&CHECK).remove(0);
        assert_eq!(finding.outcome, Outcome::NeedsData);
        assert_eq!(Desk::new().run(&CHECK)[0].outcome, Outcome::Holds);
    }
}
