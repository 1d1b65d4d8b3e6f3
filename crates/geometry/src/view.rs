//! Elevations, side and plan as outlines to draw: orthographic, in millimetres, to scale.
//!
//! What is hidden is decided by what a part is, not by general removal of hidden lines: front and rear are seen with that
//! end's doors open, so that its devices show and those of the other end are hidden; from the side and above, all that is
//! inside is hidden. Outlines come with the farthest first, so that painting them in order covers what is behind.

use project::{End, Face, ItemId};

use crate::clearance::rising;
use crate::model::Model;
use crate::shape::{bounds, rectangle, ring_area};
use crate::{Axis, Box3, Frame, Layer, Of, Outline, Solid, Tone, Vec3};

/// From where a cabinet is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum View {
    /// From the front.
    Front,
    /// From the rear.
    Rear,
    /// From the left side.
    Left,
    /// From the right side.
    Right,
    /// From above, the front below.
    Plan,
}

/// One solid as it is seen.
#[derive(Clone, Debug, PartialEq)]
pub struct ViewOutline {
    /// What it is a piece of.
    pub of: Of,
    /// Its layer.
    pub layer: Layer,
    /// Its tone.
    pub tone: Tone,
    /// Index in the model's solids.
    pub solid: usize,
    /// The outline in mm: x to the right as seen, y up (in plan: to the rear). x = 0 is the cabinet's middle, y = 0 the
    /// ground (in plan: the middle).
    pub outline: Outline,
    /// How near the viewer its nearest face is, mm from the cabinet's middle (from above: from the ground).
    pub nearness: f64,
    /// Behind something else, to be drawn dashed or not at all.
    pub hidden: bool,
    /// Whether it is a fine detail.
    pub detail: bool,
}

impl View {
    /// The direction from the cabinet to the viewer.
    const fn towards(self) -> Axis {
        match self {
            Self::Front => Axis::MinusY,
            Self::Rear => Axis::Y,
            Self::Left => Axis::MinusX,
            Self::Right => Axis::X,
            Self::Plan => Axis::Z,
        }
    }

    const fn end(self) -> Option<End> {
        match self {
            Self::Front => Some(End::Front),
            Self::Rear => Some(End::Rear),
            Self::Left | Self::Right | Self::Plan => None,
        }
    }

    /// The face of the body that is turned away.
    const fn far_face(self) -> Face {
        match self {
            Self::Front => Face::Rear,
            Self::Rear => Face::Front,
            Self::Left => Face::Right,
            Self::Right => Face::Left,
            Self::Plan => Face::Bottom,
        }
    }

    /// A box as it is seen: lower left and upper right corner.
    #[must_use]
    pub fn rectangle(self, of: &Box3) -> ([f64; 2], [f64; 2]) {
        self.frame().shadow(of)
    }

    fn frame(self) -> Frame {
        Frame::facing(self.towards(), &Box3::default())
    }
}

/// All solids as seen from one side, the farthest first.
#[must_use]
pub fn elevation(model: &Model, view: View) -> Vec<ViewOutline> {
    let plane = view.frame();
    let towards = view.towards().vector();
    let swinging = swinging_elsewhere(model, view);
    let nearness: Vec<f64> = model
        .solids
        .iter()
        .map(|solid| {
            let box3 = solid.bounds();
            box3.min.dot(towards).max(box3.max.dot(towards))
        })
        .collect();
    let seen = rising(nearness.clone()).into_iter().map(|index| {
        let solid = &model.solids[index];
        let box3 = solid.bounds();
        ViewOutline {
            of: solid.of,
            layer: solid.layer,
            tone: solid.tone,
            solid: index,
            outline: projected(solid, &box3, &plane, towards),
            nearness: nearness[index],
            hidden: swinging[index] || is_hidden(model, solid, &box3, view),
            detail: solid.detail,
        }
    });
    seen.collect()
}

/// The solid's own outline when it is looked at end on, otherwise the rectangle it fills.
fn projected(solid: &Solid, box3: &Box3, plane: &Frame, towards: Vec3) -> Outline {
    if solid.frame.normal().dot(towards) == 0.0 {
        let (low, high) = plane.shadow(box3);
        return Outline { outer: rectangle(low, high), holes: Vec::new() };
    }
    let ring = |points: &[[f64; 2]], way: f64| {
        let mut ring: Vec<_> = points.iter().map(|point| plane.coordinates(solid.frame.point(*point, 0.0))).collect();
        // An outline that faces away is seen mirrored.
        if ring_area(&ring) * way < 0.0 {
            ring.reverse();
        }
        ring
    };
    Outline {
        outer: ring(&solid.outline.outer, 1.0),
        holes: solid.outline.holes.iter().map(|hole| ring(hole, -1.0)).collect(),
    }
}

/// For each solid, whether it is on a door of the other end.
fn swinging_elsewhere(model: &Model, view: View) -> Vec<bool> {
    let mut found = vec![false; model.solids.len()];
    let Some(end) = view.end() else { return found };
    for hinge in model.hinges().iter().filter(|hinge| hinge.end != end) {
        for solid in &hinge.solids {
            found[*solid] = true;
        }
    }
    found
}

fn is_hidden(model: &Model, solid: &Solid, box3: &Box3, view: View) -> bool {
    match (solid.of, view.end()) {
        (Of::Body(face), _) => face == view.far_face(),
        (Of::Insulation(_), _) => true,
        (Of::Rail { end, .. }, Some(seen)) => end != seen,
        (Of::Manager { .. }, Some(seen)) => seen != End::Front,
        (Of::Device(id), Some(seen)) => held_at(model, id).is_some_and(|end| end != seen),
        // Seen from outside: what stands within the body is not.
        (Of::Unit(_), _) => !reaches_out(&model.layout.body, box3),
        (Of::Device(_) | Of::Rail { .. } | Of::Manager { .. } | Of::Divider | Of::Fittings { .. }, None) => true,
        _ => false,
    }
}

fn held_at(model: &Model, id: ItemId) -> Option<End> {
    model.device(id)?.end
}

fn reaches_out(body: &Box3, box3: &Box3) -> bool {
    let (low, high) = (body.min - box3.min, box3.max - body.max);
    low.x.max(low.y).max(high.x).max(high.y).max(high.z) > 0.0
}

/// The rectangle round some outlines: lower left and upper right corner; `None` when there is none.
#[must_use]
pub fn extent(outlines: &[ViewOutline]) -> Option<([f64; 2], [f64; 2])> {
    outlines.iter().map(|one| bounds(&one.outline.outer)).reduce(|(low, high), (from, to)| {
        ([low[0].min(from[0]), low[1].min(from[1])], [high[0].max(to[0]), high[1].max(to[1])])
    })
}
