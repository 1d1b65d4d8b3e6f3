//! What lies under the pointer: the nearest triangle that a ray from the eye meets.

use geometry::{Box3, Of, Vec3};

use super::camera::Pose;
use super::motion::Motion;
use super::scene::{SHIELD, Scene};

/// What of the scene can be pointed at.
#[derive(Clone, Copy)]
pub(crate) struct Shown<'a> {
    pub(crate) motions: &'a [Motion],
    pub(crate) shield: bool,
    pub(crate) ghosted: bool,
}

/// A ray from far before the model, away from the eye.
struct Ray {
    from: Vec3,
    way: Vec3,
}

/// Farther than anything is drawn, mm.
const FAR: f64 = 20_000.0;

/// The part at a place on screen.
pub(crate) fn pick(scene: &Scene, shown: Shown<'_>, pose: &Pose, at: [f64; 2]) -> Option<Of> {
    let ray = Ray { from: pose.unproject(at) + pose.axes.eye * FAR, way: pose.axes.eye * -1.0 };
    // Each group is searched where it rests, with the ray moved back instead.
    let rays: Vec<_> = shown
        .motions
        .iter()
        .map(|motion| {
            let back = motion.back();
            Ray { from: back.point(ray.from), way: back.direction(ray.way) }
        })
        .collect();
    let mut nearest: Option<(f64, Of)> = None;
    for target in &scene.targets {
        let Some(ray) = rays.get(target.group) else { continue };
        let ghost = shown.ghosted && target.outward.is_some_and(|way| way.dot(ray.way) < -0.01);
        if ghost || target.of == Of::Pad || (target.group == SHIELD && !shown.shield) || !ray.meets(&target.bounds) {
            continue;
        }
        let triangles = scene.faces.indices.get(target.indices.clone()).unwrap_or_default();
        for triangle in triangles.chunks_exact(3) {
            let corner = |index: u32| scene.faces.positions.get(index as usize).copied().map(double);
            let (Some(a), Some(b), Some(c)) = (corner(triangle[0]), corner(triangle[1]), corner(triangle[2])) else {
                continue;
            };
            if let Some(far) = ray.through(a, b, c).filter(|far| nearest.is_none_or(|(least, _)| *far < least)) {
                nearest = Some((far, target.of));
            }
        }
    }
    nearest.map(|(_, of)| of)
}

impl Ray {
    fn meets(&self, of: &Box3) -> bool {
        let slab = |from: f64, way: f64, low: f64, high: f64| {
            if way.abs() < 1e-12 {
                return if from < low || from > high { (f64::MAX, f64::MIN) } else { (f64::MIN, f64::MAX) };
            }
            let (a, b) = ((low - from) / way, (high - from) / way);
            (a.min(b), a.max(b))
        };
        let x = slab(self.from.x, self.way.x, of.min.x, of.max.x);
        let y = slab(self.from.y, self.way.y, of.min.y, of.max.y);
        let z = slab(self.from.z, self.way.z, of.min.z, of.max.z);
        x.0.max(y.0).max(z.0) <= x.1.min(y.1).min(z.1)
    }

    /// How far along it a triangle is met from its front (Möller and Trumbore, 1997).
    fn through(&self, a: Vec3, b: Vec3, c: Vec3) -> Option<f64> {
        let (ab, ac) = (b - a, c - a);
        let across = self.way.cross(ac);
        let turn = ab.dot(across);
        if turn <= 1e-9 {
            return None;
        }
        let from = self.from - a;
        let u = from.dot(across) / turn;
        let over = from.cross(ab);
        let v = self.way.dot(over) / turn;
        (u >= 0.0 && v >= 0.0 && u + v <= 1.0).then(|| ac.dot(over) / turn)
    }
}

fn double([x, y, z]: [f32; 3]) -> Vec3 {
    Vec3::new(f64::from(x), f64::from(y), f64::from(z))
}
