use super::*;
use crate::DeviceWhat;
use crate::testing::{part, rack, start, with};
use crate::{Edit, Project, Side};

fn check(project: &Project, catalogue: &Catalogue, id: &str) -> Place {
    first_free_place(&project.build, &catalogue.devices[&id.into()], catalogue)
}

/// Adds devices one after the other, each where it is proposed.
fn filled(mut project: Project, catalogue: &Catalogue, ids: &[&str]) -> Project {
    for id in ids {
        let at = check(&project, catalogue, id);
        project = with(project, catalogue, &[Edit::AddDevice { what: part(id), at }]);
    }
    project
}

#[test]
fn light_things_go_to_the_top_and_heavy_ones_to_the_bottom() {
    let (project, catalogue) = start();
    let project = filled(project, &catalogue, &["switch-access-48", "rectifier-shelf-6", "panel-fibre-24"]);
    let places: Vec<Place> = project.build.devices.iter().map(|device| device.at).collect();
    assert_eq!(places, [rack(0, End::Front, 24), rack(0, End::Front, 1), rack(0, End::Front, 23)]);
    assert_eq!(rack_positions(&project.build, &catalogue), [vec![(0, 24, 1), (1, 1, 2), (2, 23, 1)]]);
    assert_eq!(check(&project, &catalogue, "ups-rack-3000"), rack(0, End::Front, 3));
}

#[test]
fn a_full_cabinet_leaves_the_device_unplaced() {
    let (project, catalogue) = start();
    let project = filled(project, &catalogue, &["switch-access-48"; 24]);
    assert!(project.build.devices.iter().all(|device| device.at != Place::Unplaced));
    assert_eq!(check(&project, &catalogue, "switch-access-48"), Place::Unplaced);
}

#[test]
fn a_panel_for_23_inches_does_not_go_between_19_inch_rails() {
    let (mut project, catalogue) = start();
    assert_eq!(check(&project, &catalogue, "rectifier-wide-12"), Place::Unplaced);
    project.build.bays[0].rails = RailWidth::TwentyThree;
    assert_eq!(check(&project, &catalogue, "rectifier-wide-12"), rack(0, End::Front, 1));
    assert_eq!(check(&project, &catalogue, "switch-access-48"), rack(0, End::Front, 24));
}

#[test]
fn bays_take_what_their_role_says() {
    let (project, catalogue) = start();
    let mut project = with(project, &catalogue, &[Edit::SetFamily("cabinet-double".into())]);
    project.build.bays[0].role = BayRole::Battery;
    project.build.bays[1].role = BayRole::Passive;
    assert_eq!(check(&project, &catalogue, "switch-access-48"), Place::Unplaced);
    assert_eq!(check(&project, &catalogue, "battery-lithium-100").bay(), Some(0));
    assert_eq!(check(&project, &catalogue, "panel-fibre-24").bay(), Some(1));
    project.build.bays[1].role = BayRole::Active;
    assert_eq!(check(&project, &catalogue, "switch-access-48").bay(), Some(1));
}

#[test]
fn devices_that_would_meet_in_depth_are_kept_apart() {
    let (project, catalogue) = start();
    let long = DeviceWhat::Own(Box::new(Device {
        depth: Millimetres(500.0),
        ..catalogue.devices[&"switch-access-48".into()].clone()
    }));
    let project = with(project, &catalogue, &[Edit::AddDevice { what: long.clone(), at: rack(0, End::Rear, 24) }]);
    let DeviceWhat::Own(long) = long else { panic!() };
    assert_eq!(first_free_place(&project.build, &long, &catalogue), rack(0, End::Front, 23));
    let short = Device { depth: Millimetres(60.0), ..*long };
    assert_eq!(first_free_place(&project.build, &short, &catalogue), rack(0, End::Front, 24));
}

#[test]
fn wall_floor_and_shelf_parts_stand_side_by_side() {
    let (project, catalogue) = start();
    assert_eq!(check(&project, &catalogue, "radio-split-1"), check(&project, &catalogue, "radio-split-1"));
    let project = filled(project, &catalogue, &["centre-load-12", "outlet-guarded-2", "shelf-fixed-1"]);
    let [Place::Wall { side: Side::Left, along: first, .. }, Place::Wall { side: Side::Left, along: second, .. }] =
        [project.build.devices[0].at, project.build.devices[1].at]
    else {
        panic!("{:?}", project.build.devices)
    };
    assert!(second.0 >= first.0 + 290.0, "the load centre is 290 mm wide");
    let on_shelf = catalogue.devices.iter().find(|(_, device)| device.mount == Mount::Shelf).unwrap().0.clone();
    let project = filled(project, &catalogue, &[on_shelf.as_str()]);
    assert!(matches!(project.build.devices[3].at, Place::Shelf { shelf, .. } if shelf == project.build.devices[2].id));
}

#[test]
fn batteries_go_into_a_battery_plinth_until_it_is_full() {
    let (project, catalogue) = start();
    let plinth = crate::FittedPlinth { part: "plinth-battery-400".into(), height: Millimetres(400.0) };
    let project = with(project, &catalogue, &[Edit::SetPlinth(Some(plinth))]);
    let floor = catalogue
        .devices
        .iter()
        .find(|(_, device)| device.kind == DeviceKind::Battery && device.mount == Mount::Floor)
        .unwrap()
        .0
        .clone();
    let project = filled(project, &catalogue, &[floor.as_str(); 12]);
    assert!(matches!(project.build.devices[0].at, Place::Floor { bay: 0, plinth: true, .. }));
    assert_eq!(project.build.devices[11].at, Place::Unplaced);
}

#[test]
fn keys_move_one_unit_and_stop_at_the_ends() {
    let (project, catalogue) = start();
    let device = &catalogue.devices[&"rectifier-shelf-6".into()];
    let step = |from, way| next_unit(&project.build, device, from, way);
    assert_eq!((step(5, Way::Up), step(5, Way::Down)), (6, 4));
    assert_eq!((step(23, Way::Up), step(1, Way::Down)), (23, 1));
    assert_eq!((step(99, Way::Down), step(u32::MAX, Way::Up)), (23, 23));
}
