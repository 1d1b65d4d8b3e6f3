//! The cabinet itself: families, sheet, insulation, paint, base, shield, doors, lifting, cable management.

use serde::{Deserialize, Serialize};
use units::{Kilograms, Millimetres};

use super::{Range, Size, Trade};

/// A cabinet family: what may be varied, and within which limits. Everything in it is parametric.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Family {
    /// Name in plain words.
    pub name: String,
    /// Number of bays, 1 or 2.
    pub bays: u8,
    /// Heights that are made without asking, in U.
    pub heights: Vec<u32>,
    /// Any whole number of U in this range can be made.
    pub height_range: Range,
    /// Depth of the body over the skin, mm.
    pub depth: Range,
    /// Inner width of one bay, mm.
    pub bay_width: Range,
    /// Distance of the front rails' mounting plane behind the inside of the front door, mm. The same for the rear.
    pub rail_setback: Range,
    /// Steps in which rails can be set back.
    pub rail_step: Millimetres,
    /// Free height inside above the top unit.
    pub clear_above: Millimetres,
    /// Free height inside below the lowest unit.
    pub clear_below: Millimetres,
    /// Width of the frame round each door opening.
    pub door_frame: Millimetres,
    /// Thickness of the divider between two bays.
    pub divider_thickness: Millimetres,
    /// Mass of rails, frame, latches and fittings of one bay, per U of height.
    pub fittings_per_unit: Kilograms,
    /// Greatest mass of equipment one bay's rails carry.
    pub rail_load: Kilograms,
    /// Price, origin, lead time of the empty cabinet without sheet.
    #[serde(default)]
    pub trade: Trade,
}

/// Sheet for the body.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Skin {
    /// Name in plain words.
    pub name: String,
    /// The material in one or two words, as it is said on a call: "aluminium".
    pub material: String,
    /// Sheet thickness.
    pub thickness: Millimetres,
    /// Density, kg/m³.
    pub density: f64,
    /// Thermal conductivity, W/(m·K).
    pub conductivity: f64,
    /// Price per square metre, origin, lead time.
    #[serde(default)]
    pub trade: Trade,
}

/// Insulation on the inside of a face.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Insulation {
    /// Name in plain words.
    pub name: String,
    /// Density, kg/m³.
    pub density: f64,
    /// Thermal conductivity, W/(m·K).
    pub conductivity: f64,
    /// Thickness that can be laid, mm.
    pub thickness: Range,
    /// Price per square metre at 25 mm, origin, lead time.
    #[serde(default)]
    pub trade: Trade,
}

/// Paint of the outside.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Paint {
    /// Name in plain words.
    pub name: String,
    /// Share of sunlight it takes up, 0…1.
    pub absorptance: f64,
    /// Emissivity for heat radiation, 0…1.
    pub emissivity: f64,
    /// Colour on screen, `#rrggbb`.
    pub colour: String,
}

/// What a base is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PlinthUse {
    /// Lifts the body off the pad.
    Riser,
    /// Room for cables.
    Cable,
    /// Room for batteries, with a door of its own.
    Battery,
}

/// A base between pad and body.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Plinth {
    /// Name in plain words.
    pub name: String,
    /// What it is for.
    pub used_for: PlinthUse,
    /// Heights that can be made, mm.
    pub height: Range,
    /// Its usual height.
    pub usual_height: Millimetres,
    /// Thickness of its sheet.
    pub thickness: Millimetres,
    /// Density of its sheet, kg/m³.
    pub density: f64,
    /// How far the anchor holes stand inside the outline.
    pub anchor_inset: Millimetres,
    /// Diameter of the anchor holes.
    pub anchor_hole: Millimetres,
    /// Price, origin, lead time.
    #[serde(default)]
    pub trade: Trade,
}

/// Which faces a solar shield covers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ShieldCover {
    /// Roof only.
    Roof,
    /// Roof, left and right.
    RoofAndSides,
    /// Roof, sides, and leaves before the doors.
    Full,
}

/// A solar shield.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shield {
    /// Name in plain words.
    pub name: String,
    /// Which faces it covers.
    pub covers: ShieldCover,
    /// Air gap to the skin, mm.
    pub gap: Range,
    /// How far the roof reaches past the door seal, mm.
    pub overhang: Range,
    /// Thickness of its sheet.
    pub thickness: Millimetres,
    /// Density of its sheet, kg/m³.
    pub density: f64,
    /// Price, origin, lead time.
    #[serde(default)]
    pub trade: Trade,
}

/// A door.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Door {
    /// Name in plain words.
    pub name: String,
    /// Points at which it latches.
    pub latch_points: u8,
    /// Depth of the leaf with its stiffening.
    pub leaf_depth: Millimetres,
    /// Depth taken inside the body by gasket, latch rods and pocket.
    pub inner_depth: Millimetres,
    /// Angle at which the door stop holds it, degrees.
    pub stop_angle: f64,
    /// Mass of latch, hinges, stop and gasket.
    pub fittings: Kilograms,
    /// Greatest mass of units the leaf may carry.
    pub carries: Kilograms,
    /// Price, origin, lead time.
    #[serde(default)]
    pub trade: Trade,
}

/// The sort of lifting eye, which decides how an angled pull weakens it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum EyeSort {
    /// Shoulder eye bolt: derated with the angle from its axis.
    ShoulderEyeBolt,
    /// Eye bolt without a shoulder: axial pull only.
    PlainEyeBolt,
    /// Swivel hoist ring: full rating at any angle to 90° from its axis.
    SwivelHoistRing,
}

/// A lifting eye. Four are fitted.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LiftingEye {
    /// Name in plain words.
    pub name: String,
    /// Sort of eye.
    pub sort: EyeSort,
    /// Rated load along its axis.
    pub rating: Kilograms,
    /// Inner diameter of the ring.
    pub ring: Millimetres,
    /// Mass of one.
    pub mass: Kilograms,
    /// Price, origin, lead time.
    #[serde(default)]
    pub trade: Trade,
}

/// The sort of cable management.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ManagerSort {
    /// Fingers beside the rails.
    Fingers,
    /// D-rings beside the rails.
    Rings,
    /// Spools for fibre slack.
    Spools,
}

/// Vertical cable management beside the rails, over the whole height.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Manager {
    /// Name in plain words.
    pub name: String,
    /// Sort.
    pub sort: ManagerSort,
    /// Width beside the rails.
    pub width: Millimetres,
    /// Depth to the front of the rails.
    pub depth: Millimetres,
    /// Smallest bend it gives a cable.
    pub bend_radius: Millimetres,
    /// Mass per U of height.
    pub mass_per_unit: Kilograms,
    /// Price, origin, lead time.
    #[serde(default)]
    pub trade: Trade,
}

/// A gland plate in the floor.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GlandPlate {
    /// Name in plain words.
    pub name: String,
    /// Left to right.
    pub width: Millimetres,
    /// Front to rear.
    pub depth: Millimetres,
    /// Thickness.
    pub thickness: Millimetres,
    /// Density, kg/m³.
    pub density: f64,
    /// Number of knock-outs.
    pub knock_outs: u32,
    /// Diameter of each knock-out.
    pub knock_out: Millimetres,
    /// Price, origin, lead time.
    #[serde(default)]
    pub trade: Trade,
}

/// A pallet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pallet {
    /// Name in plain words.
    pub name: String,
    /// Outer size.
    pub size: Size,
    /// Its own mass.
    pub mass: Kilograms,
    /// Greatest mass on it.
    pub carries: Kilograms,
}
