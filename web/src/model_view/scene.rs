//! From the solids of a model to what is sent to the graphics card: one list of flat faces, one list of ink lines. What
//! moves as one is a *group*; faces and lines carry the number of theirs, so that doors and shield move without anything
//! being sent again.

use geometry::{Box3, Layer, Mesh, Model, Of, Route, Solid, Tone, Vec3};
use project::{End, Face};

use super::ink::{self, Stroke};
use super::motion::Motion;
use super::palette::Paint;

/// Most groups the shaders know: the still one, the shield, and twelve doors.
pub(crate) const GROUPS: usize = 14;

/// Most boxes that cast a shadow.
pub(crate) const SHADES: usize = 20;

/// The group of the shield.
pub(crate) const SHIELD: usize = 1;

/// How far the shield rises while it is taken off, mm.
const LIFT: f64 = 420.0;

/// How far the shadow may fall beyond the pad, mm.
const GROUND: f64 = 4000.0;

/// What moves as one.
#[derive(Clone, Debug)]
pub(crate) enum Group {
    /// What stands still.
    Still,
    /// The shield, which rises and fades.
    Shield,
    /// A door with all it carries.
    Door {
        /// Front or rear.
        end: End,
        /// Where its axis stands.
        axis: [f64; 2],
        /// The angle at which its stop holds it, degrees.
        open: f64,
    },
}

impl Group {
    /// Where it is when the front and the rear doors are open, and the shield on, by these shares.
    pub(crate) fn motion(&self, [front, rear]: [f32; 2], shield: f32) -> Motion {
        match self {
            Self::Still => Motion::STILL,
            Self::Shield => Motion::lift(LIFT * f64::from(1.0 - shield)),
            Self::Door { end, axis: [x, y], open } => {
                let share = if *end == End::Front { front } else { rear };
                Motion::turn(*x, *y, open * f64::from(share))
            }
        }
    }
}

/// Faces as the shader takes them: three numbers for each point, and indices.
#[derive(Clone, Debug, Default)]
pub(crate) struct Faces {
    pub(crate) positions: Vec<[f32; 3]>,
    pub(crate) normals: Vec<[f32; 3]>,
    /// Paint, group, the way its panel looks out (0: never ghosted, else 1 + axis), whether it takes a shadow.
    pub(crate) tags: Vec<[f32; 4]>,
    pub(crate) indices: Vec<u32>,
}

/// Lines as the shader takes them, one of each for a line.
#[derive(Clone, Debug, Default)]
pub(crate) struct Lines {
    pub(crate) from: Vec<[f32; 3]>,
    pub(crate) to: Vec<[f32; 3]>,
    pub(crate) first: Vec<[f32; 3]>,
    pub(crate) second: Vec<[f32; 3]>,
    /// Stroke, group, the way its panel looks out.
    pub(crate) tags: Vec<[f32; 3]>,
}

/// A solid as it is pointed at.
#[derive(Clone, Debug)]
pub(crate) struct Target {
    pub(crate) of: Of,
    pub(crate) group: usize,
    /// The way its panel looks out, when it may be ghosted.
    pub(crate) outward: Option<Vec3>,
    pub(crate) bounds: Box3,
    /// Its triangles among the faces' indices.
    pub(crate) indices: std::ops::Range<usize>,
    pub(crate) detail: bool,
}

/// All that is drawn.
#[derive(Clone, Debug, Default)]
pub(crate) struct Scene {
    pub(crate) faces: Faces,
    pub(crate) lines: Lines,
    pub(crate) groups: Vec<Group>,
    /// Boxes that cast a shadow, with their groups.
    pub(crate) shades: Vec<(usize, Box3)>,
    pub(crate) targets: Vec<Target>,
    /// The box round each group, for fitting the view.
    pub(crate) bounds: Vec<Option<Box3>>,
}

impl Scene {
    /// The scene of a model, with the ways of its cables.
    pub(crate) fn of(model: &Model, wires: &[Route]) -> Self {
        let (groups, group_of) = groups(model);
        let mut scene = Self { bounds: vec![None; groups.len()], groups, ..Self::default() };
        scene.ground(model);
        for (index, solid) in model.solids.iter().enumerate() {
            let group = match solid.layer {
                Layer::Shield => SHIELD,
                _ => group_of.get(index).copied().unwrap_or(0),
            };
            scene.add(model, solid, group);
        }
        for wire in wires {
            for pair in wire.points.windows(2) {
                let line = ink::Line { ends: [pair[0], pair[1]], normals: [Vec3::default(); 2], stroke: Stroke::Wire };
                scene.line(&line, line.stroke, 0, 0.0);
            }
        }
        scene.shades = shades(model, &scene.targets);
        scene
    }

    /// Triangles in one drawing of it.
    pub(crate) fn triangles(&self) -> usize {
        // A line is a strip of two.
        self.faces.indices.len() / 3 + 2 * self.lines.from.len()
    }

    fn add(&mut self, model: &Model, solid: &Solid, group: usize) {
        let outward = outward(model, solid);
        let ghost = outward.map_or(0.0, axis_number);
        let mesh = Mesh::of(solid);
        let (first, flat) = (self.faces.positions.len() as u32, ink::is_flat(solid));
        let up = solid.frame.normal();
        for (position, normal) in mesh.positions.iter().zip(&mesh.normals) {
            let paint = paint(model, solid, double(*position), double(*normal));
            self.faces.tags.push([f32::from(paint as u8), group as f32, ghost, f32::from(paint.in_the_sun())]);
        }
        let from = self.faces.indices.len();
        for triangle in mesh.indices.chunks_exact(3) {
            let normal = mesh.normals.get(triangle[0] as usize).copied().unwrap_or_default();
            if !flat || double(normal).dot(up) > 0.5 {
                self.faces.indices.extend(triangle.iter().map(|index| first + index));
            }
        }
        self.faces.positions.extend(mesh.positions);
        self.faces.normals.extend(mesh.normals);

        for line in ink::lines(solid) {
            self.line(&line, line.stroke, group, ghost);
            let [cap, _] = line.normals;
            if solid.of == Of::Shield && !solid.detail && outward.is_some_and(|way| cap.dot(way) > 0.5) {
                self.line(&line, Stroke::Phantom, 0, 0.0);
            }
        }

        let bounds = solid.bounds();
        if let Some(all) = self.bounds.get_mut(group) {
            *all = Some(all.map_or(bounds, |all| all.join(&bounds)));
        }
        let indices = from..self.faces.indices.len();
        self.targets.push(Target { of: solid.of, group, outward, bounds, indices, detail: solid.detail });
    }

    fn line(&mut self, line: &ink::Line, stroke: Stroke, group: usize, ghost: f32) {
        self.lines.from.push(single(line.ends[0]));
        self.lines.to.push(single(line.ends[1]));
        self.lines.first.push(single(line.normals[0]));
        self.lines.second.push(single(line.normals[1]));
        self.lines.tags.push([f32::from(stroke as u8), group as f32, ghost]);
    }

    /// The ground on which the shadow falls beyond the pad, first in the list: everything else is nearer.
    fn ground(&mut self, model: &Model) {
        let Some(pad) = model.bounds(|solid| solid.of == Of::Pad) else { return };
        let (low, high, z) = (pad.min, pad.max, pad.min.z);
        let corners = [
            (low.x - GROUND, low.y - GROUND),
            (high.x + GROUND, low.y - GROUND),
            (high.x + GROUND, high.y + GROUND),
            (low.x - GROUND, high.y + GROUND),
        ];
        for (x, y) in corners {
            self.faces.positions.push([x as f32, y as f32, z as f32]);
            self.faces.normals.push([0.0, 0.0, 1.0]);
            self.faces.tags.push([f32::from(Paint::Ground as u8), 0.0, 0.0, 1.0]);
        }
        self.faces.indices.extend([0, 1, 2, 0, 2, 3]);
    }
}

/// The groups, and the group of each solid.
fn groups(model: &Model) -> (Vec<Group>, Vec<usize>) {
    let mut groups = vec![Group::Still, Group::Shield];
    let mut group_of = vec![0; model.solids.len()];
    for hinge in model.hinges().iter().take(GROUPS - groups.len()) {
        for index in &hinge.solids {
            if let Some(group) = group_of.get_mut(*index) {
                *group = groups.len();
            }
        }
        groups.push(Group::Door { end: hinge.end, axis: [hinge.axis_x, hinge.axis_y], open: hinge.open_angle_deg });
    }
    (groups, group_of)
}

/// The way a panel looks out of the cabinet; `None` for what is not a panel and is never ghosted.
fn outward(model: &Model, solid: &Solid) -> Option<Vec3> {
    let of_face = |face| match face {
        Face::Front => Vec3::new(0.0, -1.0, 0.0),
        Face::Rear => Vec3::new(0.0, 1.0, 0.0),
        Face::Left => Vec3::new(-1.0, 0.0, 0.0),
        Face::Right => Vec3::new(1.0, 0.0, 0.0),
        Face::Top => Vec3::new(0.0, 0.0, 1.0),
        Face::Bottom => Vec3::new(0.0, 0.0, -1.0),
    };
    match solid.of {
        Of::Body(face) | Of::Insulation(face) => Some(of_face(face)),
        Of::Door { end, .. } => Some(of_face(if end == End::Front { Face::Front } else { Face::Rear })),
        Of::Plinth | Of::Shield => {
            let way = solid.frame.normal();
            let from_middle = solid.centroid() - model.layout.body.centre();
            // A frame round everything has its middle where the cabinet has: it looks up, as the roof it hangs from.
            Some(if from_middle.dot(way) < 0.0 { way * -1.0 } else { way })
        }
        _ => None,
    }
}

/// The paint of one face of a solid: what looks into the cabinet is the dark room.
fn paint(model: &Model, solid: &Solid, at: Vec3, normal: Vec3) -> Paint {
    let inwards = normal.dot(at - model.layout.body.centre()) < 0.0;
    match (solid.of, solid.tone) {
        (Of::Insulation(_), _) if solid.layer == Layer::Doors => Paint::LeafInside,
        (Of::Insulation(_), _) => Paint::Room,
        (Of::Plinth, Tone::Plinth) if solid.layer == Layer::Doors => Paint::Plinth,
        (Of::Body(_) | Of::Plinth, Tone::Body | Tone::Plinth) if inwards && normal.z.abs() < 0.5 => Paint::Room,
        (Of::Body(_), Tone::Body) if inwards => Paint::Room,
        (Of::Door { .. }, Tone::Leaf) if inwards && normal.y.abs() > 0.5 => Paint::LeafInside,
        (Of::Manager { .. }, Tone::Cable) => Paint::Manager,
        (_, tone) => Paint::of(tone),
    }
}

/// What casts the shadow: body and plinth as blocks, door leaves, housings outside, the shield's sheets.
fn shades(model: &Model, targets: &[Target]) -> Vec<(usize, Box3)> {
    let body = model.layout.body;
    let mut shades = vec![(0, Box3 { min: Vec3::new(body.min.x, body.min.y, 0.0), max: body.max })];
    let outside = |target: &&Target| {
        !target.detail
            && match target.of {
                Of::Shield => true,
                Of::Door { .. } => target.bounds.size().z > 100.0,
                Of::Unit(_) => target.bounds.meets(&body) < 1.0,
                _ => false,
            }
    };
    for target in targets.iter().filter(outside) {
        let same = shades.iter_mut().find(|(group, _)| *group == target.group && group_is_one(target));
        match same {
            Some((_, whole)) => *whole = whole.join(&target.bounds),
            None => shades.push((target.group, target.bounds)),
        }
    }
    // The pad casts on the ground beyond it.
    shades.extend(targets.iter().filter(|target| target.of == Of::Pad).map(|target| (0, target.bounds)));
    shades.truncate(SHADES);
    shades
}

/// A door's sheets are one leaf; the shield's stand apart, and so does a unit on a door.
fn group_is_one(target: &Target) -> bool {
    matches!(target.of, Of::Door { .. })
}

/// 1 to 6: the axis nearest to a direction, as the shaders number them.
fn axis_number(way: Vec3) -> f32 {
    let components = [way.x, -way.x, way.y, -way.y, way.z, -way.z];
    let mut best = 0;
    for (index, component) in components.iter().enumerate() {
        if *component > components[best] {
            best = index;
        }
    }
    (best + 1) as f32
}

/// Single precision is enough to draw.
fn single(of: Vec3) -> [f32; 3] {
    [of.x as f32, of.y as f32, of.z as f32]
}

fn double([x, y, z]: [f32; 3]) -> Vec3 {
    Vec3::new(f64::from(x), f64::from(y), f64::from(z))
}
