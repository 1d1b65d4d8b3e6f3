//! What is proposed: the cabinet, its options, its climate units and the placed devices.
//!
//! Coordinates of a build: x to the right seen from the front, y from front to rear, z up; millimetres.

use catalogue::{Device, PartId};
use serde::{Deserialize, Serialize};
use units::Millimetres;

use crate::ChosenFeed;

/// A number that names a device or a unit for as long as the project lives; never reused.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct ItemId(pub u32);

/// What is proposed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Build {
    /// Cabinet family.
    pub family: PartId,
    /// The bays, left to right seen from the front: one or two.
    pub bays: Vec<Bay>,
    /// Whether a divider stands between two bays.
    pub divider: bool,
    /// Rack units of each bay.
    pub units: u32,
    /// Depth of the body over the skin.
    pub depth: Millimetres,
    /// Sheet of body and doors.
    pub skin: PartId,
    /// Insulation inside each face.
    pub insulation: Faces<Option<Insulated>>,
    /// Paint outside.
    pub paint: PartId,
    /// Base under the body.
    pub plinth: Option<FittedPlinth>,
    /// Solar shield.
    pub shield: Option<FittedShield>,
    /// Door used for every leaf.
    pub door: PartId,
    /// Lifting eyes: four are fitted.
    pub lifting_eyes: Option<PartId>,
    /// Whether the lifting eyes are taken off after setting down.
    pub eyes_removed: bool,
    /// Pallet it ships on.
    pub pallet: Option<PartId>,
    /// Climate units.
    pub climate: Vec<FittedUnit>,
    /// Devices, placed or not.
    pub devices: Vec<FittedDevice>,
    /// Feeds that the user has chosen; files without any need not say so.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub feeds: Vec<ChosenFeed>,
    /// The number the next device or unit gets.
    pub next_id: u32,
}

/// One thing for each face of the body.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Faces<T> {
    /// Front: the doors one stands before.
    pub front: T,
    /// Rear.
    pub rear: T,
    /// Left, seen from the front.
    pub left: T,
    /// Right, seen from the front.
    pub right: T,
    /// Roof.
    pub top: T,
    /// Floor.
    pub bottom: T,
}

/// A face of the body.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Face {
    /// Front.
    Front,
    /// Rear.
    Rear,
    /// Left, seen from the front.
    Left,
    /// Right, seen from the front.
    Right,
    /// Roof.
    Top,
    /// Floor.
    Bottom,
}

impl Face {
    /// All six.
    pub const ALL: [Self; 6] = [Self::Front, Self::Rear, Self::Left, Self::Right, Self::Top, Self::Bottom];
}

impl<T> Faces<T> {
    /// What belongs to a face.
    pub const fn get(&self, face: Face) -> &T {
        match face {
            Face::Front => &self.front,
            Face::Rear => &self.rear,
            Face::Left => &self.left,
            Face::Right => &self.right,
            Face::Top => &self.top,
            Face::Bottom => &self.bottom,
        }
    }

    /// What belongs to a face, to change it.
    pub const fn get_mut(&mut self, face: Face) -> &mut T {
        match face {
            Face::Front => &mut self.front,
            Face::Rear => &mut self.rear,
            Face::Left => &mut self.left,
            Face::Right => &mut self.right,
            Face::Top => &mut self.top,
            Face::Bottom => &mut self.bottom,
        }
    }
}

/// Insulation on one face.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Insulated {
    /// Material.
    pub part: PartId,
    /// Thickness.
    pub thickness: Millimetres,
}

/// What a bay is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BayRole {
    /// Powered devices.
    Active,
    /// Panels and splices.
    Passive,
    /// Both.
    #[default]
    Mixed,
    /// Batteries.
    Battery,
}

/// Panel width of a bay's rails.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RailWidth {
    /// 19 inch.
    #[default]
    #[serde(rename = "19in")]
    Nineteen,
    /// 23 inch.
    #[serde(rename = "23in")]
    TwentyThree,
}

/// One bay.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bay {
    /// What it is for.
    pub role: BayRole,
    /// Inner width.
    pub width: Millimetres,
    /// Panel width of its rails.
    pub rails: RailWidth,
    /// Mounting plane of the front rails behind the inside of the front skin.
    pub front_setback: Millimetres,
    /// Mounting plane of the rear rails before the inside of the rear skin.
    pub rear_setback: Millimetres,
    /// Door or panel in front.
    pub front: Closure,
    /// Door or panel at the rear.
    pub rear: Closure,
    /// Cable management left of the rails, front.
    pub manager_left: Option<PartId>,
    /// Cable management right of the rails, front.
    pub manager_right: Option<PartId>,
    /// Gland plates in its floor.
    pub gland_plates: Vec<FittedGlandPlate>,
}

/// Side of a door its hinges are on, seen from outside facing that door.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum HingeSide {
    /// Left.
    #[default]
    Left,
    /// Right.
    Right,
}

/// What closes a bay at the front or rear.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Closure {
    /// A door.
    Door(HingeSide),
    /// A fixed panel.
    Panel,
}

/// A gland plate in a bay's floor.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FittedGlandPlate {
    /// Part.
    pub part: PartId,
    /// Knock-outs already used.
    pub used: u32,
}

/// A base under the body.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FittedPlinth {
    /// Part.
    pub part: PartId,
    /// Height.
    pub height: Millimetres,
}

/// A solar shield over the body.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FittedShield {
    /// Part.
    pub part: PartId,
    /// Air gap to the skin.
    pub gap: Millimetres,
    /// How far the roof reaches past the skin at the front and rear.
    pub overhang: Millimetres,
}

/// Front or rear side of the cabinet, or of a device.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum End {
    /// Front.
    #[default]
    Front,
    /// Rear.
    Rear,
}

/// A side wall.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Side {
    /// Left, seen from the front.
    #[default]
    Left,
    /// Right, seen from the front.
    Right,
}

/// Where a climate unit sits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum UnitAt {
    /// On the door of a bay, centred unless `FittedUnit::height` says otherwise.
    Door {
        /// Bay, counted from 0.
        bay: usize,
        /// Front or rear door.
        end: End,
    },
    /// On a side wall, outside.
    Side {
        /// Which side.
        side: Side,
    },
    /// On the roof over a bay.
    Roof {
        /// Bay, counted from 0.
        bay: usize,
    },
    /// Inside a bay, on its floor.
    Inside {
        /// Bay, counted from 0.
        bay: usize,
    },
}

/// A climate unit in the build.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FittedUnit {
    /// Its number.
    pub id: ItemId,
    /// Part.
    pub part: PartId,
    /// Where.
    pub at: UnitAt,
    /// Lower edge above the inside floor; absent: in the middle of the free height.
    pub height: Option<Millimetres>,
}

/// What a device is: a catalogue part, or the user's own.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DeviceWhat {
    /// From the catalogue.
    Part(PartId),
    /// The user's own entry.
    Own(Box<Device>),
}

/// A device in the build.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FittedDevice {
    /// Its number.
    pub id: ItemId,
    /// What it is.
    pub what: DeviceWhat,
    /// Where it is.
    pub at: Place,
}

/// Where a device is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Place {
    /// On rails.
    Rack {
        /// Bay, counted from 0.
        bay: usize,
        /// Front or rear rails.
        rails: End,
        /// Lowest unit it takes, counted from 1 at the bottom.
        unit: u32,
        /// Which way its face looks. Usually the end whose rails hold it.
        facing: End,
        /// How far its mounting plane stands before (towards its own door, positive) or behind the rails, mm.
        forward: Millimetres,
    },
    /// On a shelf.
    Shelf {
        /// The shelf's device number.
        shelf: ItemId,
        /// From the shelf's left edge to the device's.
        across: Millimetres,
    },
    /// On the inside of a wall.
    Wall {
        /// Left or right side wall.
        side: Side,
        /// From the inside of the front skin to the device's nearest edge.
        along: Millimetres,
        /// Lower edge above the inside floor.
        up: Millimetres,
    },
    /// On the inside of a door.
    Door {
        /// Bay, counted from 0.
        bay: usize,
        /// Front or rear door.
        end: End,
        /// From the left edge of the opening, seen from the front, to the device's left edge.
        across: Millimetres,
        /// Lower edge above the inside floor.
        up: Millimetres,
    },
    /// On the floor of a bay, or of the plinth below it.
    Floor {
        /// Bay, counted from 0.
        bay: usize,
        /// In the plinth instead of the body.
        plinth: bool,
        /// From the bay's inner left wall to its left edge.
        across: Millimetres,
        /// From the inside of the front skin to its front.
        along: Millimetres,
    },
    /// Not placed yet.
    Unplaced,
}

impl Place {
    /// The bay, where the place names one.
    #[must_use]
    pub const fn bay(&self) -> Option<usize> {
        match self {
            Self::Rack { bay, .. } | Self::Door { bay, .. } | Self::Floor { bay, .. } => Some(*bay),
            Self::Shelf { .. } | Self::Wall { .. } | Self::Unplaced => None,
        }
    }
}

impl Build {
    /// The device with this number.
    #[must_use]
    pub fn device(&self, id: ItemId) -> Option<&FittedDevice> {
        self.devices.iter().find(|device| device.id == id)
    }

    /// The climate unit with this number.
    #[must_use]
    pub fn unit(&self, id: ItemId) -> Option<&FittedUnit> {
        self.climate.iter().find(|unit| unit.id == id)
    }
}

impl FittedDevice {
    /// What it is, in full; `None` when the catalogue does not know its part.
    #[must_use]
    pub fn resolve<'a>(&'a self, catalogue: &'a catalogue::Catalogue) -> Option<&'a Device> {
        match &self.what {
            DeviceWhat::Own(device) => Some(device),
            DeviceWhat::Part(part) => catalogue.devices.get(part),
        }
    }
}
