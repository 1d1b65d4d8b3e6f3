//! What is made of the sample projects, and what is found under the pointer.

use geometry::{Model, Of, Vec3};
use project::End;

use super::camera::{Angles, Area, Axes, Extent, Hand, Pose, corners};
use super::motion::Motion;
use super::pick::{Shown, pick};
use super::scene::{GROUPS, Group, SHADES, Scene};
use crate::view_state::Camera;

const AREA: Area = Area { width: 640.0, height: 430.0 };

fn models() -> Vec<Model> {
    let catalogue = catalogue::sample();
    let samples = project::samples();
    assert!(samples.len() >= 3);
    samples.iter().map(|sample| geometry::model(&sample.project.build, &catalogue).unwrap()).collect()
}

fn motions(scene: &Scene, doors: f32) -> Vec<Motion> {
    scene.groups.iter().map(|group| group.motion([doors, doors], 1.0)).collect()
}

fn pose(scene: &Scene, camera: Camera) -> Pose {
    let axes = Axes::at(Angles::of(camera));
    let points: Vec<_> = scene.bounds.iter().flatten().flat_map(corners).collect();
    let extent = Extent::of(&points, &axes);
    Pose::standing(axes, &extent, extent.fitting(AREA), Hand::FITTED, AREA)
}

/// What a click on the middle of a front door finds, or on a point behind it.
#[track_caller]
fn check(shown: impl Fn(&mut Shown<'_>), doors: f32, expected: impl Fn(Of) -> bool) {
    for model in models() {
        let scene = Scene::of(&model, &[]);
        let leaf = model.layout.leaf(0, End::Front).unwrap();
        let middle = leaf.centre();
        // Beside the units that doors carry, at the edge of the leaf where the handle is not.
        let at = pose(&scene, Camera::Front).screen(Vec3::new(middle.x, middle.y, leaf.min.z + 5.0));
        let motions = motions(&scene, doors);
        let mut what = Shown { motions: &motions, shield: false, ghosted: false };
        shown(&mut what);
        let found = pick(&scene, what, &pose(&scene, Camera::Front), at);
        assert!(found.is_some_and(&expected), "{found:?}");
    }
}

#[test]
fn a_shut_door_is_found_where_it_is() {
    check(|_| {}, 0.0, |of| matches!(of, Of::Door { bay: 0, end: End::Front }));
}

#[test]
fn an_open_door_is_no_longer_in_the_way() {
    check(|_| {}, 1.0, |of| !matches!(of, Of::Door { .. }));
}

#[test]
fn a_ghosted_door_is_looked_through() {
    check(|shown| shown.ghosted = true, 0.0, |of| !matches!(of, Of::Door { .. }));
}

#[test]
fn beside_the_cabinet_nothing_is_found() {
    for model in models() {
        let scene = Scene::of(&model, &[]);
        let motions = motions(&scene, 0.0);
        let shown = Shown { motions: &motions, shield: true, ghosted: false };
        assert_eq!(pick(&scene, shown, &pose(&scene, Camera::Corner), [2.0, 2.0]), None);
    }
}

#[test]
fn every_sample_keeps_to_the_budget_of_triangles() {
    for model in models() {
        let triangles = Scene::of(&model, &[]).triangles();
        // The budget of the design, with the largest sample far below it.
        assert!((500..=30_000).contains(&triangles), "{triangles}");
    }
}

#[test]
fn what_the_shaders_number_fits_their_arrays() {
    for model in models() {
        let scene = Scene::of(&model, &[]);
        assert!(scene.groups.len() <= GROUPS && scene.shades.len() <= SHADES);
        assert_eq!(scene.bounds.len(), scene.groups.len());
        let groups = scene.groups.len() as f32;
        assert!(scene.faces.tags.iter().all(|tag| tag[1] < groups));
        assert!(scene.lines.tags.iter().all(|tag| tag[1] < groups));
        let points = scene.faces.positions.len();
        assert_eq!(points, scene.faces.normals.len());
        assert_eq!(points, scene.faces.tags.len());
        assert!(scene.faces.indices.iter().all(|index| (*index as usize) < points));
    }
}

#[test]
fn the_shaders_know_as_many_groups_shades_and_tones_as_are_sent() {
    let sources = [
        include_str!("shaders/flat.vert"),
        include_str!("shaders/flat.frag"),
        include_str!("shaders/ink.vert"),
        include_str!("shaders/ink.frag"),
    ];
    let tones = 3 * super::palette::Paint::COUNT;
    let of = |name: &str| sources.iter().filter(|source| source.contains(name)).count();
    assert_eq!(of(&format!("groups[{GROUPS}]")), 2);
    assert_eq!(of(&format!("shades[{SHADES}]")), 1);
    assert_eq!(of(&format!("tones[{tones}]")), 1);
    assert_eq!(of(&format!("inks[{}]", super::palette::INKS.len())), 1);
    assert_eq!(of(&format!("PAD = {};", super::palette::Paint::Pad as u8)), 1);
    assert_eq!(of(&format!("GROUND = {};", super::palette::Paint::Ground as u8)), 1);
}

#[test]
fn doors_open_outwards() {
    for model in models() {
        let scene = Scene::of(&model, &[]);
        let body = model.layout.body;
        for (group, bounds) in scene.groups.iter().zip(&scene.bounds) {
            let (Group::Door { end, .. }, Some(bounds)) = (group, bounds) else { continue };
            let motion = group.motion([1.0, 1.0], 1.0);
            let moved: Vec<_> = corners(bounds).iter().map(|corner| motion.point(*corner).y).collect();
            let out = match end {
                End::Front => moved.iter().any(|y| *y < body.min.y - 200.0),
                End::Rear => moved.iter().any(|y| *y > body.max.y + 200.0),
            };
            assert!(out, "{end:?} {moved:?}");
        }
    }
}

#[test]
fn ten_thousand_devices_are_still_a_scene() {
    let catalogue = catalogue::sample();
    let mut build = project::samples().swap_remove(0).project.build;
    let one = build.devices.iter().find(|device| device.at != project::Place::Unplaced).unwrap().clone();
    build.devices = (0..10_000).map(|id| project::FittedDevice { id: project::ItemId(id), ..one.clone() }).collect();
    let scene = Scene::of(&geometry::model(&build, &catalogue).unwrap(), &[]);
    assert!(scene.targets.len() >= 10_000);
}

#[test]
fn a_cable_is_drawn_from_bend_to_bend() {
    let model = models().swap_remove(0);
    let middle = model.layout.body.centre();
    let at = |z| geometry::Box3 { min: Vec3::new(middle.x, middle.y, z), max: Vec3::new(middle.x, middle.y, z) };
    let way = model.layout.route(&at(500.0), &at(900.0));
    let lines = |ways: &[geometry::Route]| Scene::of(&model, ways).lines.from.len();
    assert_eq!(lines(std::slice::from_ref(&way)), lines(&[]) + way.points.len() - 1);
}
