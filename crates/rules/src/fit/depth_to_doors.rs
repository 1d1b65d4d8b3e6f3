//! **F03 `depth-to-doors`** – is there room for connectors and cables before and behind each device?
//!
//! s_free ≥ s_needed
//!
//! - s_free    free distance from the face or the back to whatever comes first             [mm]
//! - s_needed  room the device asks for there, for connectors and the bend of its cables   [mm]
//!
//! What comes first may be the door with its inner parts, a part that a door carries, an opposite device, insulation.
//!
//! Source:      [`sources::GEOMETRY`]; the room asked for is the device's own figure.
//! Valid for:   devices on rails and shelves; on doors before the face alone.
//! Agreement:   hand calculation below.
//! Not covered: room before parts on walls and floors; how cables run past other devices; a device whose own figure is 0.

use project::Place;
use units::Kind;

use super::names::part_name;
use super::room::{Room, SideOf, helps, length, room};
use super::subjects::{needs_model, worst_and_unfit};
use crate::{Case, Check, Finding, Phrase, PlacedDevice, Step, Subject, Symbol, Topic, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "F03",
    name: "depth-to-doors",
    topic: Topic::Fit,
    question: "Is there room for connectors and cables before and behind each device?",
    formula: "s_free ≥ s_needed",
    symbols: &[
        Symbol { symbol: "s_free", meaning: "free distance to door, wall or opposite part", kind: Kind::Length },
        Symbol { symbol: "s_needed", meaning: "room for connectors and the bend of cables", kind: Kind::Length },
    ],
    sources: &[&sources::GEOMETRY],
    valid: "devices on rails and shelves; on doors before the face alone",
    leaves_out: "Room before parts on walls and floors; how cables run past other devices; a device whose own figure is 0.",
    caution: None,
    asked: None,
    run,
};

/// Above this share of the free distance it is tight: common practice, no source.
const RESERVE: f64 = 0.95;

/// One side of one device.
struct Front<'a> {
    device: &'a PlacedDevice<'a>,
    side: SideOf,
    room: Room,
}

impl Front<'_> {
    fn needed(&self) -> f64 {
        needed(self.device, self.side)
    }
}

fn needed(device: &PlacedDevice<'_>, side: SideOf) -> f64 {
    match side {
        SideOf::Face => device.spec.face_allowance.0,
        SideOf::Back => device.spec.back_allowance.0,
    }
}

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let Some(model) = &case.model else { return needs_model(check, case) };
    let mut fronts = Vec::with_capacity(2 * case.devices.len());
    for device in &case.devices {
        let sides: &[SideOf] = match device.fitted.at {
            Place::Rack { .. } | Place::Shelf { .. } => &[SideOf::Face, SideOf::Back],
            Place::Door { .. } => &[SideOf::Face],
            Place::Wall { .. } | Place::Floor { .. } | Place::Unplaced => &[],
        };
        fronts.extend(
            sides.iter().filter_map(|side| Some(Front { device, side: *side, room: room(model, device, *side)? })),
        );
    }
    let judge = |front: &Front<'_>| {
        let subject = Subject::Device(front.device.fitted.id);
        Finding::at_least(check, subject, length(front.room.mm), length(front.needed()), RESERVE)
    };
    let findings = worst_and_unfit(&fronts, judge, |front, finding| tell(case, front, finding));
    if findings.is_empty() {
        return vec![Finding::holds(check, Subject::Cabinet, "no device on rails, shelves or doors")];
    }
    findings
}

fn tell(case: &Case, front: &Front<'_>, finding: Finding) -> Finding {
    let (device, needed) = (front.device, front.needed());
    let word = front.side.word();
    let to = Phrase::from(format!("free distance {word} it, to ")).then(part_name(case, front.room.to));
    let mut finding = finding.about(case.name(device).text(format!(": {word} it"))).working(vec![
        Step::input("s_free", to, length(front.room.mm)).from_source(&sources::GEOMETRY),
        Step::input(
            "s_needed",
            "room for connectors and the bend of cables, by the device's own figure",
            length(needed),
        ),
        Step::computed(
            "s_free − s_needed",
            "left over",
            "s_free − s_needed",
            Phrase::new().number(length(front.room.mm)).text(" − ").number(length(needed)),
            length(front.room.mm - needed),
        ),
    ]);
    let short = needed - front.room.mm;
    if short > 0.0 {
        let other = if front.side == SideOf::Face { SideOf::Back } else { SideOf::Face };
        for help in helps(case, device, front.side, short, self::needed(device, other)) {
            finding = finding.help(help);
        }
    }
    finding
}

#[cfg(test)]
mod tests {
    use project::{End, ItemId, UnitAt};
    use proptest::prelude::*;
    use units::Millimetres;

    use super::super::trial::words;
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack};

    /// One device of 300 mm depth on the front rails: 80 mm are free before it, 374 mm behind it.
    fn desk(face: f64, back: f64) -> Desk {
        let mut desk = Desk::new();
        let mut one = device(1);
        (one.face_allowance, one.back_allowance) = (Millimetres(face), Millimetres(back));
        desk.add(one, rack(0, 5));
        desk
    }

    /// The worst finding: outcome, free and needed distance.
    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, free: f64, needed: f64) -> Finding {
        let finding = desk.run(&CHECK).remove(0);
        assert_eq!(finding.outcome, outcome, "{finding:?}");
        assert!((finding.given.unwrap().number - free).abs() < 1e-9, "{:?} for {free}", finding.given);
        assert!((finding.allowed.unwrap().number - needed).abs() < 1e-9);
        finding
    }

    #[test]
    fn measures_from_the_rails_to_the_inner_parts_of_the_door() {
        // 100 of set-back less 20 of the door's inner parts.
        check(&desk(70.0, 0.0), Outcome::Holds, 80.0, 70.0);
        check(&desk(80.0, 0.0), Outcome::Tight, 80.0, 80.0);
        let finding = check(&desk(86.0, 0.0), Outcome::Fails, 80.0, 86.0);
        assert_eq!(words(&finding.help[0]), "Set the front rails of bay A 10 mm further in");
    }

    #[test]
    fn measures_behind_the_device_too() {
        // 800 − 2 · 3 of skin − 100 of set-back − 300 of device − 20 of the rear door's inner parts.
        check(&desk(0.0, 374.0), Outcome::Tight, 374.0, 374.0);
        let finding = check(&desk(0.0, 400.0), Outcome::Fails, 374.0, 400.0);
        assert_eq!(words(&finding.help[0]), "Take a body 850 mm deep: 50 mm more");
    }

    #[test]
    fn a_part_that_the_door_carries_takes_room() {
        let mut desk = desk(70.0, 0.0);
        desk.exchanger(10.0, 0);
        // It stands 50 mm into the cabinet, of which the leaf's inner face is the beginning.
        let before = desk.run(&CHECK).remove(0).given.unwrap().number;
        desk.project.build.devices[0].at = rack(0, 10);
        let finding = desk.run(&CHECK).remove(0);
        assert!(finding.given.unwrap().number < before);
        assert!(words(&finding.working[0].meaning).contains("Exchanger"), "{finding:?}");
    }

    #[test]
    fn a_device_turned_round_needs_room_for_its_face_inside() {
        let mut desk = desk(100.0, 0.0);
        desk.project.build.devices[0].at =
            Place::Rack { bay: 0, rails: End::Front, unit: 5, facing: End::Rear, forward: Millimetres(0.0) };
        check(&desk, Outcome::Holds, 374.0, 100.0);
    }

    #[test]
    fn a_device_that_reaches_into_the_door_fails_though_it_asks_for_nothing() {
        let mut desk = desk(0.0, 0.0);
        desk.project.build.devices[0].at =
            Place::Rack { bay: 0, rails: End::Front, unit: 5, facing: End::Front, forward: Millimetres(95.0) };
        check(&desk, Outcome::Fails, -15.0, 0.0);
    }

    #[test]
    fn a_device_whose_place_is_not_there_is_left_to_f13() {
        let mut desk = desk(100.0, 0.0);
        desk.project.build.devices[0].at = Place::Shelf { shelf: ItemId(77), across: Millimetres(0.0) };
        let [finding] = desk.run(&CHECK).try_into().unwrap();
        assert_eq!(finding.outcome, Outcome::Holds);
        assert!(matches!(desk.run(&super::super::all_placed::CHECK)[0].outcome, Outcome::Fails));
        // A unit on a door that is not there does no harm either.
        desk.exchanger(10.0, 0);
        desk.project.build.climate[0].at = UnitAt::Door { bay: 5, end: End::Front };
        assert_eq!(desk.run(&CHECK).len(), 1);
    }

    proptest! {
        #[test]
        fn a_deeper_cabinet_never_makes_it_worse(
            depth in 500.0_f64..1200.0, more in 0.0_f64..300.0,
            devices in proptest::collection::vec((any::<bool>(), 1_u32..18, 50.0_f64..600.0, 0.0_f64..300.0), 1..12)
        ) {
            let mut desk = Desk::new();
            for (front, unit, long, room) in devices {
                let mut one = device(2);
                (one.depth, one.face_allowance, one.back_allowance) = (Millimetres(long), Millimetres(room / 2.0), Millimetres(room));
                let rails = if front { End::Front } else { End::Rear };
                desk.add(one, Place::Rack { bay: 0, rails, unit, facing: rails, forward: Millimetres(0.0) });
            }
            desk.project.build.depth = Millimetres(depth);
            let before = desk.run(&CHECK);
            desk.project.build.depth = Millimetres(depth + more);
            let after = desk.run(&CHECK);
            prop_assert!(after[0].outcome <= before[0].outcome, "{:?} after {:?}", after[0], before[0]);
        }
    }
}
