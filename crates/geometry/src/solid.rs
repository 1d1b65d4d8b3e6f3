//! The one shape everything is made of: an extruded outline.

use project::{End, Face, ItemId, Side};

use crate::Vec3;

/// A direction along an axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Axis {
    /// To the right.
    X,
    /// To the left.
    MinusX,
    /// To the rear.
    Y,
    /// To the front.
    MinusY,
    /// Up.
    Z,
    /// Down.
    MinusZ,
}

impl Axis {
    /// The unit vector.
    #[must_use]
    pub const fn vector(self) -> Vec3 {
        match self {
            Self::X => Vec3::new(1.0, 0.0, 0.0),
            Self::MinusX => Vec3::new(-1.0, 0.0, 0.0),
            Self::Y => Vec3::new(0.0, 1.0, 0.0),
            Self::MinusY => Vec3::new(0.0, -1.0, 0.0),
            Self::Z => Vec3::new(0.0, 0.0, 1.0),
            Self::MinusZ => Vec3::new(0.0, 0.0, -1.0),
        }
    }

    /// The other way.
    #[must_use]
    pub const fn opposite(self) -> Self {
        match self {
            Self::X => Self::MinusX,
            Self::MinusX => Self::X,
            Self::Y => Self::MinusY,
            Self::MinusY => Self::Y,
            Self::Z => Self::MinusZ,
            Self::MinusZ => Self::Z,
        }
    }
}

/// Where an outline lies: its origin and the directions of its two coordinates. It is extruded along `u × v`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// The outline's origin.
    pub origin: Vec3,
    /// Direction of its first coordinate.
    pub u: Axis,
    /// Direction of its second coordinate.
    pub v: Axis,
}

/// A planar outline with holes, mm. The outer ring runs counter-clockwise, holes clockwise.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outline {
    /// The outer ring, without repeating its first point.
    pub outer: Vec<[f64; 2]>,
    /// The holes.
    pub holes: Vec<Vec<[f64; 2]>>,
}

/// What a solid weighs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Mass {
    /// Sheet and foam: kg/m³ of its volume.
    Density(f64),
    /// A bought part: kg, at the solid's centre.
    Total(f64),
    /// Counted with another solid of the same part.
    Elsewhere,
    /// Nobody has said.
    Unknown,
}

/// What a solid is a piece of. Selecting, naming, ghosting and grouping go by it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Of {
    /// The concrete pad, drawn only.
    Pad,
    /// The pallet, drawn and counted only for shipping.
    Pallet,
    /// The plinth.
    Plinth,
    /// A panel of the body.
    Body(Face),
    /// Insulation on a face.
    Insulation(Face),
    /// A door of a bay.
    Door {
        /// Bay, counted from 0.
        bay: usize,
        /// Front or rear.
        end: End,
    },
    /// The divider or centre post.
    Divider,
    /// The solar shield.
    Shield,
    /// A rail.
    Rail {
        /// Bay, counted from 0.
        bay: usize,
        /// Front or rear.
        end: End,
        /// Left or right.
        side: Side,
    },
    /// Frame, latches and fittings of a bay, as a mass.
    Fittings {
        /// Bay, counted from 0.
        bay: usize,
    },
    /// A cable manager.
    Manager {
        /// Bay, counted from 0.
        bay: usize,
        /// Left or right.
        side: Side,
    },
    /// A gland plate.
    GlandPlate {
        /// Bay, counted from 0.
        bay: usize,
        /// Which, counted from 0.
        plate: usize,
    },
    /// A lifting eye, 0…3.
    Eye(usize),
    /// A climate unit.
    Unit(ItemId),
    /// A device.
    Device(ItemId),
}

/// What a view may hide or move as one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// Pad under the cabinet.
    Ground,
    /// Plinth, body panels, divider.
    Body,
    /// Inside of the body: insulation, rails, managers.
    Inside,
    /// Door leaves and what they carry.
    Doors,
    /// Solar shield.
    Shield,
    /// Devices.
    Devices,
    /// Climate units not on a door.
    Units,
    /// Lifting eyes.
    Lifting,
}

/// The flat tone a solid is drawn in; the page maps each to a design token.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tone {
    /// Painted body.
    Body,
    /// Plinth.
    Plinth,
    /// Shield.
    Shield,
    /// Door leaf.
    Leaf,
    /// Unit housing.
    Unit,
    /// Unit, fan and grille.
    Dark,
    /// Bare metal: rails, eyes.
    Metal,
    /// Inside wall.
    Inner,
    /// Concrete.
    Pad,
    /// Timber.
    Timber,
    /// Network device.
    Network,
    /// Fibre.
    Fibre,
    /// Compute.
    Compute,
    /// Power.
    Power,
    /// Battery.
    Battery,
    /// Cable tray, shelf, blank.
    Cable,
}

/// A solid: an outline, extruded.
#[derive(Clone, Debug, PartialEq)]
pub struct Solid {
    /// What it is a piece of.
    pub of: Of,
    /// Layer.
    pub layer: Layer,
    /// Tone.
    pub tone: Tone,
    /// Outline.
    pub outline: Outline,
    /// How far it is extruded along `frame.u × frame.v`, mm.
    pub thickness: f64,
    /// Where it lies.
    pub frame: Frame,
    /// What it weighs.
    pub mass: Mass,
    /// Drawn finely only (ports, grilles): not for clearances.
    pub detail: bool,
}
