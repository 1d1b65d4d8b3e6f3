//! **F13 `all-placed`** – does every device have a place that suits how it is held?
//!
//! n_placed = n
//!
//! - n         devices of the project                                                          [–]
//! - n_placed  devices held the way they are made for, by something that is there               [–]
//!
//! Source:      [`sources::CATALOGUE`]: how a device is held.
//! Valid for:   all devices. What is made for a wall may hang on a door and the other way round; what is made for rails
//!              may stand on a shelf.
//! Agreement:   hand calculation below.
//! Not covered: whether a shelf or a door carries the weight.

use catalogue::Mount;
use project::{DeviceWhat, FittedDevice, ItemId, Place};
use units::Kind;

use super::subjects::needs_model;
use crate::{Asked, Case, Check, Finding, Phrase, PlacedDevice, Step, Subject, Symbol, Topic, count, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "F13",
    name: "all-placed",
    topic: Topic::Fit,
    question: "Does every device have a place that suits how it is held?",
    formula: "n_placed = n",
    symbols: &[
        Symbol { symbol: "n", meaning: "devices of the project", kind: Kind::Count },
        Symbol {
            symbol: "n_placed",
            meaning: "devices that are placed and held the way they are made for",
            kind: Kind::Count,
        },
    ],
    sources: &[&sources::CATALOGUE],
    valid: "all devices; wall and door parts may change places, rack devices may stand on a shelf",
    leaves_out: "Whether a shelf or a door carries the weight.",
    caution: None,
    asked: Some(Asked::Devices),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if case.model.is_none() {
        return needs_model(check, case);
    }
    let all = &case.project.build.devices;
    // The worst first: what fails before what needs data, in the order of the devices.
    let mut unfit: Vec<Finding> = Vec::new();
    for finding in all.iter().filter_map(|device| judge(check, case, device)) {
        let at = unfit.partition_point(|other| other.outcome >= finding.outcome);
        unfit.insert(at, finding);
    }
    let placed = count(all.len() - unfit.len());
    let steps = vec![
        Step::input("n", "devices of the project", count(all.len())),
        Step::input("n_placed", "devices that are placed and held the way they are made for", placed),
    ];
    match unfit.first_mut() {
        Some(first) => {
            first.working = steps;
            // Looked for once: a place for each of many would take longer than all other checks together.
            first.help.extend(place_for(case, first.subject));
        }
        None if all.is_empty() => return vec![Finding::holds(check, Subject::Cabinet, "no devices yet")],
        None => {
            let finding = Finding::tells(check, Subject::Cabinet, placed).because("every device has its place");
            return vec![finding.working(steps)];
        }
    }
    unfit
}

/// What is wrong with the place of a device, if anything is.
fn judge(check: &Check, case: &Case, fitted: &FittedDevice) -> Option<Finding> {
    let subject = Subject::Device(fitted.id);
    let Some(device) = case.device(fitted.id) else {
        let part = match &fitted.what {
            DeviceWhat::Part(part) => part.as_str(),
            DeviceWhat::Own(device) => device.name.as_str(),
        };
        return Some(Finding::needs_data(check, subject, format!("{part} is not in this catalogue")));
    };
    let (why, help) = unsuitable(case, device)?;
    Some(Finding::fails(check, subject, why).about(case.name(device)).help(help))
}

/// A free place for a device that has none.
fn place_for(case: &Case, subject: Subject) -> Option<Phrase> {
    let Subject::Device(id) = subject else { return None };
    let device = case.device(id).filter(|device| device.fitted.at == Place::Unplaced)?;
    let name = device.spec.name.as_str();
    Some(match project::first_free_place(&case.project.build, device.spec, case.catalogue) {
        Place::Unplaced => format!("No place is free for {name}: take a larger cabinet").into(),
        place => format!("{} is free for {name}", words(place)).into(),
    })
}

fn unsuitable(case: &Case, device: &PlacedDevice<'_>) -> Option<(&'static str, Phrase)> {
    let (name, mount) = (device.spec.name.as_str(), device.spec.mount);
    if device.fitted.at == Place::Unplaced {
        return Some(("it has no place", format!("Place {name} in the elevation").into()));
    }
    if !suits(mount, device.fitted.at) {
        return Some((made_for(mount), format!("Move {name} {}", wanted(mount)).into()));
    }
    match device.fitted.at {
        Place::Shelf { shelf, across } => on_shelf(case, device, shelf, across.0),
        Place::Door { .. } if device.space.is_none() => {
            Some(("there is no door", format!("Take a door there, or move {name} elsewhere").into()))
        }
        Place::Floor { plinth: true, .. } if device.space.is_none() => {
            Some(("there is no plinth", format!("Take a plinth, or move {name} elsewhere").into()))
        }
        _ if device.space.is_none() => {
            Some(("there is no such bay", format!("Move {name} to a bay that is there").into()))
        }
        _ => None,
    }
}

fn on_shelf(case: &Case, device: &PlacedDevice<'_>, shelf: ItemId, across: f64) -> Option<(&'static str, Phrase)> {
    let name = device.spec.name.as_str();
    let board = case.device(shelf).filter(|shelf| matches!(shelf.fitted.at, Place::Rack { .. }));
    let Some(board) = board.filter(|_| device.space.is_some()) else {
        return Some(("its shelf is not there", format!("Put a shelf on the rails for {name}").into()));
    };
    let slack = geometry::SLACK;
    if across < -slack || across + device.spec.width.0 > board.spec.width.0 + slack {
        return Some(("it stands over the edge of its shelf", format!("Move {name} along its shelf").into()));
    }
    (device.spec.depth.0 > board.spec.depth.0 + slack)
        .then(|| ("it is deeper than its shelf", format!("Take a deeper shelf for {name}").into()))
}

/// Whether a device made to be held one way may be at a place.
const fn suits(mount: Mount, at: Place) -> bool {
    matches!(
        (mount, at),
        (Mount::Rack(_), Place::Rack { .. } | Place::Shelf { .. })
            | (Mount::Shelf, Place::Shelf { .. })
            | (Mount::Wall | Mount::Door, Place::Wall { .. } | Place::Door { .. })
            | (Mount::Floor, Place::Floor { .. })
    )
}

const fn made_for(mount: Mount) -> &'static str {
    match mount {
        Mount::Rack(_) => "it is made for rails",
        Mount::Shelf => "it is made for a shelf",
        Mount::Wall => "it is made for a wall",
        Mount::Door => "it is made for a door",
        Mount::Floor => "it is made for a floor",
    }
}

const fn wanted(mount: Mount) -> &'static str {
    match mount {
        Mount::Rack(_) => "onto rails",
        Mount::Shelf => "onto a shelf",
        Mount::Wall => "onto a wall",
        Mount::Door => "onto a door",
        Mount::Floor => "onto a floor",
    }
}

fn words(place: Place) -> String {
    match place {
        Place::Rack { bay, unit, .. } => format!("{} {unit}", crate::bay_letter(bay)),
        Place::Shelf { .. } => "A shelf".to_owned(),
        Place::Wall { .. } => "A side wall".to_owned(),
        Place::Door { bay, .. } => format!("Door {}", crate::bay_letter(bay)),
        Place::Floor { bay, plinth: true, .. } => format!("The plinth under bay {}", crate::bay_letter(bay)),
        Place::Floor { bay, .. } => format!("The floor of bay {}", crate::bay_letter(bay)),
        Place::Unplaced => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use project::{End, Side};
    use units::Millimetres;

    use super::super::trial::words;
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack};

    const NOWHERE: Millimetres = Millimetres(0.0);

    /// One device of this mount at this place, on top of a shelf with the number 1.
    #[track_caller]
    fn check(mount: Mount, at: Place, why: Option<&str>) -> Finding {
        let mut desk = Desk::new();
        desk.add(device(1), rack(0, 5));
        let mut one = device(1);
        (one.mount, one.height) = (mount, Millimetres(100.0));
        desk.add(one, at);
        let finding = desk.run(&CHECK).remove(0);
        match why {
            Some(why) => assert_eq!((finding.outcome, words(&finding.because).as_str()), (Outcome::Fails, why)),
            None => assert_eq!((finding.outcome, finding.given.unwrap().number), (Outcome::Holds, 2.0)),
        }
        finding
    }

    fn wall() -> Place {
        Place::Wall { side: Side::Left, along: NOWHERE, up: NOWHERE }
    }

    fn door(bay: usize) -> Place {
        Place::Door { bay, end: End::Front, across: NOWHERE, up: NOWHERE }
    }

    fn floor(plinth: bool) -> Place {
        Place::Floor { bay: 0, plinth, across: NOWHERE, along: NOWHERE }
    }

    fn shelf(number: u32, across: f64) -> Place {
        Place::Shelf { shelf: ItemId(number), across: Millimetres(across) }
    }

    #[test]
    fn every_device_is_held_the_way_it_is_made_for() {
        check(Mount::Rack(1), rack(0, 8), None);
        check(Mount::Rack(1), shelf(1, 0.0), None);
        check(Mount::Wall, wall(), None);
        check(Mount::Wall, door(0), None);
        check(Mount::Floor, floor(false), None);
        check(Mount::Wall, rack(0, 8), Some("it is made for a wall"));
        check(Mount::Rack(1), wall(), Some("it is made for rails"));
        check(Mount::Shelf, floor(false), Some("it is made for a shelf"));
    }

    #[test]
    fn what_holds_it_has_to_be_there() {
        check(Mount::Rack(1), rack(3, 8), Some("there is no such bay"));
        check(Mount::Door, door(1), Some("there is no door"));
        check(Mount::Floor, floor(true), Some("there is no plinth"));
        check(Mount::Shelf, shelf(9, 0.0), Some("its shelf is not there"));
        check(Mount::Shelf, shelf(2, 0.0), Some("its shelf is not there"));
        check(Mount::Shelf, shelf(1, 5.0), Some("it stands over the edge of its shelf"));
    }

    #[test]
    fn a_device_without_a_place_is_told_where_one_is_free() {
        let finding = check(Mount::Rack(1), Place::Unplaced, Some("it has no place"));
        assert_eq!(words(&finding.help[1]), "A 20 is free for Box");
    }

    #[test]
    fn a_device_that_the_catalogue_lacks_needs_data() {
        let mut desk = Desk::new();
        desk.add(device(1), rack(0, 5));
        desk.project.build.devices[0].what = DeviceWhat::Part("gone".into());
        let finding = desk.run(&CHECK).remove(0);
        assert_eq!(words(&finding.said()), "needs data: gone is not in this catalogue");
    }
}
