//! Where parts appear on screen, for what is written over the drawing.

use std::sync::Arc;

use geometry::{Box3, Of, Vec3};

use super::camera::{Pose, corners};
use super::motion::Motion;
use super::pick::{Shown, pick};
use super::scene::{SHIELD, Scene};
use crate::lean::ordered;

/// How the frame on screen was drawn. Points are in CSS pixels from the drawing's upper left corner.
#[derive(Clone)]
pub struct Projection {
    pub(crate) pose: Pose,
    pub(crate) scene: Arc<Scene>,
    pub(crate) motions: Arc<[Motion]>,
    pub(crate) size: [f64; 2],
    pub(crate) shield: bool,
    pub(crate) ghosted: bool,
}

impl Projection {
    /// Where a point of the model, in its millimetres, appears. Doors and what they carry: see [`Self::anchor`].
    #[must_use]
    pub fn point(&self, point: Vec3) -> [f64; 2] {
        self.pose.screen(point)
    }

    /// Width and height of the drawing.
    #[must_use]
    pub fn size(&self) -> [f64; 2] {
        self.size
    }

    /// Which way it is looked at, in the model's coordinates: the direction to the right, and the one towards the eye.
    pub(crate) fn looks(&self) -> (Vec3, Vec3) {
        (self.pose.axes.right, self.pose.axes.eye)
    }

    /// A point on the face of a part that shows best, where a leader may end: as the part stands now, doors open or not.
    /// `None` when the part is not there, or that point lies outside the drawing.
    #[must_use]
    pub fn anchor(&self, of: Of) -> Option<[f64; 2]> {
        let eye = self.pose.axes.eye;
        let mut best: Option<(f64, Vec3)> = None;
        for (motion, bounds) in self.boxes(of) {
            let (middle, size) = (bounds.centre(), bounds.size());
            let sides = [
                (Vec3::new(1.0, 0.0, 0.0), size.x, size.y * size.z),
                (Vec3::new(0.0, 1.0, 0.0), size.y, size.x * size.z),
                (Vec3::new(0.0, 0.0, 1.0), size.z, size.x * size.y),
            ];
            for (axis, depth, area) in sides {
                let facing = motion.direction(axis).dot(eye);
                let seen = area * facing.abs();
                if best.is_none_or(|(most, _)| seen > most) {
                    best = Some((seen, motion.point(middle + axis * (depth / 2.0 * facing.signum()))));
                }
            }
        }
        let [width, height] = self.size;
        let at = best.map(|(_, point)| self.pose.screen(point));
        at.filter(|[x, y]| (0.0..=width).contains(x) && (0.0..=height).contains(y))
    }

    /// Whether something else lies before the point where a leader to the part ends.
    #[must_use]
    pub fn hides(&self, of: Of) -> bool {
        let shown = Shown { motions: &self.motions, shield: self.shield, ghosted: self.ghosted };
        self.anchor(of).is_some_and(|at| pick(&self.scene, shown, &self.pose, at).is_some_and(|found| found != of))
    }

    /// The outline of a part, as the least convex ring round it; empty when the part is not there.
    #[must_use]
    pub fn outline(&self, of: Of) -> Vec<[f64; 2]> {
        let points = self.boxes(of).flat_map(|(motion, bounds)| corners(&bounds).map(|corner| motion.point(corner)));
        convex(points.map(|point| self.pose.screen(point)).collect())
    }

    /// The box round everything that stands still but pad and lifting eyes; with the shield when it is on.
    pub(crate) fn overall(&self, with_shield: bool) -> Option<Box3> {
        let counted = |of: Of, group: usize| {
            !matches!(of, Of::Pad | Of::Eye(_)) && (group == 0 || (with_shield && group == SHIELD))
        };
        let targets = self.scene.targets.iter().filter(|target| counted(target.of, target.group));
        targets.map(|target| target.bounds).reduce(|all, one| all.join(&one))
    }

    fn boxes(&self, of: Of) -> impl Iterator<Item = (Motion, Box3)> + '_ {
        let targets = self.scene.targets.iter().filter(move |target| target.of == of && !target.detail);
        targets.filter_map(|target| Some((self.motions.get(target.group).copied()?, target.bounds)))
    }
}

/// The least convex ring round some points (monotone chain, Andrew 1979).
fn convex(points: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    let mut points = ordered(points, |a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    points.dedup();
    if points.len() < 3 {
        return points;
    }
    let turn = |a: [f64; 2], b: [f64; 2], c: [f64; 2]| (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
    let half = |points: &mut dyn Iterator<Item = &[f64; 2]>| {
        let mut chain: Vec<[f64; 2]> = Vec::new();
        for point in points {
            while let [.., a, b] = chain.as_slice() {
                if turn(*a, *b, *point) > 0.0 {
                    break;
                }
                chain.pop();
            }
            chain.push(*point);
        }
        chain.pop();
        chain
    };
    let mut ring = half(&mut points.iter());
    ring.extend(half(&mut points.iter().rev()));
    ring
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ring_round_a_square_with_a_point_inside_is_the_square() {
        let ring = convex(vec![[0.0, 0.0], [2.0, 0.0], [1.0, 1.0], [2.0, 2.0], [0.0, 2.0], [0.0, 0.0]]);
        assert_eq!(ring, [[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]]);
    }

    #[test]
    fn few_points_are_given_back() {
        assert!(convex(Vec::new()).is_empty());
        assert_eq!(convex(vec![[1.0, 1.0], [1.0, 1.0]]), [[1.0, 1.0]]);
    }
}
