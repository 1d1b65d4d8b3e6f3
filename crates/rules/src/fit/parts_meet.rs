//! **F06 `parts-meet`** – do parts on walls, doors, floors and shelves, and climate units, keep clear of everything else?
//!
//! s_reach ≤ 0
//!
//! - s_reach  the least way by which one of two parts would have to move to be clear of the other  [mm]
//!
//! Source:      [`sources::GEOMETRY`]: the solids of the model, which are also what is drawn.
//! Valid for:   doors shut. Contact up to 0.5 mm counts as clear.
//! Agreement:   hand calculation below.
//! Not covered: two devices on rails (F02), a rack device and its rails (F04), cables, doors while they swing.

use geometry::{Box3, Meeting, Model, Of, SLACK};
use project::{ItemId, Place};
use units::Kind;

use super::names::{part_name, part_subject};
use super::room::length;
use super::subjects::{needs_model, worst_and_unfit};
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "F06",
    name: "parts-meet",
    topic: Topic::Fit,
    question: "Do parts on walls, doors, floors and shelves, and climate units, keep clear of everything else?",
    formula: "s_reach ≤ 0",
    symbols: &[Symbol {
        symbol: "s_reach",
        meaning: "way by which one part would have to move to be clear",
        kind: Kind::Length,
    }],
    sources: &[&sources::GEOMETRY],
    valid: "doors shut; contact up to 0.5 mm counts as clear",
    leaves_out: "Two devices on rails, which F02 answers; a rack device and its rails, which F04 answers; cables; doors while they swing.",
    caution: None,
    asked: None,
    run,
};

/// Something that is where it cannot be.
enum Clash {
    /// Two parts in the same place.
    Meet(Meeting),
    /// A device outside the room it should be in, by so many mm.
    Outside(ItemId, f64),
}

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let Some(model) = &case.model else { return needs_model(check, case) };
    let mut clashes: Vec<Clash> =
        model.meetings().into_iter().filter(|meeting| !answered_elsewhere(case, meeting)).map(Clash::Meet).collect();
    let known = clashes.len();
    for device in &case.devices {
        let Some(body) = device.space else { continue };
        let Some(room) = room_of(device.fitted.at, model) else { continue };
        let outside = outside(&body, &room);
        let of = Of::Device(device.fitted.id);
        let told = clashes[..known].iter().any(|clash| matches!(clash, Clash::Meet(m) if m.a == of || m.b == of));
        if outside > SLACK && !told {
            clashes.push(Clash::Outside(device.fitted.id, outside));
        }
    }
    let findings = worst_and_unfit(&clashes, |clash| judge(check, clash), |clash, finding| tell(case, clash, finding));
    if findings.is_empty() {
        return vec![Finding::holds(check, Subject::Cabinet, "no two parts meet")];
    }
    findings
}

/// Two rack devices are judged by F02, one and its rails by F04.
fn answered_elsewhere(case: &Case, meeting: &Meeting) -> bool {
    let racked = |of: Of| {
        let Of::Device(id) = of else { return false };
        case.device(id).is_some_and(|device| matches!(device.fitted.at, Place::Rack { .. }))
    };
    let rails = |of: Of| matches!(of, Of::Rail { .. });
    match (racked(meeting.a), racked(meeting.b)) {
        (true, true) => true,
        (true, false) => rails(meeting.b),
        (false, true) => rails(meeting.a),
        (false, false) => false,
    }
}

/// The room a device that is not on rails has to stay in.
fn room_of(at: Place, model: &Model) -> Option<Box3> {
    let layout = &model.layout;
    match at {
        Place::Floor { plinth: true, .. } => {
            let (mut room, sheet) = (layout.inside, layout.plinth_sheet);
            (room.min.z, room.max.z) = (sheet, layout.plinth_height);
            Some(room)
        }
        Place::Shelf { .. } | Place::Wall { .. } | Place::Door { .. } | Place::Floor { .. } => Some(layout.inside),
        Place::Rack { .. } | Place::Unplaced => None,
    }
}

/// How far a box reaches out of a room, mm.
fn outside(body: &Box3, room: &Box3) -> f64 {
    let (low, high) = (room.min - body.min, body.max - room.max);
    low.x.max(low.y).max(low.z).max(high.x).max(high.y).max(high.z)
}

fn judge(check: &Check, clash: &Clash) -> Finding {
    let (subject, depth) = match clash {
        Clash::Meet(meeting) => {
            // The device or unit of the two, which is what one would move.
            let movable = |of: Of| matches!(of, Of::Device(_) | Of::Unit(_));
            (part_subject(if movable(meeting.b) { meeting.b } else { meeting.a }), meeting.depth_mm)
        }
        Clash::Outside(id, depth) => (Subject::Device(*id), *depth),
    };
    Finding::at_most(check, subject, length(depth), length(0.0), 1.0)
}

fn tell(case: &Case, clash: &Clash, finding: Finding) -> Finding {
    match clash {
        Clash::Meet(meeting) => {
            let (a, b) = (part_name(case, meeting.a), part_name(case, meeting.b));
            let both = a.text(" and ").then(b);
            let step = Step::input("s_reach", "how far they reach into each other", length(meeting.depth_mm));
            finding.about(both).working(vec![step.from_source(&sources::GEOMETRY)]).help(way_clear(case, meeting))
        }
        Clash::Outside(id, depth) => {
            let name = part_name(case, Of::Device(*id));
            let step = Step::input("s_reach", "how far it reaches out of the cabinet", length(*depth));
            finding
                .about(name.clone())
                .because("reaches out of the cabinet")
                .working(vec![step.from_source(&sources::GEOMETRY)])
                .help(Phrase::from("Move ").then(name).text(" in by ").value(length(*depth)))
        }
    }
}

/// What would part two parts that meet: a device or a unit is moved, all else is what the bay is made of.
fn way_clear(case: &Case, meeting: &Meeting) -> Phrase {
    let parts = [meeting.b, meeting.a];
    if let Some(movable) = parts.into_iter().find(|of| matches!(of, Of::Device(_) | Of::Unit(_))) {
        return Phrase::from("Move ").then(part_name(case, movable)).text(" by ").value(length(meeting.depth_mm));
    }
    if parts.into_iter().any(|of| matches!(of, Of::Manager { .. })) {
        return "Narrower cable management, or a wider bay, would do".into();
    }
    "A wider or deeper body would do".into()
}

#[cfg(test)]
mod tests {
    use catalogue::Mount;
    use project::Side;
    use units::Millimetres;

    use super::super::trial::words;
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack};

    /// A rack device of 440 mm width, 80 mm from the walls, and a box on the left wall that stands out so far.
    fn desk(stands_out: f64) -> Desk {
        let mut desk = Desk::new();
        desk.add(device(4), rack(0, 5));
        let mut one = device(1);
        (one.mount, one.width, one.height) = (Mount::Wall, Millimetres(200.0), Millimetres(150.0));
        (one.depth, one.name) = (Millimetres(stands_out), "Wall box".to_owned());
        desk.add(one, Place::Wall { side: Side::Left, along: Millimetres(150.0), up: Millimetres(250.0) });
        desk
    }

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, reach: Option<f64>) -> Vec<Finding> {
        let findings = desk.run(&CHECK);
        assert_eq!(findings[0].outcome, outcome, "{findings:#?}");
        assert_eq!(findings[0].given.map(|given| (given.number * 1e6).round() / 1e6), reach);
        findings
    }

    #[test]
    fn a_box_on_the_wall_keeps_clear_of_a_device_up_to_the_slack() {
        check(&desk(79.0), Outcome::Holds, None);
        check(&desk(80.4), Outcome::Holds, None);
        let findings = check(&desk(90.0), Outcome::Fails, Some(10.0));
        let about = words(&findings[0].about);
        assert!(about.contains("Wall box, wall") && about.contains("Box, A 5"), "{about}");
        assert!(words(&findings[0].help[0]).ends_with("by 10 mm"));
    }

    #[test]
    fn a_unit_on_a_door_meets_a_device_before_the_rails() {
        let mut desk = Desk::new();
        desk.exchanger(10.0, 0);
        desk.add(device(2), rack(0, 10));
        check(&desk, Outcome::Holds, None);
        desk.project.build.bays[0].front_setback = Millimetres(40.0);
        let findings = desk.run(&CHECK);
        assert_eq!(findings[0].outcome, Outcome::Fails);
        assert!(
            findings.iter().any(|finding| words(&finding.about).contains("Exchanger, front door A")),
            "{findings:#?}"
        );
    }

    #[test]
    fn a_box_that_hangs_outside_the_cabinet_is_told() {
        let mut desk = desk(50.0);
        desk.project.build.devices[1].at =
            Place::Wall { side: Side::Left, along: Millimetres(2000.0), up: Millimetres(250.0) };
        // It ends at 2000 + 200 mm, the inside at 794 mm.
        let findings = check(&desk, Outcome::Fails, Some(1406.0));
        assert_eq!(words(&findings[0].because), "reaches out of the cabinet");
    }

    #[test]
    fn nobody_is_told_to_move_a_wall() {
        let mut desk = Desk::new();
        // 58.7 mm are free beside the rails.
        let manager = catalogue::Manager {
            name: "Wide".to_owned(),
            sort: catalogue::ManagerSort::Fingers,
            width: Millimetres(100.0),
            depth: Millimetres(100.0),
            bend_radius: Millimetres(30.0),
            mass_per_unit: units::Kilograms(0.1),
            trade: catalogue::Trade::default(),
        };
        desk.catalogue.managers.insert("wide".into(), manager);
        desk.project.build.bays[0].manager_left = Some("wide".into());
        let findings = desk.run(&CHECK);
        assert_eq!(findings[0].outcome, Outcome::Fails);
        let helps: Vec<String> = findings.iter().flat_map(|finding| &finding.help).map(words).collect();
        assert!(helps.iter().all(|help| help == "Narrower cable management, or a wider bay, would do"), "{helps:?}");
    }

    #[test]
    fn two_devices_on_rails_are_left_to_f02() {
        let mut desk = Desk::new();
        desk.add(device(4), rack(0, 5));
        desk.add(device(4), rack(0, 6));
        check(&desk, Outcome::Holds, None);
    }
}
