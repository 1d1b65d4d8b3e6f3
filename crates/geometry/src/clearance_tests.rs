use project::Side;
use project::{Build, DeviceWhat, End, FittedDevice, FittedUnit, ItemId, Place, UnitAt};
use units::Millimetres;

use crate::clearance::boxes;
use crate::sample::{build, filled, own_device};
use crate::{Meeting, Mesh, Model, Of, Outline, Solid, Vec3, model};

fn check(build: &Build) -> Model {
    model(build, &catalogue::sample()).expect("the build's parts are in the catalogue")
}

fn place(build: &mut Build, id: u32, size: (f64, f64, f64), at: Place) {
    let what = DeviceWhat::Own(Box::new(own_device(size, &at)));
    build.devices.push(FittedDevice { id: ItemId(id), what, at });
}

fn rack(bay: usize, rails: End, unit: u32) -> Place {
    Place::Rack { bay, rails, unit, facing: rails, forward: Millimetres(0.0) }
}

fn depth(found: &[Meeting], a: Of, b: Of) -> Option<f64> {
    found.iter().find(|one| (one.a, one.b) == (a.min(b), a.max(b))).map(|one| one.depth_mm)
}

#[test]
fn nothing_meets_in_an_ordinary_cabinet() {
    assert_eq!(check(&build(1, &catalogue::sample())).meetings(), []);
    assert_eq!(check(&filled(2, 60, &catalogue::sample())).meetings(), []);
}

#[test]
fn front_and_rear_devices_that_meet_in_depth_are_found_with_the_overlap() {
    let mut build = build(1, &catalogue::sample());
    place(&mut build, 1, (440.0, 44.0, 400.0), rack(0, End::Front, 5));
    place(&mut build, 2, (440.0, 44.0, 400.0), rack(0, End::Rear, 5));
    place(&mut build, 3, (440.0, 44.0, 400.0), rack(0, End::Rear, 6));
    let model = check(&build);
    let planes = model.layout.bays[0];
    let expected = 800.0 - (planes.rear_rails - planes.front_rails);
    let found = model.meetings();
    assert_eq!(found.len(), 1, "{found:?}");
    let overlap = depth(&found, Of::Device(ItemId(1)), Of::Device(ItemId(2))).expect("they meet");
    // The least way out is along the depth or up, over the panel's height.
    assert!((overlap - expected.min(crate::panel_height(1))).abs() < 1e-9, "{overlap}");
}

#[test]
fn two_devices_in_one_unit_meet_and_neighbours_do_not() {
    let mut build = build(1, &catalogue::sample());
    place(&mut build, 1, (440.0, 88.0, 300.0), rack(0, End::Front, 5));
    place(&mut build, 2, (440.0, 44.0, 300.0), rack(0, End::Front, 6));
    place(&mut build, 3, (440.0, 44.0, 300.0), rack(0, End::Front, 7));
    let found = check(&build).meetings();
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(depth(&found, Of::Device(ItemId(1)), Of::Device(ItemId(2))).is_some());
}

#[test]
fn a_wall_device_that_reaches_a_rail_is_found() {
    let mut build = build(1, &catalogue::sample());
    (build.bays[0].manager_left, build.bays[0].manager_right) = (None, None);
    let at = Place::Wall { side: Side::Left, along: Millimetres(100.0), up: Millimetres(400.0) };
    place(&mut build, 1, (300.0, 300.0, 60.0), at);
    assert_eq!(check(&build).meetings(), []);
    let Some(device) = build.devices.first_mut() else { unreachable!() };
    let DeviceWhat::Own(spec) = &mut device.what else { unreachable!() };
    spec.depth = Millimetres(150.0);
    let found = check(&build).meetings();
    let rail = Of::Rail { bay: 0, end: End::Front, side: Side::Left };
    let planes = check(&build).layout.bays[0];
    let reach = planes.left + 20.0 + 150.0 - (planes.centre() - planes.panel_width / 2.0);
    let found = depth(&found, Of::Device(ItemId(1)), rail).expect("they meet");
    assert!((found - reach).abs() < 1e-9, "{found}, expected {reach}");
}

#[test]
fn a_device_in_the_way_of_the_cables_beside_the_rails_is_found() {
    let mut build = build(1, &catalogue::sample());
    let at = Place::Wall { side: Side::Left, along: Millimetres(100.0), up: Millimetres(400.0) };
    place(&mut build, 1, (10.0, 10.0, 60.0), at);
    let found = check(&build).meetings();
    let manager = Of::Manager { bay: 0, side: Side::Left };
    assert!(depth(&found, Of::Device(ItemId(1)), manager).is_some(), "{found:?}");
}

#[test]
fn a_unit_goes_through_its_cut_out_without_meeting_the_leaf() {
    let catalogue = catalogue::sample();
    let mut build = build(2, &catalogue);
    for (id, part) in catalogue.units.iter().filter(|(_, part)| part.cut_out_width > 0.0) {
        for (at, place) in [
            (UnitAt::Door { bay: 0, end: End::Front }, catalogue::UnitPlace::Door),
            (UnitAt::Side { side: Side::Right }, catalogue::UnitPlace::Side),
            (UnitAt::Roof { bay: 1 }, catalogue::UnitPlace::Roof),
        ] {
            if !part.places.contains(&place) {
                continue;
            }
            build.climate = vec![FittedUnit { id: ItemId(7), part: id.clone(), at, height: None }];
            let found = check(&build).meetings();
            let meets = |of: Of| depth(&found, Of::Unit(ItemId(7)), of);
            assert_eq!(meets(Of::Door { bay: 0, end: End::Front }), None, "{id} {at:?}");
            assert_eq!(meets(Of::Shield), None, "{id} {at:?}");
        }
    }
}

#[test]
fn a_door_borne_unit_that_reaches_the_devices_is_found() {
    let catalogue = catalogue::sample();
    let mut build = filled(1, 30, &catalogue);
    build.bays[0].front_setback = Millimetres(25.0);
    build.bays[0].manager_left = None;
    build.bays[0].manager_right = None;
    let part = &catalogue.units[&build.climate[0].part];
    assert!(part.inner_depth > 40.0, "the sample unit stands in by {}", part.inner_depth);
    let found = check(&build).meetings();
    assert!(found.iter().any(|one| matches!((one.a, one.b), (Of::Unit(_), Of::Device(_)))), "{found:?}");
}

#[test]
fn gaps_run_to_the_door_the_unit_on_it_or_the_next_device() {
    let mut build = build(1, &catalogue::sample());
    place(&mut build, 1, (440.0, 44.0, 300.0), rack(0, End::Front, 2));
    place(&mut build, 2, (440.0, 44.0, 200.0), rack(0, End::Rear, 2));
    place(&mut build, 3, (440.0, 44.0, 300.0), rack(0, End::Front, 4));
    let model = check(&build);
    let planes = model.layout.bays[0];
    let before = model.gap_before(ItemId(1)).expect("it is placed");
    assert_eq!(before.to, Of::Door { bay: 0, end: End::Front });
    assert!((before.mm - (planes.front_rails - model.layout.limit(0, End::Front))).abs() < 1e-9);
    let behind = model.gap_behind(ItemId(1)).expect("it is placed");
    assert_eq!(behind.to, Of::Device(ItemId(2)));
    assert!((behind.mm - (planes.rear_rails - planes.front_rails - 500.0)).abs() < 1e-9);
    let free = model.gap_behind(ItemId(3)).expect("it is placed");
    assert_eq!(free.to, Of::Door { bay: 0, end: End::Rear });
    assert!((free.mm - (model.layout.limit(0, End::Rear) - planes.front_rails - 300.0)).abs() < 1e-9);
    assert_eq!(model.gap_before(ItemId(99)), None);
}

#[test]
fn a_unit_on_the_door_shortens_the_gap() {
    let catalogue = catalogue::sample();
    let build = filled(1, 30, &catalogue);
    let model = check(&build);
    let inner = catalogue.units[&build.climate[0].part].inner_depth;
    let middle = build.devices[14].id;
    let gap = model.gap_before(middle).expect("it is placed");
    assert_eq!(gap.to, Of::Unit(build.climate[0].id));
    let expected = model.layout.bays[0].front_rails - (model.layout.body.min.y + inner);
    assert!((gap.mm - expected).abs() < 1e-9, "{gap:?}, expected {expected}");
}

#[test]
fn a_device_on_a_shelf_rests_on_it_and_may_be_too_tall() {
    let mut build = build(1, &catalogue::sample());
    place(&mut build, 1, (440.0, 44.0, 400.0), rack(0, End::Front, 5));
    place(&mut build, 2, (200.0, 60.0, 200.0), Place::Shelf { shelf: ItemId(1), across: Millimetres(20.0) });
    place(&mut build, 3, (440.0, 44.0, 400.0), rack(0, End::Front, 7));
    assert_eq!(check(&build).meetings(), []);
    let DeviceWhat::Own(spec) = &mut build.devices[1].what else { unreachable!() };
    spec.height = Millimetres(100.0);
    let found = check(&build).meetings();
    assert!(depth(&found, Of::Device(ItemId(2)), Of::Device(ItemId(3))).is_some(), "{found:?}");
}

#[test]
fn a_frame_falls_into_boxes_round_its_opening() {
    let catalogue = catalogue::sample();
    let model = check(&build(1, &catalogue));
    let front = model.solids.iter().find(|solid| solid.of == Of::Body(project::Face::Front)).expect("there is one");
    let parts = boxes(front);
    let volume: f64 = parts.iter().map(|one| one.size()).map(|size| size.x * size.y * size.z).sum();
    assert!((volume / front.volume() - 1.0).abs() < 1e-12);
    let opening = model.layout.opening(0, End::Front).expect("there is one");
    assert!(parts.iter().all(|one| one.meets(&opening) <= 0.0));
}

#[test]
fn a_round_outline_counts_as_its_bounds() {
    let catalogue = catalogue::sample();
    let model = check(&build(1, &catalogue));
    let eye = model.solids.iter().find(|solid| solid.of == Of::Eye(0)).expect("there is one");
    assert_eq!(boxes(eye), [eye.bounds()]);
    let empty = Solid { outline: Outline::default(), ..eye.clone() };
    assert_eq!(empty.bounds().size(), Vec3::new(0.0, empty.thickness, 0.0));
}

#[test]
fn heaps_of_devices_in_one_place_are_told_up_to_a_limit() {
    let mut build = build(1, &catalogue::sample());
    for id in 0..10_000 {
        place(&mut build, id, (440.0, 44.0, 300.0), rack(0, End::Front, 1));
    }
    assert_eq!(check(&build).meetings().len(), 500);
}

#[test]
fn numbers_beyond_reason_do_not_stop_it() {
    for number in [f64::NAN, f64::INFINITY, -1e9, 0.0, 1e300] {
        let mut build = build(1, &catalogue::sample());
        place(&mut build, 1, (number, number, number), rack(0, End::Front, u32::MAX));
        place(
            &mut build,
            2,
            (number, 40.0, 40.0),
            Place::Floor { bay: 0, plinth: true, across: Millimetres(number), along: Millimetres(number) },
        );
        build.depth = Millimetres(number);
        let model = check(&build);
        assert_eq!(model.gap_before(ItemId(99)), None);
        assert!(model.meetings().iter().all(|one| !one.depth_mm.is_nan()), "{number}: {:?}", model.meetings());
        assert!(model.gap_before(ItemId(1)).is_none_or(|gap| gap.mm >= 0.0), "{number}");
        let mesh = Mesh::of_all(&model.solids);
        assert!(mesh.indices.iter().all(|index| (*index as usize) < mesh.positions.len()), "{number}");
        assert!(mesh.triangles() > 100, "{number}: {} triangles", mesh.triangles());
    }
}
