//! Free room before and behind a device, and what would make it larger.

use geometry::{Axis, Model, Of};
use project::{End, Place};
use units::{Kind, Value};

use super::names::{end_word, part_name};
use crate::{Case, Phrase, PlacedDevice, bay_letter};

/// One side of a device.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SideOf {
    /// Where its face looks.
    Face,
    /// The other one.
    Back,
}

impl SideOf {
    /// Before its face, or behind it.
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Self::Face => "before",
            Self::Back => "behind",
        }
    }

    const fn other(self) -> Self {
        match self {
            Self::Face => Self::Back,
            Self::Back => Self::Face,
        }
    }
}

/// Free room on one side of a device.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Room {
    /// Free distance, mm; negative where the device itself reaches past what its bay leaves it.
    pub(crate) mm: f64,
    /// What ends it.
    pub(crate) to: Of,
}

/// The room on one side of a placed device.
pub(crate) fn room(model: &Model, device: &PlacedDevice<'_>, side: SideOf) -> Option<Room> {
    let id = device.fitted.id;
    let gap = match side {
        SideOf::Face => model.gap_before(id),
        SideOf::Back => model.gap_behind(id),
    }?;
    let placed = model.device(id)?;
    let towards = if side == SideOf::Face { placed.face } else { placed.face.opposite() };
    let past = match towards {
        Axis::MinusY => model.layout.limit(placed.bay, End::Front) - placed.body.min.y,
        Axis::Y => placed.body.max.y - model.layout.limit(placed.bay, End::Rear),
        _ => 0.0,
    };
    // A device on the door itself starts at the limit; rounding is no reach past it.
    let mm = if gap.mm <= 0.0 && past > geometry::SLACK { -past } else { gap.mm };
    Some(Room { mm, to: gap.to })
}

/// What would give a device `short` mm more room on one side, where its other side needs `other_needs` mm.
pub(crate) fn helps(case: &Case, device: &PlacedDevice<'_>, side: SideOf, short: f64, other_needs: f64) -> Vec<Phrase> {
    let mut helps = Vec::new();
    let (Some(model), Some(family)) = (&case.model, case.catalogue.families.get(&case.project.build.family)) else {
        return helps;
    };
    let Some(here) = room(model, device, side) else { return helps };
    if let Place::Rack { bay, rails, facing, .. } = device.fitted.at {
        let outwards = (facing == rails) == (side == SideOf::Face);
        let spare = room(model, device, side.other()).map_or(0.0, |room| room.mm - other_needs);
        let bay_data = case.project.build.bays.get(bay);
        let setback = bay_data.map(|bay| if rails == End::Front { bay.front_setback.0 } else { bay.rear_setback.0 });
        let step = family.rail_step.0;
        let by = if step > 0.0 { (short / step).ceil() * step } else { short };
        if let (true, Some(setback)) = (outwards, setback)
            && setback + by <= family.rail_setback.to
        {
            let rails = format!("Set the {} rails of bay {} ", end_word(rails), bay_letter(bay));
            let mut help = Phrase::from(rails).value(length(by)).text(" further in");
            if spare < by {
                help = help.text(", in a body ").value(length(by - spare.max(0.0))).text(" deeper");
            }
            helps.push(help);
        }
        let deeper = ((case.project.build.depth.0 + short) / DEPTH_STEP).ceil() * DEPTH_STEP;
        if !outwards && deeper <= family.depth.to {
            let more = deeper - case.project.build.depth.0;
            helps.push(
                Phrase::from("Take a body ").value(length(deeper)).text(" deep: ").value(length(more)).text(" more"),
            );
        }
    }
    if matches!(here.to, Of::Device(_) | Of::Unit(_)) {
        helps.push(Phrase::from("Move ").then(part_name(case, here.to)).text(" out of its way"));
    }
    if helps.is_empty() {
        helps.push(format!("Move {} to where more is free", device.spec.name).into());
    }
    helps
}

/// Depths of a body are offered in these steps, mm: common practice, no source.
const DEPTH_STEP: f64 = 50.0;

/// A length on a drawing as a value.
pub(crate) fn length(mm: f64) -> Value {
    Value::new(mm, Kind::Length)
}
