//! Where the strips of the elevations lie on the sheet, and where a unit or a place lies on them.
//!
//! Heights are true to each other; widths are not: a rear strip is narrow, because nothing is read on it.

use catalogue::RACK_UNIT;
use geometry::{Box3, Layout};
use project::End;

/// Left of the front strips: the scale.
const SCALE: f64 = 26.0;
/// Above the strips: their names and brackets.
const HEAD: f64 = 34.0;
/// Between the front and the rear strips.
const GAP: f64 = 20.0;
/// Between two bays.
const POST: f64 = 6.0;
/// Right of the rear strips.
const RIGHT: f64 = 9.0;
/// The share of the width that the front strips take.
const FRONT_SHARE: f64 = 0.72;
/// Least and greatest height of a unit.
const UNIT_RANGE: (f64, f64) = (5.5, 26.0);
/// Height of a unit where the page scrolls and the drawing need not fit: as on the drawn sheet, more for few units.
const FREE_UNIT: (f64, f64) = (16.5, 22.0);
/// Height in which a drawing that need not fit would like to stay.
const FREE_HEIGHT: f64 = 528.0;
/// Least and greatest height of the room below; a higher plinth is cut.
const ROOM_RANGE: (f64, f64) = (22.0, 36.0);
/// Least width in which names can still be read.
const LEAST_WIDTH: f64 = 320.0;
/// How far beside a strip the pointer still means that strip.
const REACH: f64 = 9.0;

/// The room the drawing may take, in drawing pixels: 1/16 of the root letter size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Stage {
    /// Width.
    pub(super) width: f64,
    /// Height; none where the page scrolls.
    pub(super) height: Option<f64>,
}

/// A rectangle of the drawing, y down.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Rect {
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) width: f64,
    pub(super) height: f64,
}

/// One bay seen from one end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Strip {
    /// Bay, counted from 0.
    pub(super) bay: usize,
    /// The end it is seen from.
    pub(super) end: End,
    /// Its units.
    pub(super) rect: Rect,
    /// Middle of the bay, mm.
    centre: f64,
    /// Panel width of its rails, mm.
    panel: f64,
    /// Inside of its left and right wall, mm.
    walls: (f64, f64),
}

/// The room under the strips.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Room {
    /// Its height on the drawing.
    pub(super) height: f64,
    /// Height of the plinth, mm.
    plinth: f64,
    /// Whether it is drawn lower than it is.
    pub(super) cut: bool,
}

/// Everything of the drawing but the devices.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Frame {
    /// Width of the drawing.
    pub(super) width: f64,
    /// Height of the drawing.
    pub(super) height: f64,
    /// Height of a unit.
    pub(super) unit: f64,
    /// How many units.
    pub(super) units: u32,
    /// Lower edge of unit 1.
    pub(super) base: f64,
    /// Lower edge of unit 1, mm.
    unit_one: f64,
    /// The strips, left to right: the front of each bay, then the rear seen from behind.
    pub(super) strips: Vec<Strip>,
    /// The plinth.
    pub(super) room: Option<Room>,
}

impl Frame {
    /// The frame of a layout, in which everything up to the unit `highest` is seen, even above the cabinet.
    pub(super) fn of(layout: &Layout, highest: u32, stage: Stage) -> Self {
        let width = stage.width.max(LEAST_WIDTH);
        let units = f64::from(layout.units.max(highest).max(1));
        let has_room = layout.plinth_height > 0.0;
        let below = if has_room { ROOM_RANGE.1 } else { 2.0 };
        let unit = stage.height.map_or_else(
            || (FREE_HEIGHT / units).clamp(FREE_UNIT.0, FREE_UNIT.1),
            |height| ((height - HEAD - below) / units).clamp(UNIT_RANGE.0, UNIT_RANGE.1),
        );
        let room = has_room.then(|| {
            let whole = layout.plinth_height / RACK_UNIT * unit;
            let height = whole.clamp(ROOM_RANGE.0, ROOM_RANGE.1);
            Room { height, plinth: layout.plinth_height, cut: whole > ROOM_RANGE.1 }
        });
        let base = HEAD + units * unit;
        Self {
            width,
            height: base + room.map_or(2.0, |room| room.height),
            unit,
            units: layout.units,
            base,
            unit_one: layout.unit_one,
            strips: strips(layout, width, base, f64::from(layout.units) * unit),
            room,
        }
    }

    /// The strip of a bay at one end.
    pub(super) fn strip(&self, bay: usize, end: End) -> Option<&Strip> {
        self.strips.iter().find(|strip| strip.bay == bay && strip.end == end)
    }

    /// The height of a point above the ground, given in mm.
    fn y(&self, z: f64) -> f64 {
        self.base - (z - self.unit_one) / RACK_UNIT * self.unit
    }

    /// A panel of a width in mm from one height to another, in the middle of a strip.
    pub(super) fn panel(&self, strip: &Strip, width: f64, (from, to): (f64, f64)) -> Rect {
        let half = width.min(strip.panel) / 2.0;
        self.between(strip, strip.centre - half, strip.centre + half, (from, to))
    }

    /// A box as it is seen on a strip.
    pub(super) fn seen(&self, strip: &Strip, of: &Box3) -> Rect {
        self.between(strip, of.min.x, of.max.x, (of.min.z, of.max.z))
    }

    fn between(&self, strip: &Strip, left: f64, right: f64, (from, to): (f64, f64)) -> Rect {
        let scale = (strip.rect.width - 4.0) / strip.panel.max(1.0);
        let middle = strip.rect.x + strip.rect.width / 2.0;
        let mirrored = if strip.end == End::Rear { -1.0 } else { 1.0 };
        let (one, other) =
            (middle + mirrored * (left - strip.centre) * scale, middle + mirrored * (right - strip.centre) * scale);
        let x = one.min(other).max(strip.rect.x + 2.0);
        let top = self.y(to) + 0.6;
        Rect {
            x,
            y: top,
            width: (one.max(other).min(strip.rect.x + strip.rect.width - 2.0) - x).max(2.0),
            height: (self.y(from) - 0.6 - top).max(2.0),
        }
    }

    /// A box that stands in the plinth, seen from the front.
    pub(super) fn in_room(&self, bay: usize, of: &Box3) -> Option<Rect> {
        let (room, strip) = (self.room?, self.strip(bay, End::Front)?);
        let scale = strip.rect.width / (strip.walls.1 - strip.walls.0).max(1.0);
        let x = strip.rect.x + (of.min.x - strip.walls.0) * scale;
        let share = (of.size().z / room.plinth).clamp(0.2, 1.0);
        let height = (room.height - 6.0) * share;
        Some(Rect { x, y: self.height - height, width: (of.size().x * scale).max(3.0), height })
    }

    /// What a point of the drawing means to a device of some units, held `grab` units above its lower edge: bay, rails and
    /// unit, or nothing beside the strips.
    pub(super) fn place_at(&self, x: f64, y: f64, grab: f64, needed: u32) -> Option<(usize, End, u32)> {
        let strip = self
            .strips
            .iter()
            .find(|strip| x >= strip.rect.x - REACH && x <= strip.rect.x + strip.rect.width + REACH)?;
        let above = (self.base - y) / self.unit;
        if above < -1.5 || above > f64::from(self.units) + 1.5 {
            return None;
        }
        let highest = (self.units + 1).saturating_sub(needed).max(1);
        let unit = (above - grab).round().clamp(0.0, f64::from(highest) - 1.0) as u32 + 1;
        Some((strip.bay, strip.end, unit))
    }

    /// How many units a point lies above the lower edge of unit 1.
    pub(super) fn units_above(&self, y: f64) -> f64 {
        (self.base - y) / self.unit
    }
}

fn strips(layout: &Layout, width: f64, base: f64, height: f64) -> Vec<Strip> {
    let bays = layout.bays.len().max(1) as f64;
    let room = width - SCALE - GAP - RIGHT;
    let posts = (bays - 1.0) * POST;
    let (front, rear) = ((room * FRONT_SHARE - posts) / bays, (room * (1.0 - FRONT_SHARE) - posts) / bays);
    let strip = |bay: usize, end: End, x: f64, width: f64| {
        layout.bays.get(bay).map(|planes| Strip {
            bay,
            end,
            rect: Rect { x, y: base - height, width, height },
            centre: planes.centre(),
            panel: planes.panel_width,
            walls: (planes.left, planes.right),
        })
    };
    let from_rear = SCALE + room * FRONT_SHARE + GAP;
    let fronts =
        (0..layout.bays.len()).filter_map(|bay| strip(bay, End::Front, SCALE + bay as f64 * (front + POST), front));
    let rears = (0..layout.bays.len())
        .rev()
        .enumerate()
        .filter_map(|(place, bay)| strip(bay, End::Rear, from_rear + place as f64 * (rear + POST), rear));
    fronts.chain(rears).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn frame(units: u32, height: Option<f64>) -> Frame {
        let catalogue = catalogue::sample();
        let mut build = project::new_project(&catalogue).build;
        build.units = units;
        let layout = Layout::of(&build, &catalogue).unwrap();
        Frame::of(&layout, 0, Stage { width: 392.0, height })
    }

    #[test]
    fn stays_inside_its_room_from_10_to_48_units() {
        for units in 10..=48 {
            let frame = frame(units, Some(400.0));
            assert!(frame.height <= 400.0, "{units} U are {} high", frame.height);
            assert!(frame.strips.iter().all(|strip| strip.rect.x + strip.rect.width <= 392.0));
        }
    }

    #[test]
    fn what_sticks_out_of_a_low_cabinet_stays_on_the_drawing() {
        let catalogue = catalogue::sample();
        let mut build = project::new_project(&catalogue).build;
        build.units = 10;
        let layout = Layout::of(&build, &catalogue).unwrap();
        let frame = Frame::of(&layout, 36, Stage { width: 392.0, height: Some(400.0) });
        let roof = layout.unit_bottom(37);
        let seen = frame.panel(&frame.strips[0], 400.0, (roof - RACK_UNIT, roof));
        assert!(seen.y >= HEAD - 1.0 && frame.height <= 400.0, "{seen:?}");
        assert!(frame.strips[0].rect.height < 0.3 * frame.height);
    }

    #[test]
    fn a_device_held_in_its_middle_stays_where_it_is() {
        let frame = frame(24, None);
        for unit in 1..=23 {
            let strip = frame.strips[0];
            let y = frame.base - f64::from(unit) * frame.unit;
            assert_eq!(frame.place_at(strip.rect.x + 5.0, y, 1.0, 2), Some((strip.bay, strip.end, unit)));
        }
    }

    #[test]
    fn beside_the_strips_is_no_place() {
        let frame = frame(24, None);
        assert_eq!(frame.place_at(3.0, 100.0, 0.5, 1), None);
        assert_eq!(frame.place_at(60.0, frame.height + 90.0, 0.5, 1), None);
    }
}
