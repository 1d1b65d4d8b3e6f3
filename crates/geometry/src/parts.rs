//! The parts of a cabinet, a file each: from a layout to solids.

mod body;
mod devices;
mod divider;
mod doors;
mod faces;
mod gland_plates;
mod insulation;
mod lifting;
mod managers;
mod pad;
mod pallet;
mod plinth;
mod rails;
mod shield;
mod units;

pub(crate) use pallet::{lowered_by, pallet};

use catalogue::{Catalogue, ClimateUnit, Door, Family, Plinth, Shield, Skin};
use project::{Build, Closure, End, Face, FittedPlinth, FittedShield, HingeSide, ItemId, Side, UnitAt};

use crate::model::{Anchor, Eyes, Hinge, Placed};
use crate::{Axis, Box3, Layout, Of, Solid, Vec3};

/// Above this many devices the fine details are left out, so that a hostile file cannot flood the drawing.
const DEVICES_WITH_DETAILS: usize = 120;

/// What the part builders read.
pub(crate) struct Context<'a> {
    pub(crate) build: &'a Build,
    pub(crate) catalogue: &'a Catalogue,
    pub(crate) layout: &'a Layout,
    pub(crate) family: &'a Family,
    pub(crate) skin: &'a Skin,
    pub(crate) door: &'a Door,
    pub(crate) units: Vec<UnitSpot<'a>>,
}

/// A climate unit, with its boxes.
pub(crate) struct UnitSpot<'a> {
    pub(crate) id: ItemId,
    pub(crate) at: UnitAt,
    pub(crate) part: &'a ClimateUnit,
    pub(crate) outer: Option<Box3>,
    pub(crate) inner: Option<Box3>,
    /// The hole it needs, as a box right through the surface it sits on.
    pub(crate) cut_out: Option<Box3>,
}

impl<'a> Context<'a> {
    pub(crate) fn new(build: &'a Build, catalogue: &'a Catalogue, layout: &'a Layout) -> Option<Self> {
        let units = build
            .climate
            .iter()
            .filter_map(|unit| {
                let part = catalogue.units.get(&unit.part)?;
                let (outer, inner) = layout.unit_boxes(unit, catalogue)?;
                let over = outer.or(inner)?;
                let cut_out = cut_out(unit.at, part, &over);
                Some(UnitSpot { id: unit.id, at: unit.at, part, outer, inner, cut_out })
            })
            .collect();
        Some(Self {
            build,
            catalogue,
            layout,
            family: catalogue.families.get(&build.family)?,
            skin: catalogue.skins.get(&build.skin)?,
            door: catalogue.doors.get(&build.door)?,
            units,
        })
    }

    /// The plinth, when there is one of any height.
    pub(crate) fn plinth(&self) -> Option<(&'a FittedPlinth, &'a Plinth)> {
        let fitted = self.build.plinth.as_ref().filter(|fitted| fitted.height.0 > 0.0)?;
        Some((fitted, self.catalogue.plinths.get(&fitted.part)?))
    }

    /// The solar shield.
    pub(crate) fn shield(&self) -> Option<(&'a FittedShield, &'a Shield)> {
        let fitted = self.build.shield.as_ref()?;
        Some((fitted, self.catalogue.shields.get(&fitted.part)?))
    }

    /// The holes that units need in the surface at which they sit.
    pub(crate) fn unit_holes(&self, at: impl Fn(UnitAt) -> bool) -> Vec<Box3> {
        self.units.iter().filter(|unit| at(unit.at)).filter_map(|unit| unit.cut_out).collect()
    }

    /// Area of each hole that a unit needs, by face, mm².
    pub(crate) fn cut_outs(&self) -> Vec<(Face, f64)> {
        let on = |at| match at {
            UnitAt::Door { end: End::Front, .. } => Some(Face::Front),
            UnitAt::Door { end: End::Rear, .. } => Some(Face::Rear),
            UnitAt::Side { side: Side::Left } => Some(Face::Left),
            UnitAt::Side { side: Side::Right } => Some(Face::Right),
            UnitAt::Roof { .. } => Some(Face::Top),
            UnitAt::Inside { .. } => None,
        };
        self.units
            .iter()
            .filter(|unit| unit.cut_out.is_some())
            .filter_map(|unit| Some((on(unit.at)?, unit.part.cut_out_width * unit.part.cut_out_height)))
            .collect()
    }

    /// The hinge side of a bay's door at one end.
    pub(crate) fn hinge_side(&self, bay: usize, end: End) -> Option<HingeSide> {
        let bay = self.build.bays.get(bay)?;
        match if end == End::Front { bay.front } else { bay.rear } {
            Closure::Door(side) => Some(side),
            Closure::Panel => None,
        }
    }
}

/// The hole a unit needs, centred on its box.
fn cut_out(at: UnitAt, part: &ClimateUnit, over: &Box3) -> Option<Box3> {
    let (width, height) = (part.cut_out_width / 2.0, part.cut_out_height / 2.0);
    // As deep as the unit: only its shadow on the surface counts.
    let through = part.size.depth.0;
    let half = match at {
        UnitAt::Door { .. } => Vec3::new(width, through, height),
        UnitAt::Side { .. } => Vec3::new(through, width, height),
        UnitAt::Roof { .. } => Vec3::new(width, height, through),
        UnitAt::Inside { .. } => return None,
    };
    let has_area = width > 0.0 && height > 0.0;
    has_area.then(|| Box3 { min: over.centre() - half, max: over.centre() + half })
}

/// What the part builders have made.
#[derive(Default)]
pub(crate) struct Made {
    pub(crate) solids: Vec<Solid>,
    pub(crate) eyes: Option<Eyes>,
    pub(crate) anchors: Vec<Anchor>,
    pub(crate) placed: Vec<Placed>,
    pub(crate) hinges: Vec<Hinge>,
    /// Whether fine details are wanted.
    details: bool,
}

impl Made {
    pub(crate) fn add(&mut self, solid: Solid) {
        self.solids.push(solid);
    }

    /// Adds a solid that is drawn only, when details are wanted.
    pub(crate) fn detail(&mut self, make: impl FnOnce() -> Solid) {
        if self.details {
            self.solids.push(make());
        }
    }

    /// Hangs the solids made since `first` on the door of a bay.
    pub(crate) fn hang(&mut self, bay: usize, end: End, first: usize) {
        let made = first..self.solids.len();
        if let Some(hinge) = self.hinges.iter_mut().find(|hinge| hinge.of == Of::Door { bay, end }) {
            hinge.solids.extend(made);
        }
    }
}

/// All parts of a cabinet.
pub(crate) fn all(context: &Context<'_>) -> Made {
    let mut made = Made { details: context.build.devices.len() <= DEVICES_WITH_DETAILS, ..Made::default() };
    pad::pad(context, &mut made);
    plinth::plinth(context, &mut made);
    body::body(context, &mut made);
    gland_plates::gland_plates(context, &mut made);
    divider::divider(context, &mut made);
    doors::doors(context, &mut made);
    insulation::insulation(context, &mut made);
    rails::rails(context, &mut made);
    managers::managers(context, &mut made);
    units::units(context, &mut made);
    devices::devices(context, &mut made);
    shield::shield(context, &mut made);
    lifting::lifting(context, &mut made);
    made
}

/// The way an end looks, outwards.
pub(crate) const fn outwards(end: End) -> Axis {
    match end {
        End::Front => Axis::MinusY,
        End::Rear => Axis::Y,
    }
}

/// −1 at the front, 1 at the rear: y grows to the rear.
pub(crate) const fn sign(end: End) -> f64 {
    match end {
        End::Front => -1.0,
        End::Rear => 1.0,
    }
}

/// The box moved out on every side except along y.
pub(crate) fn wider(of: &Box3, by: f64) -> Box3 {
    let by = Vec3::new(by, 0.0, by);
    Box3 { min: of.min - by, max: of.max + by }
}
