use ::units::{Celsius, Degrees, Kilograms, Metres, Millimetres};
use proptest::prelude::*;

use super::*;
use crate::testing::{edit, part, rack, seeds, start, with};
use crate::*;

/// Applies one edit to a fresh project: the refusal in words, with spaces of one kind, or nothing.
fn check(edit: &Edit) -> Option<String> {
    let (mut project, catalogue) = start();
    let before = project.clone();
    let refusal = apply(&mut project, edit, &catalogue).err()?;
    assert_eq!(project, before, "a refused edit left a mark");
    Some(refusal.to_string().replace(char::is_whitespace, " "))
}

fn refused(edit: &Edit, saying: &[&str]) {
    let told = check(edit).unwrap_or_else(|| panic!("taken: {edit:?}"));
    for words in saying {
        assert!(told.contains(words), "{words:?} is missing in {told:?}");
    }
}

fn brief(change: impl FnOnce(&mut Brief)) -> Edit {
    let mut brief = start().0.brief;
    change(&mut brief);
    Edit::SetBrief(Box::new(brief))
}

fn bay(change: impl FnOnce(&mut Bay)) -> Edit {
    let mut bay = start().0.build.bays[0].clone();
    change(&mut bay);
    Edit::SetBay { bay: 0, to: Box::new(bay) }
}

fn add(place: Place) -> Edit {
    Edit::AddDevice { what: part("switch-access-48"), at: place }
}

#[test]
fn a_new_project_is_whole_and_as_the_catalogue_has_it() {
    let (project, catalogue) = start();
    assert!(crate::ranges::project_faults(&project).is_empty());
    let build = &project.build;
    let skin = &catalogue.skins[&build.skin];
    assert_eq!((build.units, build.depth.0, build.bays.len()), (24, 914.0, 1));
    assert_eq!((skin.material.as_str(), build.bays[0].rails), ("aluminium", RailWidth::Nineteen));
    assert!((skin.thickness.0 - 3.2).abs() < 0.05);
}

#[test]
fn a_new_project_needs_no_part_of_the_catalogue() {
    let project = new_project(&Catalogue::default());
    assert_eq!(crate::ranges::project_faults(&project), Vec::new());
}

#[test]
fn a_depth_outside_the_family_is_refused_with_range_and_what_was_kept() {
    refused(&Edit::SetDepth(Millimetres(90_000.0)), &["Depth not taken:", "Between 600 and 1", "Kept 914 mm."]);
    refused(&Edit::SetDepth(Millimetres(f64::NAN)), &["not a number"]);
    assert_eq!(check(&Edit::SetDepth(Millimetres(600.0))), None);
    assert_eq!(check(&Edit::SetDepth(Millimetres(1200.0))), None);
    refused(&Edit::SetDepth(Millimetres(1200.1)), &["Kept 914 mm."]);
}

#[test]
fn a_refusal_is_told_in_the_units_of_the_reader() {
    let (mut project, catalogue) = start();
    let refusal = apply(&mut project, &Edit::SetDepth(Millimetres(2540.0)), &catalogue).unwrap_err();
    let told = refusal.show(System::Us);
    assert!(told.starts_with("Not taken: 100") && told.contains("in"), "{told}");
}

#[test]
fn the_brief_keeps_to_its_ranges() {
    for (change, saying) in [
        (brief(|brief| brief.elevation = Metres(5001.0)), "Elevation"),
        (brief(|brief| brief.elevation = Metres(-431.0)), "Elevation"),
        (brief(|brief| brief.hottest = Celsius(60.1)), "Hottest"),
        (brief(|brief| brief.coldest = Celsius(-60.1)), "Coldest"),
        (brief(|brief| brief.coldest = Celsius(f64::NEG_INFINITY)), "without end"),
        (brief(|brief| brief.mass_limit = Some(Kilograms(0.0))), "mass"),
        (brief(|brief| brief.one_person_lift = Kilograms(101.0)), "One-person lift"),
        (brief(|brief| brief.hook_height = Millimetres(99.0)), "hook"),
        (brief(|brief| brief.tip_angle = Degrees(46.0)), "tip angle"),
        (brief(|brief| brief.spare_units = 49), "Spare units"),
        (brief(|brief| brief.bearing = Degrees(f64::NAN)), "Bearing"),
        (brief(|brief| brief.site = "x".repeat(81)), "81 characters"),
    ] {
        refused(&change, &[saying]);
    }
    assert_eq!(check(&brief(|brief| brief.elevation = Metres(-430.0))), None);
    assert_eq!(check(&brief(|brief| brief.tip_angle = Degrees(45.0))), None);
    assert_eq!(check(&brief(|brief| brief.site = "é".repeat(80))), None);
}

#[test]
fn the_coldest_hour_is_not_warmer_than_the_hottest() {
    let pair = |hottest, coldest| brief(|brief| (brief.hottest, brief.coldest) = (Celsius(hottest), Celsius(coldest)));
    assert_eq!(check(&pair(5.0, 5.0)), None);
    refused(&pair(5.0, 6.0), &["Hottest", "At least the coldest, 6 °C", "Kept 46 °C"]);
    let (project, catalogue) = start();
    let mut cool = with(project, &catalogue, &[pair(5.0, 4.0)]);
    let refusal = apply(&mut cool, &pair(5.0, 6.0), &catalogue).unwrap_err().to_string();
    assert!(refusal.contains("Coldest") && refusal.contains("Kept 4"), "{refusal}");
}

#[test]
fn a_bearing_turns_all_the_way_round() {
    let (project, catalogue) = start();
    for (typed, becomes) in [(360.0, 0.0), (-90.0, 270.0), (725.0, 5.0), (-1e-20, 0.0)] {
        let project = with(project.clone(), &catalogue, &[brief(|brief| brief.bearing = Degrees(typed))]);
        assert_eq!(project.brief.bearing.0, becomes);
    }
}

#[test]
fn rails_move_in_steps_and_the_nearest_are_named() {
    refused(&bay(|bay| bay.front_setback = Millimetres(101.6)), &["In steps of 10 mm", "100 and 110 mm"]);
    refused(&bay(|bay| bay.rear_setback = Millimetres(260.0)), &["Between 40 and 250 mm"]);
    assert_eq!(check(&bay(|bay| bay.front_setback = Millimetres(110.0))), None);
}

#[test]
fn a_bay_knows_its_width_its_parts_and_its_knock_outs() {
    refused(&bay(|bay| bay.width = Millimetres(559.0)), &["Bay width", "Between 560 and 900 mm"]);
    refused(&bay(|bay| bay.manager_left = Some("nothing-like-it".into())), &["“nothing-like-it”", "Kept none."]);
    let plates = |used| vec![FittedGlandPlate { part: "gland-small-4".into(), used }];
    refused(&bay(|bay| bay.gland_plates = plates(5)), &["Knock-outs used", "has 4"]);
    assert_eq!(check(&bay(|bay| bay.gland_plates = plates(4))), None);
}

#[test]
fn only_places_that_exist_are_taken_and_bad_ones_are_left_to_the_checks() {
    refused(&add(rack(1, End::Front, 1)), &["bay 2", "Bay 1 only"]);
    refused(&add(rack(0, End::Front, 0)), &["Unit"]);
    refused(&add(rack(0, End::Front, 100)), &["Unit"]);
    refused(&add(rack(usize::MAX, End::Front, 1)), &["bay"]);
    let across = Millimetres(f64::INFINITY);
    refused(&add(Place::Door { bay: 0, end: End::Front, across, up: Millimetres(0.0) }), &["without end"]);
    refused(&add(Place::Shelf { shelf: ItemId(7), across: Millimetres(0.0) }), &["shelf 7"]);
    assert_eq!(check(&add(rack(0, End::Front, 99))), None);
}

#[test]
fn the_plinth_floor_goes_with_the_plinth() {
    let (project, catalogue) = start();
    let floor = |plinth| Place::Floor { bay: 0, plinth, across: Millimetres(0.0), along: Millimetres(0.0) };
    let project = with(project, &catalogue, &[add(floor(true)), add(floor(false)), Edit::SetPlinth(None)]);
    let places: Vec<Place> = project.build.devices.iter().map(|device| device.at).collect();
    assert_eq!(places, [Place::Unplaced, floor(false)]);
    let mut project = project;
    assert!(apply(&mut project, &add(floor(true)), &catalogue).is_err());
}

#[test]
fn own_devices_keep_to_their_ranges() {
    let (_, catalogue) = start();
    let own = |change: fn(&mut catalogue::Device)| {
        let mut device = catalogue.devices[&"switch-access-48".into()].clone();
        change(&mut device);
        Edit::AddDevice { what: DeviceWhat::Own(Box::new(device)), at: Place::Unplaced }
    };
    refused(&own(|device| device.name = " ".into()), &["Name", "1 to 60 characters"]);
    refused(&own(|device| device.name = "n".repeat(61)), &["61 characters"]);
    refused(&own(|device| device.mount = catalogue::Mount::Rack(49)), &["Height"]);
    refused(&own(|device| device.width = Millimetres(0.0)), &["Width"]);
    refused(&own(|device| device.depth = Millimetres(1200.5)), &["Depth"]);
    refused(&own(|device| device.heat_share = 1.01), &["becomes heat"]);
    refused(&own(|device| device.mass = Some(Kilograms(-1.0))), &["Mass"]);
    refused(&own(|device| device.rack = 21), &["19 or 23"]);
    assert_eq!(check(&own(|device| device.mass = None)), None);
    assert_eq!(check(&own(|device| device.name = "<img src=x onerror=alert(1)>".into())), None);
}

#[test]
fn a_changed_catalogue_part_becomes_the_users_own() {
    let (project, catalogue) = start();
    let project = with(project, &catalogue, &[add(rack(0, End::Front, 3))]);
    let same = catalogue.devices[&"switch-access-48".into()].clone();
    let id = project.build.devices[0].id;
    let unchanged = with(project.clone(), &catalogue, &[Edit::ChangeDevice { device: id, to: Box::new(same.clone()) }]);
    assert_eq!(unchanged, project);
    let deeper = catalogue::Device { depth: Millimetres(401.5), ..same };
    let changed = with(project, &catalogue, &[Edit::ChangeDevice { device: id, to: Box::new(deeper.clone()) }]);
    assert_eq!(changed.build.devices[0].what, DeviceWhat::Own(Box::new(deeper)));
    assert_eq!(changed.build.devices[0].at, rack(0, End::Front, 3));
}

#[test]
fn five_hundred_devices_and_forty_units_are_the_most() {
    let (project, catalogue) = start();
    let unit = Edit::AddUnit { part: "heater-inside-150".into(), at: UnitAt::Inside { bay: 0 } };
    let mut full = with(project, &catalogue, &vec![add(Place::Unplaced); MOST_DEVICES]);
    full = with(full, &catalogue, &vec![unit.clone(); MOST_UNITS]);
    assert!(apply(&mut full, &add(Place::Unplaced), &catalogue).unwrap_err().to_string().contains("At most 500"));
    assert!(apply(&mut full, &unit, &catalogue).unwrap_err().to_string().contains("At most 40"));
}

#[test]
fn units_go_only_where_they_are_made_for() {
    let heater = |at| Edit::AddUnit { part: "heater-inside-150".into(), at };
    let door = UnitAt::Door { bay: 0, end: End::Rear };
    refused(&heater(door), &["on a door", "inside"]);
    refused(&heater(UnitAt::Inside { bay: 1 }), &["bay 2"]);
    refused(&Edit::RemoveUnit(ItemId(3)), &["number 3"]);
    let (project, catalogue) = start();
    let exchanger = Edit::AddUnit { part: "exchanger-door-80".into(), at: door };
    let mut project = with(project, &catalogue, &[exchanger]);
    let refusal = apply(&mut project, &bay(|bay| bay.rear = Closure::Panel), &catalogue).unwrap_err();
    assert!(refusal.to_string().contains("climate units: 1"), "{refusal}");
}

#[test]
fn a_smaller_family_keeps_the_devices_and_a_larger_one_adds_a_bay() {
    let (project, catalogue) = start();
    let two = with(
        project,
        &catalogue,
        &[
            Edit::SetFamily("cabinet-double".into()),
            Edit::SetDivider(true),
            add(rack(0, End::Front, 1)),
            add(rack(1, End::Rear, 5)),
            Edit::AddUnit { part: "exchanger-door-80".into(), at: UnitAt::Door { bay: 1, end: End::Front } },
            Edit::AddUnit { part: "exchanger-door-80".into(), at: UnitAt::Door { bay: 0, end: End::Front } },
        ],
    );
    assert_eq!(two.build.bays.len(), 2);
    assert_eq!(two.build.bays[1].front, Closure::Door(HingeSide::Right));
    let one = with(two.clone(), &catalogue, &[Edit::SetFamily("cabinet-single".into())]);
    let places: Vec<Place> = one.build.devices.iter().map(|device| device.at).collect();
    assert_eq!(places, [rack(0, End::Front, 1), Place::Unplaced]);
    assert_eq!((one.build.climate.len(), one.build.divider), (1, false));
    assert_eq!(one.build.next_id, two.build.next_id);
}

#[test]
fn a_lower_cabinet_leaves_the_devices_where_they_are() {
    let (project, catalogue) = start();
    let project = with(project, &catalogue, &[add(rack(0, End::Front, 24)), Edit::SetUnits(12)]);
    assert_eq!(project.build.devices[0].at, rack(0, End::Front, 24));
    refused(&Edit::SetUnits(9), &["Between 10 and 48 U", "Kept 24 U."]);
}

#[test]
fn numbers_are_never_given_twice() {
    let (project, catalogue) = start();
    let project = with(project, &catalogue, &[add(Place::Unplaced)]);
    let first = project.build.devices[0].id;
    let emptied = project.build.clone();
    let project = with(project, &catalogue, &[Edit::RemoveDevice(first), add(Place::Unplaced)]);
    assert!(project.build.devices[0].id > first);
    let project = with(project, &catalogue, &[Edit::SetBuild(Box::new(emptied)), add(Place::Unplaced)]);
    assert!(project.build.devices[1].id.0 > first.0 + 1);
}

#[test]
fn what_stands_on_a_shelf_goes_with_it() {
    let (project, catalogue) = start();
    let shelf = Edit::AddDevice { what: part("shelf-fixed-1"), at: rack(0, End::Front, 4) };
    let project = with(project, &catalogue, &[shelf]);
    let id = project.build.devices[0].id;
    let on = Place::Shelf { shelf: id, across: Millimetres(10.0) };
    let mut project = with(project, &catalogue, &[add(on)]);
    let wall = Place::Wall { side: Side::Left, along: Millimetres(0.0), up: Millimetres(0.0) };
    for (device, to) in [
        (id, wall),
        (id, on),
        (project.build.devices[1].id, Place::Shelf { shelf: ItemId(999), across: Millimetres(0.0) }),
    ] {
        assert!(apply(&mut project, &Edit::MoveDevice { device, to }, &catalogue).is_err());
    }
    let project = with(project, &catalogue, &[Edit::RemoveDevice(id)]);
    assert_eq!(project.build.devices[0].at, Place::Unplaced);
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(96) })]

    #[test]
    fn any_edits_leave_a_whole_project_that_reads_back_the_same_and_undoes_exactly(seeds in seeds()) {
        let (mut project, catalogue) = start();
        let first = project.clone();
        let mut history = History::default();
        let mut states = vec![first.clone()];
        for seed in seeds {
            let before = project.clone();
            let taken = apply(&mut project, &edit(&before, &catalogue, seed), &catalogue);
            if taken.is_err() {
                prop_assert_eq!(&project, &before);
            }
            if history.record(before, &project) {
                states.push(project.clone());
            }
            let text = to_json(&project);
            let read = from_json(&text).map_err(|problems| TestCaseError::fail(problems[0].to_string()))?;
            prop_assert_eq!(&read, &project);
            prop_assert_eq!(to_json(&read), text);
        }
        let last = project.clone();
        for state in states.iter().rev().skip(1) {
            project = history.undo(&project).ok_or_else(|| TestCaseError::fail("a step is missing"))?;
            prop_assert_eq!(&project, state);
        }
        prop_assert!(!history.can_undo());
        while let Some(after) = history.redo(&project) {
            project = after;
        }
        prop_assert_eq!(project, last);
    }
}
