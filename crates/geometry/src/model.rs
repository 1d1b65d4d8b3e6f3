//! The list of solids of a build, and what is known of it as a whole.

use catalogue::{Catalogue, ShieldCover};
use project::{Build, End, ItemId};

use crate::clearance::Obstacle;
use crate::parts::{self, Context};
use crate::{Axis, Box3, Layout, Of, Solid, Vec3};

/// Everything a build is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// Planes and boxes everything starts from.
    pub layout: Layout,
    /// The solids. Taken-off lifting eyes and the pallet are not among them.
    pub solids: Vec<Solid>,
    /// The lifting eyes, fitted or taken off.
    pub eyes: Option<Eyes>,
    /// Where the cabinet is bolted down.
    pub anchors: Vec<Anchor>,
    /// Devices that are placed.
    pub placed: Vec<Placed>,
    pub(crate) hinges: Vec<Hinge>,
    pub(crate) shield: Option<ShieldCover>,
    pub(crate) cut_outs: Vec<(project::Face, f64)>,
    pub(crate) obstacles: Vec<Obstacle>,
}

/// The four lifting eyes.
#[derive(Clone, Debug, PartialEq)]
pub struct Eyes {
    /// Centre of each ring: front left, front right, rear left, rear right.
    pub positions: Vec<Vec3>,
    /// Mass of one, kg.
    pub mass_each: f64,
    /// Whether they are taken off after setting down.
    pub removed: bool,
}

/// A hole by which the cabinet is bolted to its pad.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Anchor {
    /// Its middle, on the ground.
    pub position: Vec3,
    /// Its diameter, mm.
    pub hole: f64,
}

/// A device that has a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// Its number.
    pub id: ItemId,
    /// The box of its body, without its front panel.
    pub body: Box3,
    /// Which way its face looks.
    pub face: Axis,
    /// The bay it is in; the nearest one for a wall.
    pub bay: usize,
    /// The end whose rails, shelf or door hold it; none for walls and floors.
    pub end: Option<End>,
}

/// A door that swings, and everything it carries.
#[derive(Clone, Debug, PartialEq)]
pub struct Hinge {
    /// The door; the plinth for a plinth's own door.
    pub of: Of,
    /// The bay it closes, counted from 0.
    pub bay: usize,
    /// Front or rear.
    pub end: End,
    /// Where its upright axis stands.
    pub axis_x: f64,
    /// Where its upright axis stands.
    pub axis_y: f64,
    /// Angle at which the door stop holds it, degrees about +z; the sign says which way it opens.
    pub open_angle_deg: f64,
    /// Indices of the solids that swing with it.
    pub solids: Vec<usize>,
}

impl Model {
    /// The doors that swing.
    #[must_use]
    pub fn hinges(&self) -> &[Hinge] {
        &self.hinges
    }

    /// The placed device with this number.
    #[must_use]
    pub fn device(&self, id: ItemId) -> Option<&Placed> {
        self.placed.iter().find(|placed| placed.id == id)
    }

    /// The smallest box round the solids that `pick` takes; `None` when it takes none.
    #[must_use]
    pub fn bounds(&self, pick: impl Fn(&Solid) -> bool) -> Option<Box3> {
        self.solids.iter().filter(|solid| pick(solid)).map(Solid::bounds).reduce(|all, one| all.join(&one))
    }
}

/// The model of a build; `None` when the catalogue lacks its family, skin or door.
#[must_use]
pub fn model(build: &Build, catalogue: &Catalogue) -> Option<Model> {
    let layout = Layout::of(build, catalogue)?;
    let context = Context::new(build, catalogue, &layout)?;
    let made = parts::all(&context);
    let obstacles = crate::clearance::obstacles(&made.solids);
    Some(Model {
        solids: made.solids,
        eyes: made.eyes,
        anchors: made.anchors,
        placed: made.placed,
        hinges: made.hinges,
        shield: context.shield().map(|(_, part)| part.covers),
        cut_outs: context.cut_outs(),
        obstacles,
        layout,
    })
}
