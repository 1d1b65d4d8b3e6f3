//! Which parts reach into each other, and how much free room a device has before and behind it.

use std::collections::BTreeMap;

use project::{End, ItemId};

use crate::model::{Model, Placed};
use crate::shape::{edges, is_rectilinear};
use crate::{Axis, Box3, Of, Outline, Solid, Vec3};

/// Overlaps up to this are contact, mm: what a shop's tolerances take up.
pub const SLACK: f64 = 0.5;

/// Most meetings that are told: beyond them a build is in heaps, and a longer list helps nobody.
const MOST_MEETINGS: usize = 500;

/// A box that belongs to a part and is in the way of others.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Obstacle {
    pub(crate) of: Of,
    pub(crate) fills: Box3,
}

/// Two parts that reach into each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Meeting {
    /// One part.
    pub a: Of,
    /// The other.
    pub b: Of,
    /// How deep at the deepest place, mm: the least way by which one of them would have to give way.
    pub depth_mm: f64,
}

/// Free room on one side of a device.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Free distance, mm; 0 when something reaches over the device's own plane.
    pub mm: f64,
    /// What ends it.
    pub to: Of,
}

/// The boxes of everything that is in the way, by rising lower edge.
pub(crate) fn obstacles(solids: &[Solid]) -> Vec<Obstacle> {
    let mut all = Vec::with_capacity(solids.len());
    for solid in solids.iter().filter(|solid| !solid.detail && counts(solid.of)) {
        if matches!(solid.of, Of::Manager { .. }) {
            // Its inside is full of cables.
            all.push(Obstacle { of: solid.of, fills: solid.bounds() });
            continue;
        }
        all.extend(boxes(solid).into_iter().map(|fills| Obstacle { of: solid.of, fills }));
    }
    // What lies nowhere, because a number in the file is none, is in nobody's way.
    all.retain(|one| is_finite(one.fills.min) && is_finite(one.fills.max));
    let lower_edges = all.iter().map(|one| one.fills.min.z).collect();
    rising(lower_edges).into_iter().map(|index| all[index].clone()).collect()
}

/// The order in which numbers rise; of equal ones the earlier comes first. Places are sorted instead of what has the
/// numbers, so that sorting is compiled once.
pub(crate) fn rising(numbers: Vec<f64>) -> Vec<usize> {
    let mut order: Vec<(f64, usize)> = numbers.into_iter().zip(0..).collect();
    order.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    order.into_iter().map(|(_, index)| index).collect()
}

fn is_finite(point: Vec3) -> bool {
    point.x.is_finite() && point.y.is_finite() && point.z.is_finite()
}

/// The pad and pallet are drawn only, and the frame of a bay stands for what is shaped to fit.
const fn counts(of: Of) -> bool {
    !matches!(of, Of::Pad | Of::Pallet | Of::Fittings { .. })
}

/// The boxes that make up a solid: exact for outlines whose edges lie along the axes, with their holes of that kind. A
/// round hole counts as filled, and any other outline as its bounds.
pub(crate) fn boxes(solid: &Solid) -> Vec<Box3> {
    let outline = &solid.outline;
    if outline.is_plain_rectangle() || !is_rectilinear(&outline.outer) {
        return vec![solid.bounds()];
    }
    rectangles(outline)
        .into_iter()
        .map(|(low, high)| Box3::between(solid.frame.point(low, 0.0), solid.frame.point(high, solid.thickness)))
        .collect()
}

/// Cuts an outline into rectangles: one band between each two heights at which an edge starts or ends.
fn rectangles(outline: &Outline) -> Vec<([f64; 2], [f64; 2])> {
    let rings: Vec<_> = outline.rings().filter(|ring| is_rectilinear(ring)).collect();
    let mut levels: Vec<f64> = rings.iter().flat_map(|ring| ring.iter().map(|point| point[1])).collect();
    levels.sort_unstable_by(f64::total_cmp);
    levels.dedup();
    let mut found: Vec<([f64; 2], [f64; 2])> = Vec::new();
    for band in levels.windows(2) {
        let [bottom, top] = band else { continue };
        let middle = (bottom + top) / 2.0;
        let mut crossings: Vec<f64> = rings
            .iter()
            .flat_map(|ring| edges(ring))
            .filter(|(a, b)| (a[1] < middle) != (b[1] < middle))
            .map(|(a, _)| a[0])
            .collect();
        crossings.sort_unstable_by(f64::total_cmp);
        for pair in crossings.chunks_exact(2) {
            found.push(([pair[0], *bottom], [pair[1], *top]));
        }
    }
    found
}

/// Pairs that touch or pass through each other by design.
fn belong(a: Of, b: Of) -> bool {
    match (a, b) {
        (Of::Insulation(_), Of::Insulation(_) | Of::Body(_) | Of::Door { .. } | Of::Divider)
        | (Of::Body(_) | Of::Door { .. } | Of::Divider, Of::Insulation(_)) => true,
        // Eyes pass through round holes.
        (Of::Eye(_), Of::Shield | Of::Body(_)) | (Of::Shield | Of::Body(_), Of::Eye(_)) => true,
        _ => a == b,
    }
}

impl Model {
    /// Parts that reach into each other by more than [`SLACK`], each pair once, at most 500.
    #[must_use]
    pub fn meetings(&self) -> Vec<Meeting> {
        let mut deepest: BTreeMap<(Of, Of), f64> = BTreeMap::new();
        // Obstacles rise by their lower edge: those that start above the top of one cannot meet it.
        'all: for (index, one) in self.obstacles.iter().enumerate() {
            for other in &self.obstacles[index + 1..] {
                if other.fills.min.z >= one.fills.max.z - SLACK {
                    break;
                }
                if one.fills.meets(&other.fills) > SLACK && !belong(one.of, other.of) {
                    let depth = way_out(&one.fills, &other.fills);
                    let pair = (one.of.min(other.of), one.of.max(other.of));
                    let known = deepest.entry(pair).or_insert(depth);
                    *known = known.max(depth);
                    if deepest.len() >= MOST_MEETINGS {
                        break 'all;
                    }
                }
            }
        }
        deepest.into_iter().map(|((a, b), depth_mm)| Meeting { a, b, depth_mm }).collect()
    }

    /// Free distance before the face of a device, from its mounting plane, within the shadow of its body.
    #[must_use]
    pub fn gap_before(&self, device: ItemId) -> Option<Gap> {
        let placed = self.device(device)?;
        Some(self.gap(placed, placed.face))
    }

    /// Free distance behind a device's body, within its shadow.
    #[must_use]
    pub fn gap_behind(&self, device: ItemId) -> Option<Gap> {
        let placed = self.device(device)?;
        Some(self.gap(placed, placed.face.opposite()))
    }

    fn gap(&self, placed: &Placed, towards: Axis) -> Gap {
        let (own, body) = (Of::Device(placed.id), &placed.body);
        let plane = reach(body, towards);
        let mut gap = self.limit(placed, towards, plane);
        for obstacle in &self.obstacles {
            if obstacle.fills.min.z >= body.max.z - SLACK {
                break;
            }
            if obstacle.of == own || !overlaps_aside(body, &obstacle.fills, towards) {
                continue;
            }
            let (near, far) = (-reach(&obstacle.fills, towards.opposite()), reach(&obstacle.fills, towards));
            if far > plane + SLACK && (near - plane).max(0.0) < gap.mm {
                gap = Gap { mm: (near - plane).max(0.0), to: obstacle.of };
            }
        }
        gap
    }

    /// The layout's limit plane on one side of a device.
    fn limit(&self, placed: &Placed, towards: Axis, plane: f64) -> Gap {
        use project::Face;
        let inside = self.layout.inside;
        let (limit, to) = match towards {
            Axis::MinusY => (-self.layout.limit(placed.bay, End::Front), self.end_of(placed.bay, End::Front)),
            Axis::Y => (self.layout.limit(placed.bay, End::Rear), self.end_of(placed.bay, End::Rear)),
            Axis::MinusX => (-inside.min.x, Of::Body(Face::Left)),
            Axis::X => (inside.max.x, Of::Body(Face::Right)),
            Axis::MinusZ => (-inside.min.z, Of::Body(Face::Bottom)),
            Axis::Z => (inside.max.z, Of::Body(Face::Top)),
        };
        Gap { mm: (limit - plane).max(0.0), to }
    }

    fn end_of(&self, bay: usize, end: End) -> Of {
        if self.layout.bays.get(bay).is_some_and(|planes| planes.door(end)) {
            return Of::Door { bay, end };
        }
        Of::Body(if end == End::Front { project::Face::Front } else { project::Face::Rear })
    }
}

/// The least way by which one of two boxes that meet has to move to be clear of the other, mm. Through a thin sheet it is
/// how far the other sticks out of it, not the sheet's thickness.
fn way_out(a: &Box3, b: &Box3) -> f64 {
    let (up, down) = (a.max - b.min, b.max - a.min);
    up.x.min(down.x).min(up.y).min(down.y).min(up.z).min(down.z)
}

/// How far a box reaches along a direction.
fn reach(of: &Box3, towards: Axis) -> f64 {
    let direction = towards.vector();
    of.min.dot(direction).max(of.max.dot(direction))
}

/// Whether two boxes overlap, seen along a direction.
fn overlaps_aside(a: &Box3, b: &Box3, towards: Axis) -> bool {
    let low = Vec3::new(a.min.x.max(b.min.x), a.min.y.max(b.min.y), a.min.z.max(b.min.z));
    let high = Vec3::new(a.max.x.min(b.max.x), a.max.y.min(b.max.y), a.max.z.min(b.max.z));
    let over = high - low;
    let (first, second) = match towards {
        Axis::X | Axis::MinusX => (over.y, over.z),
        Axis::Y | Axis::MinusY => (over.x, over.z),
        Axis::Z | Axis::MinusZ => (over.x, over.y),
    };
    first > SLACK && second > SLACK
}
