//! **F01 `height-units`** – are there rack units enough for the devices and for the growth asked for?
//!
//! n = n_taken + n_new,  n_allowed = b · n_bay − n_spare
//!
//! - n_taken   units in which something stands on the front or the rear rails, or both; each counted once   [U]
//! - n_new     units of rack devices that are not placed yet                                                [U]
//! - b         bays                                                                                         [–]
//! - n_bay     units of one bay                                                                             [U]
//! - n_spare   units asked for as growth                                                                    [U]
//!
//! What stands on a shelf or the floor takes the units it covers between the rails.
//!
//! Source:      [`sources::EIA_310`], the rack unit of 44.45 mm.
//! Valid for:   bays of the same height.
//! Agreement:   tests/tests/fit.rs, T01-14.
//! Not covered: a unit behind a shallow device counts as taken, although another device may fit there from the rear; what
//!              parts on walls and doors take between the rails, which F06 tells where it meets a device.

use catalogue::RACK_UNIT;
use geometry::{Layout, Model, SLACK};
use project::Place;
use units::{Kind, Value};

use super::subjects::needs_model;
use crate::{Asked, Case, Check, Finding, Phrase, PlacedDevice, Step, Subject, Symbol, Topic, count, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "F01",
    name: "height-units",
    topic: Topic::Fit,
    question: "Are there rack units enough for the devices and for growth?",
    formula: "n_taken + n_new ≤ b · n_bay − n_spare",
    symbols: &[
        Symbol { symbol: "n_taken", meaning: "units in which something stands, front or rear", kind: Kind::RackUnits },
        Symbol { symbol: "n_new", meaning: "units of rack devices not placed yet", kind: Kind::RackUnits },
        Symbol { symbol: "b", meaning: "bays", kind: Kind::Count },
        Symbol { symbol: "n_bay", meaning: "units of one bay", kind: Kind::RackUnits },
        Symbol { symbol: "n_spare", meaning: "units asked for as growth", kind: Kind::RackUnits },
    ],
    sources: &[&sources::EIA_310],
    valid: "bays of the same height",
    leaves_out: "A unit behind a shallow device counts as taken, although another device may fit there from the rear.",
    caution: None,
    asked: Some(Asked::SpareUnits),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let Some(model) = &case.model else { return needs_model(check, case) };
    let (bays, of_bay) = (model.layout.bays.len(), model.layout.units);
    let spare = case.project.brief.spare_units;
    let taken: usize = taken_units(case, model).iter().map(|bay| bay.iter().filter(|taken| **taken).count()).sum();
    let new: u32 = case
        .devices
        .iter()
        .filter(|device| device.fitted.at == Place::Unplaced)
        .filter_map(|device| device.spec.units())
        .sum();
    let fitted = bays as f64 * f64::from(of_bay);
    let used = taken as f64 + f64::from(new);
    let allowed = fitted - f64::from(spare);

    let working = vec![
        Step::input("b", "bays", count(bays)),
        Step::input("n_bay", "units of one bay", rack_units(f64::from(of_bay))).from_source(&sources::EIA_310),
        Step::input("n_spare", "units asked for as growth", rack_units(f64::from(spare))),
        Step::computed(
            "n_allowed",
            "units the devices may take",
            "b · n_bay − n_spare",
            Phrase::new()
                .number(count(bays))
                .text(" · ")
                .number(rack_units(f64::from(of_bay)))
                .text(" − ")
                .number(rack_units(f64::from(spare))),
            rack_units(allowed),
        ),
        Step::input(
            "n_taken",
            "units in which something stands, front or rear, each counted once",
            rack_units(taken as f64),
        ),
        Step::input("n_new", "units of rack devices not placed yet", rack_units(f64::from(new))),
        Step::computed(
            "n",
            "units used",
            "n_taken + n_new",
            Phrase::new().number(rack_units(taken as f64)).text(" + ").number(rack_units(f64::from(new))),
            rack_units(used),
        ),
    ];
    // What is asked for as growth is the reserve: a promise kept to the unit holds.
    let mut finding =
        Finding::at_most(check, Subject::Cabinet, rack_units(used), rack_units(allowed), 1.0).working(working);
    for help in helps(case, bays, of_bay, used, spare) {
        finding = finding.help(help);
    }
    vec![finding]
}

/// The units of each bay in which something stands, the lowest first.
pub(super) fn taken_units(case: &Case, model: &Model) -> Vec<Vec<bool>> {
    let mut taken = vec![vec![false; model.layout.units as usize]; model.layout.bays.len()];
    for device in &case.devices {
        for (bay, of_bay) in taken.iter_mut().enumerate() {
            let Some((first, above)) = reach(device, bay, model) else { continue };
            let (first, above) = (first.min(of_bay.len()), above.min(of_bay.len()));
            for unit in &mut of_bay[first.min(above)..above] {
                *unit = true;
            }
        }
    }
    taken
}

/// The units a device takes in a bay, from 0: the first one, and the one above the last.
fn reach(device: &PlacedDevice<'_>, bay: usize, model: &Model) -> Option<(usize, usize)> {
    if let Place::Rack { bay: its_bay, unit, .. } = device.fitted.at {
        let first = (unit as usize).saturating_sub(1);
        return (its_bay == bay).then(|| (first, first + project::units_needed(device.spec) as usize));
    }
    // What stands on a shelf or the floor takes the units it covers between the rails.
    if !matches!(device.fitted.at, Place::Shelf { .. } | Place::Floor { plinth: false, .. }) {
        return None;
    }
    let layout: &Layout = &model.layout;
    let (planes, body) = (layout.bays.get(bay)?, device.space?);
    let half = planes.opening_width / 2.0;
    let aside = body.max.x.min(planes.centre() + half) - body.min.x.max(planes.centre() - half);
    let deep = body.max.y.min(planes.rear_rails) - body.min.y.max(planes.front_rails);
    if aside <= SLACK || deep <= SLACK || body.max.z - SLACK <= layout.unit_one {
        return None;
    }
    let first = ((body.min.z + SLACK - layout.unit_one) / RACK_UNIT).floor().max(0.0);
    let above = ((body.max.z - SLACK - layout.unit_one) / RACK_UNIT).ceil();
    Some((first as usize, above as usize))
}

fn helps(case: &Case, bays: usize, of_bay: u32, used: f64, spare: u32) -> Vec<Phrase> {
    let mut helps = Vec::new();
    let Some(family) = case.catalogue.families.get(&case.project.build.family) else { return helps };
    let wanted = ((used + f64::from(spare)) / bays.max(1) as f64).ceil();
    let usual =
        family.heights.iter().map(|height| f64::from(*height)).filter(|height| *height >= wanted).reduce(f64::min);
    if let Some(height) = usual.or(family.height_range.contains(wanted).then_some(wanted)) {
        let more = height - f64::from(of_bay);
        helps.push(
            Phrase::from("Take ")
                .value(rack_units(height))
                .text(" of height: ")
                .value(rack_units(more))
                .text(" more in each bay"),
        );
    } else if bays == 1 {
        helps.push("Take a cabinet of two bays".into());
    }
    let left = bays as f64 * f64::from(of_bay) - used;
    if left > 0.0 {
        helps.push(Phrase::from("Or ask for ").value(rack_units(left)).text(" of growth, which is what is left"));
    } else if left == 0.0 {
        helps.push("Or ask for no growth: nothing is left".into());
    }
    helps
}

fn rack_units(number: f64) -> Value {
    Value::new(number, Kind::RackUnits)
}

#[cfg(test)]
mod tests {
    use catalogue::Mount;
    use project::{End, ItemId};
    use proptest::prelude::*;
    use units::Millimetres;

    use super::super::trial::words;
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack, step};

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, used: f64, allowed: f64) -> Finding {
        let [finding] = desk.run(&CHECK).try_into().unwrap();
        assert_eq!(finding.outcome, outcome, "{finding:?}");
        assert_eq!(finding.given.unwrap().number, used);
        assert_eq!(finding.allowed.unwrap().number, allowed);
        finding
    }

    fn rear(bay: usize, unit: u32) -> Place {
        Place::Rack { bay, rails: End::Rear, unit, facing: End::Rear, forward: Millimetres(0.0) }
    }

    #[test]
    fn counts_a_unit_once_for_front_and_rear() {
        let mut desk = Desk::new();
        desk.add(device(2), rack(0, 1));
        desk.add(device(2), rear(0, 2));
        desk.add(device(1), rack(0, 20));
        check(&desk, Outcome::Holds, 4.0, 20.0);
    }

    #[test]
    fn keeps_the_promise_of_spare_units_to_the_unit() {
        let mut desk = Desk::two_bays();
        desk.add(device(10), rack(0, 1));
        desk.add(device(20), rack(1, 1));
        desk.project.brief.spare_units = 10;
        let finding = check(&desk, Outcome::Holds, 30.0, 30.0);
        assert_eq!(step(&finding, "n_allowed"), 30.0);
        desk.project.brief.spare_units = 11;
        let finding = check(&desk, Outcome::Fails, 30.0, 29.0);
        assert!(!finding.help.is_empty());
    }

    #[test]
    fn counts_rack_devices_that_are_not_placed() {
        let mut desk = Desk::new();
        desk.add(device(19), rack(0, 1));
        desk.add(device(3), Place::Unplaced);
        check(&desk, Outcome::Fails, 22.0, 20.0);
    }

    #[test]
    fn fails_where_more_growth_is_asked_for_than_there_are_units() {
        let mut desk = Desk::new();
        desk.project.brief.spare_units = 21;
        check(&desk, Outcome::Fails, 0.0, -1.0);
    }

    #[test]
    fn counts_what_stands_on_a_shelf_or_on_the_floor() {
        let mut desk = Desk::new();
        let mut shelf = device(1);
        shelf.kind = catalogue::DeviceKind::Cable;
        let shelf = desk.add(shelf, rack(0, 10));
        let mut modem = device(1);
        (modem.mount, modem.height) = (Mount::Shelf, Millimetres(100.0));
        desk.add(modem, Place::Shelf { shelf, across: Millimetres(0.0) });
        // 2 mm of board and 100 mm of device: three units of 44.45 mm, the shelf's own among them.
        check(&desk, Outcome::Holds, 3.0, 20.0);
        let mut battery = device(1);
        (battery.mount, battery.height) = (Mount::Floor, Millimetres(100.0));
        let floor =
            |along| Place::Floor { bay: 0, plinth: false, across: Millimetres(80.0), along: Millimetres(along) };
        // Unit 1 begins 50 mm above the floor: 100 mm reach into units 1 and 2.
        desk.add(battery, floor(200.0));
        check(&desk, Outcome::Holds, 5.0, 20.0);
    }

    #[test]
    fn says_so_when_a_part_of_the_body_is_missing() {
        let mut desk = Desk::new();
        desk.project.build.skin = "nothing".into();
        let [finding] = desk.run(&CHECK).try_into().unwrap();
        assert_eq!(finding.outcome, Outcome::NeedsData);
        assert!(words(&finding.because).contains("nothing"));
    }

    proptest! {
        #[test]
        fn a_device_more_never_lowers_the_units_used(
            devices in proptest::collection::vec((0_usize..3, 0_u32..30, 1_u32..8, 0_u8..5), 1..30)
        ) {
            let mut desk = Desk::two_bays();
            let mut before = 0.0;
            for (bay, unit, units, sort) in devices {
                let at = match sort {
                    0 => rear(bay, unit),
                    1 => Place::Unplaced,
                    2 => Place::Floor { bay, plinth: false, across: Millimetres(50.0), along: Millimetres(f64::from(unit) * 30.0) },
                    3 => Place::Shelf { shelf: ItemId(unit), across: Millimetres(0.0) },
                    _ => rack(bay, unit),
                };
                desk.add(device(units), at);
                let after = desk.run(&CHECK)[0].given.unwrap().number;
                prop_assert!(after >= before, "{} U after {} U", after, before);
                before = after;
            }
        }
    }
}
