//! How the part builders make solids: plates with holes, blocks, rings, discs.

use crate::shape::{bounds, circle, rectangle, reversed};
use crate::{Axis, Box3, Frame, Layer, Mass, Of, Outline, Solid, Tone, Vec3};

/// Least width of material left beside a hole, mm: a hole that would cut through the edge is narrowed to this.
const LEAST_RIM: f64 = 1.0;

/// What the solids of one piece have in common.
#[derive(Clone, Copy)]
pub(crate) struct Piece {
    pub(crate) of: Of,
    pub(crate) layer: Layer,
    pub(crate) tone: Tone,
}

impl Piece {
    pub(crate) const fn new(of: Of, layer: Layer, tone: Tone) -> Self {
        Self { of, layer, tone }
    }

    /// The same piece in another tone.
    pub(crate) const fn in_tone(self, tone: Tone) -> Self {
        Self { tone, ..self }
    }

    fn solid(self, outline: Outline, thickness: f64, frame: Frame, mass: Mass) -> Solid {
        Solid { of: self.of, layer: self.layer, tone: self.tone, outline, thickness, frame, mass, detail: false }
    }

    /// A plate that fills a box, facing along `facing`, with rectangular holes right through where the given boxes are.
    pub(crate) fn plate(self, fills: &Box3, facing: Axis, holes: &[Box3], mass: Mass) -> Solid {
        let frame = Frame::facing(facing, fills);
        let (_, size) = frame.shadow(fills);
        let mut outline = Outline::rectangle(size[0], size[1]);
        outline.holes = rectangular_holes(&frame, size, holes);
        self.solid(outline, along(facing, fills), frame, mass)
    }

    /// A block without holes, its outline facing along `facing`.
    pub(crate) fn block(self, fills: &Box3, facing: Axis, mass: Mass) -> Solid {
        self.plate(fills, facing, &[], mass)
    }

    /// A block that is drawn only.
    pub(crate) fn detail(self, fills: &Box3, facing: Axis) -> Solid {
        Solid { detail: true, ..self.block(fills, facing, Mass::Elsewhere) }
    }

    /// A frame with walls of a thickness round an open middle, running along `facing`.
    pub(crate) fn frame(self, fills: &Box3, facing: Axis, wall: f64, mass: Mass) -> Solid {
        let frame = Frame::facing(facing, fills);
        let (_, size) = frame.shadow(fills);
        let mut outline = Outline::rectangle(size[0], size[1]);
        if size[0] > 2.0 * wall && size[1] > 2.0 * wall {
            outline.holes.push(reversed(rectangle([wall, wall], [size[0] - wall, size[1] - wall])));
        }
        self.solid(outline, along(facing, fills), frame, mass)
    }

    /// Any outline, from a frame.
    pub(crate) fn extruded(self, outline: Outline, frame: Frame, thickness: f64, mass: Mass) -> Solid {
        self.solid(outline, thickness, frame, mass)
    }

    /// A disc standing `thickness` out of the point `centre` along `facing`, drawn only.
    pub(crate) fn disc(self, centre: Vec3, radius: f64, facing: Axis, thickness: f64) -> Solid {
        let frame = Frame::facing(facing, &Box3 { min: centre, max: centre });
        let outline = Outline { outer: circle([0.0, 0.0], radius), holes: Vec::new() };
        Solid { detail: true, ..self.solid(outline, thickness, frame, Mass::Elsewhere) }
    }

    /// A ring standing `thickness` out of the point `centre` along `facing`.
    pub(crate) fn ring(self, centre: Vec3, radii: (f64, f64), facing: Axis, thickness: f64, mass: Mass) -> Solid {
        let frame = Frame::facing(facing, &Box3 { min: centre, max: centre });
        let holes = if radii.0 > 0.0 { vec![reversed(circle([0.0, 0.0], radii.0))] } else { Vec::new() };
        self.solid(Outline { outer: circle([0.0, 0.0], radii.1), holes }, thickness, frame, mass)
    }
}

/// Cuts round holes at these points of a plate; those that would not lie inside it are left out.
pub(crate) fn drill(plate: &mut Solid, points: &[Vec3], diameter: f64) {
    let (low, high) = bounds(&plate.outline.outer);
    let reach = diameter / 2.0 + LEAST_RIM;
    for point in points {
        let [a, b] = plate.frame.coordinates(*point);
        let inside = a - reach > low[0] && a + reach < high[0] && b - reach > low[1] && b + reach < high[1];
        let clear = plate.outline.holes.iter().all(|hole| {
            let (from, to) = bounds(hole);
            a + reach < from[0] || a - reach > to[0] || b + reach < from[1] || b - reach > to[1]
        });
        if diameter > 0.0 && inside && clear {
            plate.outline.holes.push(reversed(circle([a, b], diameter / 2.0)));
        }
    }
}

/// Size of a box along an axis.
pub(crate) fn along(axis: Axis, of: &Box3) -> f64 {
    let size = of.size();
    match axis {
        Axis::X | Axis::MinusX => size.x,
        Axis::Y | Axis::MinusY => size.y,
        Axis::Z | Axis::MinusZ => size.z,
    }
}

/// The shadows of some boxes on a plate, kept inside its rim; shadows that overlap become one hole.
fn rectangular_holes(frame: &Frame, size: [f64; 2], holes: &[Box3]) -> Vec<Vec<[f64; 2]>> {
    let mut kept: Vec<([f64; 2], [f64; 2])> = Vec::new();
    for hole in holes {
        let (low, high) = frame.shadow(hole);
        let mut low = [low[0].max(LEAST_RIM), low[1].max(LEAST_RIM)];
        let mut high = [high[0].min(size[0] - LEAST_RIM), high[1].min(size[1] - LEAST_RIM)];
        let has_area = high[0] > low[0] && high[1] > low[1];
        if !has_area {
            continue;
        }
        // Joining may make the hole reach another one, so look again until none is reached.
        while let Some(at) = kept.iter().position(|(from, to)| {
            low[0] <= to[0] + LEAST_RIM
                && from[0] <= high[0] + LEAST_RIM
                && low[1] <= to[1] + LEAST_RIM
                && from[1] <= high[1] + LEAST_RIM
        }) {
            let (from, to) = kept.swap_remove(at);
            low = [low[0].min(from[0]), low[1].min(from[1])];
            high = [high[0].max(to[0]), high[1].max(to[1])];
        }
        kept.push((low, high));
    }
    kept.into_iter().map(|(low, high)| reversed(rectangle(low, high))).collect()
}
