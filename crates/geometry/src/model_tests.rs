use catalogue::Catalogue;
use project::{Build, End, Face};

use crate::sample::{build, filled};
use crate::shape::{bounds, ring_area};
use crate::{Axis, Layer, Mass, Mesh, Model, Of, Vec3, model};

fn check(build: &Build, catalogue: &Catalogue) -> Model {
    model(build, catalogue).expect("the build's parts are in the catalogue")
}

fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "found {found}, expected {expected} ± {tolerance}");
}

#[test]
fn a_double_bay_with_sixty_devices_stays_within_the_drawing_budget() {
    let catalogue = catalogue::sample();
    let model = check(&filled(2, 60, &catalogue), &catalogue);
    let triangles = Mesh::of_all(&model.solids).triangles();
    assert!(triangles < 30_000, "{triangles}");
    assert!(triangles > 5_000, "{triangles}: the details are missing");
}

#[test]
fn outer_rings_run_counter_clockwise_and_holes_clockwise_inside_them() {
    let catalogue = catalogue::sample();
    for solid in &check(&filled(2, 60, &catalogue), &catalogue).solids {
        assert!(ring_area(&solid.outline.outer) > 0.0, "{solid:?}");
        assert!(solid.thickness > 0.0, "{solid:?}");
        let (low, high) = bounds(&solid.outline.outer);
        for hole in &solid.outline.holes {
            assert!(ring_area(hole) < 0.0, "{solid:?}");
            let (from, to) = bounds(hole);
            assert!(from[0] > low[0] && from[1] > low[1] && to[0] < high[0] && to[1] < high[1], "{solid:?}");
        }
    }
}

#[test]
fn a_mesh_encloses_the_volume_of_its_solid() {
    let catalogue = catalogue::sample();
    for solid in &check(&filled(2, 20, &catalogue), &catalogue).solids {
        let mesh = Mesh::of(solid);
        let middle = solid.centroid();
        let corner = |index: u32| {
            let [x, y, z] = mesh.positions[index as usize].map(f64::from);
            Vec3::new(x, y, z) - middle
        };
        // Divergence theorem: V = ⅙ Σ a·(b × c)
        let volume: f64 = mesh
            .indices
            .chunks_exact(3)
            .map(|three| corner(three[0]).dot(corner(three[1]).cross(corner(three[2]))) / 6.0)
            .sum();
        near(volume / solid.volume(), 1.0, 2e-3);
    }
}

#[test]
fn normals_look_away_from_the_material() {
    let catalogue = catalogue::sample();
    for solid in &check(&build(1, &catalogue), &catalogue).solids {
        let mesh = Mesh::of(solid);
        for three in mesh.indices.chunks_exact(3) {
            let point = |index: u32| {
                let [x, y, z] = mesh.positions[index as usize].map(f64::from);
                Vec3::new(x, y, z)
            };
            let [x, y, z] = mesh.normals[three[0] as usize].map(f64::from);
            let (a, b, c) = (point(three[0]), point(three[1]), point(three[2]));
            assert!((b - a).cross(c - a).dot(Vec3::new(x, y, z)) > 0.0, "{:?}", solid.of);
        }
    }
}

#[test]
fn twice_the_skin_doubles_the_mass_of_the_body() {
    let mut catalogue = catalogue::sample();
    let build = build(2, &catalogue);
    let kg = |catalogue: &Catalogue, face| check(&build, catalogue).mass(|solid| solid.of == Of::Body(face)).kg;
    let before = kg(&catalogue, Face::Top);
    let depth_of = |model: &Model| model.layout.body.size().y;
    let depth = depth_of(&check(&build, &catalogue));
    let bays: f64 = build.bays.iter().map(|bay| bay.width.0).sum();
    let skin = catalogue.skins[&build.skin].clone();
    let posts = catalogue.families[&build.family].divider_thickness.0;
    // The roof lies over everything: its area is that of the body in plan.
    near(before, skin.density * skin.thickness.0 * (bays + posts + 2.0 * skin.thickness.0) * depth * 1e-9, 1e-9);
    catalogue.skins.get_mut(&build.skin).expect("it is there").thickness.0 *= 2.0;
    let wider = (bays + posts + 4.0 * skin.thickness.0) / (bays + posts + 2.0 * skin.thickness.0);
    near(kg(&catalogue, Face::Top) / before, 2.0 * wider, 1e-9);
}

#[test]
fn a_symmetric_cabinet_weighs_evenly_left_and_right_and_front_and_rear() {
    let catalogue = catalogue::sample();
    let mut build = build(2, &catalogue);
    build.plinth = None;
    for bay in &mut build.bays {
        (bay.manager_left, bay.manager_right) = (None, None);
        bay.gland_plates.clear();
        bay.rear_setback = bay.front_setback;
    }
    let mass = check(&build, &catalogue).empty_mass();
    near(mass.centre.x, 0.0, 1e-6);
    near(mass.centre.y, 0.0, 1e-6);
    assert!(mass.kg > 100.0 && mass.kg < 600.0, "{mass:?}");
}

#[test]
fn devices_in_the_other_bay_move_the_centre_of_gravity_as_far_the_other_way() {
    let catalogue = catalogue::sample();
    let mut build = filled(2, 10, &catalogue);
    build.climate.clear();
    let centre = |build: &Build| check(build, &catalogue).mass(|solid| matches!(solid.of, Of::Device(_))).centre;
    let left = centre(&build);
    for device in &mut build.devices {
        let project::Place::Rack { bay, .. } = &mut device.at else { unreachable!() };
        *bay = 1;
    }
    let right = centre(&build);
    assert!(left.x < -100.0);
    near(right.x, -left.x, 1e-9);
    near(right.z, left.z, 1e-9);
}

#[test]
fn the_centre_of_gravity_lies_within_the_cabinet() {
    let catalogue = catalogue::sample();
    let model = check(&filled(2, 60, &catalogue), &catalogue);
    let (centre, over) = (model.equipped_mass().centre, model.overall(true));
    assert!(centre.x > over.min.x && centre.x < over.max.x);
    assert!(centre.y > over.min.y && centre.y < over.max.y);
    assert!(centre.z > over.min.z && centre.z < over.max.z);
}

#[test]
fn masses_of_parts_come_out_whole() {
    let catalogue = catalogue::sample();
    let build = filled(2, 60, &catalogue);
    let model = check(&build, &catalogue);
    let family = &catalogue.families[&build.family];
    let fittings = model.mass(|solid| matches!(solid.of, Of::Fittings { .. })).kg;
    near(fittings, 2.0 * 30.0 * family.fittings_per_unit.0, 1e-9);
    let units: f64 = build.climate.iter().map(|unit| catalogue.units[&unit.part].mass.0).sum();
    near(model.mass(|solid| matches!(solid.of, Of::Unit(_))).kg, units, 1e-9);
    let devices: f64 = build.devices.iter().filter_map(|device| device.resolve(&catalogue)?.mass).map(|kg| kg.0).sum();
    near(model.equipped_mass().kg - model.empty_mass().kg, devices, 1e-6);
    assert!(model.equipped_mass().unknown.is_empty());
}

#[test]
fn a_device_without_a_mass_is_named() {
    let mut catalogue = catalogue::sample();
    let build = filled(1, 1, &catalogue);
    for device in catalogue.devices.values_mut() {
        device.mass = None;
    }
    let model = check(&build, &catalogue);
    assert_eq!(model.equipped_mass().unknown, [Of::Device(build.devices[0].id)]);
}

#[test]
fn eyes_that_are_taken_off_still_hang_on_the_hook() {
    let catalogue = catalogue::sample();
    let mut build = build(2, &catalogue);
    let fitted = check(&build, &catalogue);
    build.eyes_removed = true;
    let removed = check(&build, &catalogue);
    assert_eq!(fitted.eye_positions(), removed.eye_positions());
    assert_eq!(removed.eye_positions().len(), 4);
    assert!(removed.solids.iter().all(|solid| solid.layer != Layer::Lifting));
    near(removed.lifted_mass().kg, fitted.lifted_mass().kg, 1e-9);
    near(removed.lifted_mass().centre.z, fitted.lifted_mass().centre.z, 1e-6);
    assert!(removed.equipped_mass().kg < fitted.equipped_mass().kg);
}

#[test]
fn a_pallet_adds_its_mass_and_its_height() {
    let catalogue = catalogue::sample();
    let build = build(1, &catalogue);
    let model = check(&build, &catalogue);
    let pallet = &catalogue.pallets[build.pallet.as_ref().expect("it has one")];
    near(model.shipping_mass(pallet).kg - model.lifted_mass().kg, pallet.mass.0, 1e-9);
    near(model.shipping_height(pallet), model.overall(true).max.z + pallet.size.height.0, 1e-9);
}

#[test]
fn the_shield_reaches_past_the_leaves_by_its_overhang_and_clears_the_skin_by_its_gap() {
    let catalogue = catalogue::sample();
    let build = build(2, &catalogue);
    let model = check(&build, &catalogue);
    let shield = model.bounds(|solid| solid.of == Of::Shield).expect("there is one");
    let leaf = model.layout.leaf(0, End::Front).expect("there is one");
    near(leaf.min.y - shield.min.y, 60.0, 1e-9);
    let roof = model.solids.iter().find(|solid| solid.of == Of::Shield).expect("there is one").bounds();
    near(roof.min.z - model.layout.body.max.z, 25.0, 1e-9);
    assert!(model.covered_by_shield(Face::Front) && !model.covered_by_shield(Face::Bottom));
}

#[test]
fn the_body_and_its_panels_have_the_same_outside() {
    let catalogue = catalogue::sample();
    let model = check(&build(2, &catalogue), &catalogue);
    assert_eq!(model.bounds(|solid| matches!(solid.of, Of::Body(_))), Some(model.layout.body));
    let size = model.layout.body.size();
    near(model.faces().front.area_m2, size.x * size.z * 1e-6, 1e-12);
    near(model.faces().left.width, size.y, 1e-12);
}

#[test]
fn a_door_swings_outwards_with_everything_on_it_and_clears_the_body() {
    let catalogue = catalogue::sample();
    let build = filled(2, 4, &catalogue);
    let model = check(&build, &catalogue);
    let doors: Vec<_> = model.hinges().iter().filter(|hinge| hinge.of != Of::Plinth).collect();
    assert_eq!(doors.len(), 4);
    for hinge in doors {
        let swings = |of: Of| hinge.solids.iter().any(|index| model.solids[*index].of == of);
        assert!(swings(hinge.of) && swings(Of::Shield));
        let face = if hinge.end == End::Front { Face::Front } else { Face::Rear };
        assert!(swings(Of::Insulation(face)));
        if hinge.end == End::Front {
            assert!(build.climate.iter().any(|unit| swings(Of::Unit(unit.id))));
        }
        // Opened by a right angle, the leaf stands outside the body and before its own hinge.
        let leaf = model.layout.leaf(hinge.bay, hinge.end).expect("there is one");
        let way = hinge.open_angle_deg.signum();
        let turned =
            |x: f64, y: f64| (hinge.axis_x - way * (y - hinge.axis_y), hinge.axis_y + way * (x - hinge.axis_x));
        for (x, y) in [(leaf.min.x, leaf.min.y), (leaf.max.x, leaf.max.y), (leaf.min.x, leaf.max.y)] {
            let (_, y) = turned(x, y);
            let body = model.layout.body;
            assert!(if hinge.end == End::Front { y <= body.min.y } else { y >= body.max.y }, "{hinge:?}: {y}");
        }
    }
}

#[test]
fn anchors_stand_inside_the_footprint_and_the_plinth_has_their_holes() {
    let catalogue = catalogue::sample();
    let build = build(2, &catalogue);
    let model = check(&build, &catalogue);
    let over = model.footprint();
    assert_eq!(model.anchors.len(), 4);
    for anchor in &model.anchors {
        assert!(anchor.position.x.abs() < over.max.x && anchor.position.y.abs() < over.max.y);
    }
    let foot = model.solids.iter().find(|solid| solid.of == Of::Plinth).expect("there is one");
    assert_eq!(foot.outline.holes.len(), 4);
}

#[test]
fn a_part_the_catalogue_lacks_gives_no_model_or_leaves_only_itself_out() {
    let mut catalogue = catalogue::sample();
    let build = filled(2, 10, &catalogue);
    catalogue.devices.clear();
    catalogue.shields.clear();
    let model = check(&build, &catalogue);
    assert!(model.placed.is_empty() && model.bounds(|solid| solid.of == Of::Shield).is_none());
    catalogue.skins.clear();
    assert!(crate::model(&build, &catalogue).is_none());
}

#[test]
fn frames_extrude_along_the_way_they_face() {
    for axis in [Axis::X, Axis::MinusX, Axis::Y, Axis::MinusY, Axis::Z, Axis::MinusZ] {
        let frame = crate::Frame::facing(axis, &crate::Box3::default());
        assert_eq!(frame.normal(), axis.vector());
    }
}

#[test]
fn nothing_but_devices_is_of_unknown_mass() {
    let catalogue = catalogue::sample();
    let model = check(&build(2, &catalogue), &catalogue);
    assert!(model.solids.iter().all(|solid| solid.mass != Mass::Unknown));
}
