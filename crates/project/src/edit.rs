//! Every change a user can make, as a value.

use catalogue::{Device, PartId};
use serde::{Deserialize, Serialize};

use crate::{
    Bay, Brief, Build, ChosenFeed, DeviceWhat, Face, Fed, FittedPlinth, FittedShield, Insulated, ItemId, Place,
    Project, UnitAt,
};
use units::Millimetres;

/// One change. [`crate::apply`] carries it out or refuses it; nothing else changes a project.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Edit {
    /// Another project altogether: new, opened, or a sample.
    Replace(Box<Project>),
    /// Name on the title block.
    Rename(String),
    /// The brief, with any of its fields changed.
    SetBrief(Box<Brief>),
    /// Cabinet family. Bays are added or removed to fit; devices of a removed bay become unplaced.
    SetFamily(PartId),
    /// Rack units of each bay.
    SetUnits(u32),
    /// Depth of the body over the skin.
    SetDepth(Millimetres),
    /// Sheet.
    SetSkin(PartId),
    /// Paint.
    SetPaint(PartId),
    /// Insulation of one face, or of all six.
    SetInsulation {
        /// The face; all six when absent.
        face: Option<Face>,
        /// What to lay there.
        insulation: Option<Insulated>,
    },
    /// Base.
    SetPlinth(Option<FittedPlinth>),
    /// Solar shield.
    SetShield(Option<FittedShield>),
    /// Door.
    SetDoor(PartId),
    /// Lifting eyes.
    SetLiftingEyes(Option<PartId>),
    /// Whether the lifting eyes come off after setting down.
    SetEyesRemoved(bool),
    /// Pallet.
    SetPallet(Option<PartId>),
    /// Divider.
    SetDivider(bool),
    /// One bay, with any of its fields changed.
    SetBay {
        /// Which, counted from 0.
        bay: usize,
        /// What it becomes.
        to: Box<Bay>,
    },
    /// Fit a climate unit.
    AddUnit {
        /// Part.
        part: PartId,
        /// Where.
        at: UnitAt,
    },
    /// Move or change a climate unit.
    ChangeUnit {
        /// Which.
        unit: ItemId,
        /// Part.
        part: PartId,
        /// Where.
        at: UnitAt,
        /// Lower edge above the inside floor.
        height: Option<Millimetres>,
    },
    /// Take a climate unit out.
    RemoveUnit(ItemId),
    /// Add a device at a place, or unplaced.
    AddDevice {
        /// What.
        what: DeviceWhat,
        /// Where.
        at: Place,
    },
    /// Move a device.
    MoveDevice {
        /// Which.
        device: ItemId,
        /// Where to.
        to: Place,
    },
    /// Change what a device is. A catalogue part becomes the user's own.
    ChangeDevice {
        /// Which.
        device: ItemId,
        /// What it becomes.
        to: Box<Device>,
    },
    /// Feed a device or unit from elsewhere, or from another position.
    ChooseFeed(ChosenFeed),
    /// Feed it again from where it would be by itself.
    FreeFeed(Fed),
    /// Take a device out.
    RemoveDevice(ItemId),
    /// The whole build, as a remedy or a search found it.
    SetBuild(Box<Build>),
}
