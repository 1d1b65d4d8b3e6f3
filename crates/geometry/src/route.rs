//! The ways of cables inside the body: along risers beside the rails and a ring above the floor.
//!
//! A riser stands in each corner of each bay, in the planes of its rails. The ring joins their feet; between two bays it has
//! a bar along the divider. A cable leaves the middle of its device across to a riser of that bay, follows riser, ring and
//! riser, and comes in the same way; within one riser it does not go down to the ring. Of all ways the shortest is taken.

use crate::{Box3, Layout, Vec3};

/// How far a riser stands from the bay's walls, and the ring above the floor, mm. Common practice, no source.
const FROM_WALL: f64 = 30.0;
const ABOVE_FLOOR: f64 = 40.0;

/// The way of a cable.
#[derive(Clone, Debug, PartialEq)]
pub struct Route {
    /// Its bends from one end to the other, both ends included.
    pub points: Vec<Vec3>,
}

impl Route {
    /// Its length, mm, without what is left over at its ends.
    #[must_use]
    pub fn length(&self) -> f64 {
        length(&self.points)
    }

    fn through(points: &[Vec3]) -> Self {
        let mut bends: Vec<Vec3> = Vec::with_capacity(points.len());
        for point in points {
            if bends.last() != Some(point) {
                bends.push(*point);
            }
        }
        Self { points: bends }
    }
}

/// Bends of a way at most, its ends included.
const BENDS: usize = 9;

fn length(points: &[Vec3]) -> f64 {
    points.windows(2).map(|pair| distance(pair[0], pair[1])).sum()
}

/// Along the axes, mm.
fn distance(a: Vec3, b: Vec3) -> f64 {
    (a.x - b.x).abs() + (a.y - b.y).abs() + (a.z - b.z).abs()
}

impl Layout {
    /// The way of a cable between two boxes; a box outside the body is reached from the nearest riser too.
    #[must_use]
    pub fn route(&self, from: &Box3, to: &Box3) -> Route {
        let (start, end) = (from.centre(), to.centre());
        self.shortest(start, end).map_or_else(|| Route::through(&[start, end]), |(_, bends)| Route::through(&bends))
    }

    /// The length of [`Self::route`] alone, mm, for who asks it of many cables at each edit.
    #[must_use]
    pub fn route_length(&self, from: &Box3, to: &Box3) -> f64 {
        let (start, end) = (from.centre(), to.centre());
        self.shortest(start, end).map_or_else(|| distance(start, end), |(length, _)| length)
    }

    /// Length, mm, and bends of the shortest way; none when there is no bay.
    fn shortest(&self, start: Vec3, end: Vec3) -> Option<(f64, [Vec3; BENDS])> {
        let mut best: Option<(f64, [Vec3; BENDS])> = None;
        for one in self.risers(start) {
            for other in self.risers(end) {
                let bends = self.along(start, one, other, end);
                let length = length(&bends);
                if best.as_ref().is_none_or(|(least, _)| length < *least) {
                    best = Some((length, bends));
                }
            }
        }
        best
    }

    /// Where a conduit from outside comes in: the middle of the floor's rear edge, on the ring.
    #[must_use]
    pub fn entry(&self) -> Box3 {
        let at = Vec3::new(self.inside.centre().x, self.inside.max.y, self.ring());
        Box3 { min: at, max: at }
    }

    fn ring(&self) -> f64 {
        self.inside.min.z + ABOVE_FLOOR
    }

    /// The risers of the bay a point lies in, as places on the floor plan.
    fn risers(&self, at: Vec3) -> impl Iterator<Item = Vec3> {
        let within = |x: f64| move |bay: &&crate::BayLayout| x <= bay.right;
        let bay = self.bays.iter().find(within(at.x)).or(self.bays.last());
        bay.into_iter().flat_map(|bay| {
            let (left, right) = (bay.left + FROM_WALL, bay.right - FROM_WALL);
            [(left, bay.front_rails), (right, bay.front_rails), (left, bay.rear_rails), (right, bay.rear_rails)]
                .map(|(x, y)| Vec3::new(x, y, 0.0))
        })
    }

    fn along(&self, start: Vec3, one: Vec3, other: Vec3, end: Vec3) -> [Vec3; BENDS] {
        let at = |place: Vec3, z: f64| Vec3::new(place.x, place.y, z);
        let ring = self.ring();
        let across = |point: Vec3, riser: Vec3| Vec3::new(riser.x, point.y, point.z);
        // Within one riser it does not go down to the ring.
        let up = at(one, start.z);
        let between =
            if one == other { [up; 3] } else { [at(one, ring), Vec3::new(one.x, other.y, ring), at(other, ring)] };
        let [foot, corner, other_foot] = between;
        let home = across(end, other);
        [start, across(start, one), up, foot, corner, other_foot, at(other, end.z), home, end]
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::sample::build;

    fn layout(bays: usize) -> Layout {
        let catalogue = catalogue::sample();
        Layout::of(&build(bays, &catalogue), &catalogue).unwrap()
    }

    fn at(x: f64, y: f64, z: f64) -> Box3 {
        let point = Vec3::new(x, y, z);
        Box3 { min: point, max: point }
    }

    /// The length between two points of a body of one or two bays.
    fn check(bays: usize, from: Box3, to: Box3, expected: f64) {
        let found = layout(bays).route(&from, &to).length();
        assert!((found - expected).abs() < 1e-9, "{found}");
    }

    #[test]
    fn within_one_riser_a_cable_goes_straight_up() {
        let layout = layout(1);
        let bay = layout.bays[0];
        let riser = (bay.left + FROM_WALL, bay.front_rails);
        check(1, at(riser.0, riser.1, 500.0), at(riser.0, riser.1, 900.0), 400.0);
        // 100 mm across to the riser and back.
        check(1, at(riser.0 + 100.0, riser.1, 500.0), at(riser.0 + 100.0, riser.1, 900.0), 600.0);
    }

    #[test]
    fn between_two_bays_a_cable_goes_by_the_ring() {
        let layout = layout(2);
        let ring = layout.inside.min.z + ABOVE_FLOOR;
        let [one, other] = [layout.bays[0], layout.bays[1]];
        let from = at(one.right - FROM_WALL, one.rear_rails, 800.0);
        let to = at(other.left + FROM_WALL, other.rear_rails, 700.0);
        let across = other.left + FROM_WALL - (one.right - FROM_WALL);
        check(2, from, to, (800.0 - ring) + across + (700.0 - ring));
    }

    fn anywhere() -> impl Strategy<Value = Box3> {
        (-500.0..500.0, -300.0..300.0, 100.0..1500.0).prop_map(|(x, y, z)| at(x, y, z))
    }

    proptest! {
        #[test]
        fn there_and_back_are_as_far_and_never_shorter_than_along_the_axes(a in anywhere(), b in anywhere(), bays in 1_usize..3) {
            let layout = layout(bays);
            let (there, back) = (layout.route(&a, &b).length(), layout.route(&b, &a).length());
            prop_assert!((there - layout.route_length(&a, &b)).abs() < 1e-9);
            prop_assert!((there - back).abs() < 1e-9);
            prop_assert!(there >= distance(a.centre(), b.centre()) - 1e-9);
        }

        #[test]
        fn every_stretch_runs_along_an_axis(a in anywhere(), b in anywhere()) {
            for pair in layout(2).route(&a, &b).points.windows(2) {
                let step = pair[1] - pair[0];
                let moved = [step.x, step.y, step.z].iter().filter(|part| part.abs() > 1e-9).count();
                prop_assert_eq!(moved, 1, "{:?}", pair);
            }
        }
    }
}
