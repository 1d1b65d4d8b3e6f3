//! Where everything in a build lies: the few planes and boxes from which the solids, the elevations and the Fit checks start.

use catalogue::{Catalogue, Device, Family, Mount, RACK_UNIT};
use project::{
    Bay, Build, Closure, End, Face, Faces, FittedDevice, FittedUnit, Place, RailWidth, Side, UnitAt, units_needed,
};

use crate::{Box3, Vec3};

/// Height of the front panel of a device of `units` rack units, mm: 44.45 n − 0.79. Source: EIA/ECA-310-E.
#[must_use]
pub fn panel_height(units: u32) -> f64 {
    RACK_UNIT * f64::from(units) - 0.79
}

/// The planes of one bay, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BayLayout {
    /// Inside of its left wall.
    pub left: f64,
    /// Inside of its right wall.
    pub right: f64,
    /// Mounting plane of the front rails.
    pub front_rails: f64,
    /// Mounting plane of the rear rails.
    pub rear_rails: f64,
    /// Panel width of its rails.
    pub panel_width: f64,
    /// Clear opening between its rails.
    pub opening_width: f64,
    /// Whether the front is a door.
    pub front_door: bool,
    /// Whether the rear is a door.
    pub rear_door: bool,
}

impl BayLayout {
    /// The middle of the bay.
    #[must_use]
    pub fn centre(&self) -> f64 {
        (self.left + self.right) / 2.0
    }

    /// Mounting plane of its front or rear rails.
    #[must_use]
    pub fn rails(&self, end: End) -> f64 {
        match end {
            End::Front => self.front_rails,
            End::Rear => self.rear_rails,
        }
    }

    /// Whether it has a door at that end.
    #[must_use]
    pub fn door(&self, end: End) -> bool {
        match end {
            End::Front => self.front_door,
            End::Rear => self.rear_door,
        }
    }

    /// Free width beside the rails' panels, on each side.
    #[must_use]
    pub fn beside_rails(&self) -> f64 {
        (self.right - self.left - self.panel_width) / 2.0
    }
}

/// Where everything in a build lies.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// The body over its skin, without doors.
    pub body: Box3,
    /// The room inside the body's skin.
    pub inside: Box3,
    /// The bays.
    pub bays: Vec<BayLayout>,
    /// Rack units of each bay.
    pub units: u32,
    /// Lower edge of unit 1.
    pub unit_one: f64,
    /// Height of the plinth, 0 without one.
    pub plinth_height: f64,
    /// Thickness of the plinth's sheet.
    pub plinth_sheet: f64,
    /// Thickness of the skin.
    pub skin: f64,
    /// Depth of a door leaf, outside the body.
    pub leaf_depth: f64,
    /// Depth a door takes inside the body.
    pub door_inner_depth: f64,
    /// Width of the frame round a door opening.
    pub door_frame: f64,
    /// Thickness of the insulation on each face, 0 without. On a door it starts at the leaf, else at the skin.
    pub insulation: Faces<f64>,
}

impl Layout {
    /// The layout of a build; `None` when the catalogue lacks its family, skin or door.
    #[must_use]
    pub fn of(build: &Build, catalogue: &Catalogue) -> Option<Self> {
        let family = catalogue.families.get(&build.family)?;
        let skin = catalogue.skins.get(&build.skin)?.thickness.0;
        let door = catalogue.doors.get(&build.door)?;
        let plinth = build.plinth.as_ref();
        let plinth_height = plinth.map_or(0.0, |fitted| fitted.height.0);
        let plinth_sheet =
            plinth.and_then(|fitted| catalogue.plinths.get(&fitted.part)).map_or(0.0, |part| part.thickness.0);

        let mut insulation = Faces::default();
        for face in Face::ALL {
            let laid =
                build.insulation.get(face).as_ref().filter(|laid| catalogue.insulations.contains_key(&laid.part));
            *insulation.get_mut(face) = laid.map_or(0.0, |laid| laid.thickness.0);
        }

        let posts = build.bays.len().saturating_sub(1) as f64 * family.divider_thickness.0;
        let bays_width: f64 = build.bays.iter().map(|bay| bay.width.0).sum();
        let width = bays_width + posts + 2.0 * skin;
        let height = inside_height(family, build.units) + 2.0 * skin;
        let body = Box3 {
            min: Vec3::new(-width / 2.0, -build.depth.0 / 2.0, plinth_height),
            max: Vec3::new(width / 2.0, build.depth.0 / 2.0, plinth_height + height),
        };
        let inset = Vec3::new(skin, skin, skin);
        let inside = Box3 { min: body.min + inset, max: body.max - inset };

        let mut left = inside.min.x;
        let bays = build
            .bays
            .iter()
            .map(|bay| {
                let layout = bay_layout(bay, left, &inside);
                left = layout.right + family.divider_thickness.0;
                layout
            })
            .collect();

        Some(Self {
            body,
            inside,
            bays,
            units: build.units,
            unit_one: inside.min.z + family.clear_below.0,
            plinth_height,
            plinth_sheet,
            skin,
            leaf_depth: door.leaf_depth.0,
            door_inner_depth: door.inner_depth.0,
            door_frame: family.door_frame.0,
            insulation,
        })
    }

    /// Lower edge of a unit, counted from 1 at the bottom.
    #[must_use]
    pub fn unit_bottom(&self, unit: u32) -> f64 {
        self.unit_one + (f64::from(unit) - 1.0) * RACK_UNIT
    }

    /// The outside over everything fixed: body, doors where there are any, plinth.
    #[must_use]
    pub fn over_doors(&self) -> Box3 {
        let mut over = self.body;
        over.min.z = 0.0;
        if self.bays.iter().any(|bay| bay.front_door) {
            over.min.y -= self.leaf_depth;
        }
        if self.bays.iter().any(|bay| bay.rear_door) {
            over.max.y += self.leaf_depth;
        }
        over
    }

    /// The opening of a bay at one end, as a flat box in the plane of the body's skin.
    #[must_use]
    pub fn opening(&self, bay: usize, end: End) -> Option<Box3> {
        let bay = self.bays.get(bay)?;
        let (outer, inner) = match end {
            End::Front => (self.body.min.y, self.inside.min.y),
            End::Rear => (self.body.max.y, self.inside.max.y),
        };
        Some(Box3::between(
            Vec3::new(bay.left + self.door_frame, outer, self.inside.min.z + self.door_frame),
            Vec3::new(bay.right - self.door_frame, inner, self.inside.max.z - self.door_frame),
        ))
    }

    /// The leaf of a door, shut: it covers the opening and half the frame, outside the body.
    #[must_use]
    pub fn leaf(&self, bay: usize, end: End) -> Option<Box3> {
        let layout = self.bays.get(bay)?;
        if !layout.door(end) {
            return None;
        }
        let opening = self.opening(bay, end)?;
        let lap = self.door_frame / 2.0;
        let (inner, outer) = match end {
            End::Front => (self.body.min.y, self.body.min.y - self.leaf_depth),
            End::Rear => (self.body.max.y, self.body.max.y + self.leaf_depth),
        };
        Some(Box3::between(
            Vec3::new(opening.min.x - lap, inner, opening.min.z - lap),
            Vec3::new(opening.max.x + lap, outer, opening.max.z + lap),
        ))
    }

    /// The plane up to which devices may reach at one end of a bay: behind the door's inner parts or insulation, or behind
    /// the insulated panel.
    #[must_use]
    pub fn limit(&self, bay: usize, end: End) -> f64 {
        let insulation = match end {
            End::Front => self.insulation.front,
            End::Rear => self.insulation.rear,
        };
        let door = self.bays.get(bay).is_some_and(|bay| bay.door(end));
        let taken = if door { self.door_inner_depth.max(insulation - self.skin) } else { insulation };
        match end {
            End::Front => self.inside.min.y + taken,
            End::Rear => self.inside.max.y - taken,
        }
    }

    /// The box a device's body takes; `None` when it is not placed, or on something that is not there.
    #[must_use]
    pub fn device_box(&self, device: &FittedDevice, build: &Build, catalogue: &Catalogue) -> Option<Box3> {
        let spec = device.resolve(catalogue)?;
        match device.at {
            Place::Rack { bay, rails, unit, forward, .. } => {
                let bay = self.bays.get(bay)?;
                let units = units_needed(spec);
                let bottom = self.unit_bottom(unit);
                let (face, back) = match rails {
                    End::Front => (bay.front_rails - forward.0, bay.front_rails - forward.0 + spec.depth.0),
                    End::Rear => (bay.rear_rails + forward.0, bay.rear_rails + forward.0 - spec.depth.0),
                };
                let half = spec.width.0 / 2.0;
                Some(Box3::between(
                    Vec3::new(bay.centre() - half, face, bottom),
                    Vec3::new(bay.centre() + half, back, bottom + panel_height(units)),
                ))
            }
            Place::Shelf { shelf, across } => {
                let shelf = build.device(shelf).filter(|shelf| matches!(shelf.at, Place::Rack { .. }))?;
                let board = self.device_box(shelf, build, catalogue)?;
                let facing_rear = matches!(shelf.at, Place::Rack { rails: End::Rear, .. });
                let (face, back) = if facing_rear {
                    (board.max.y, board.max.y - spec.depth.0)
                } else {
                    (board.min.y, board.min.y + spec.depth.0)
                };
                let left = board.min.x + across.0;
                let bottom = board.min.z + SHELF_BOARD;
                Some(Box3::between(
                    Vec3::new(left, face, bottom),
                    Vec3::new(left + spec.width.0, back, bottom + spec.height.0),
                ))
            }
            Place::Wall { side, along, up } => {
                let (wall, inner) = match side {
                    Side::Left => {
                        let wall = self.inside.min.x + self.insulation.left;
                        (wall, wall + spec.depth.0)
                    }
                    Side::Right => {
                        let wall = self.inside.max.x - self.insulation.right;
                        (wall, wall - spec.depth.0)
                    }
                };
                let front = self.inside.min.y + along.0;
                let bottom = self.inside.min.z + up.0;
                Some(Box3::between(
                    Vec3::new(wall, front, bottom),
                    Vec3::new(inner, front + spec.width.0, bottom + rack_or_own_height(spec)),
                ))
            }
            Place::Door { bay, end, across, up } => {
                self.bays.get(bay).filter(|bay| bay.door(end))?;
                let opening = self.opening(bay, end)?;
                let limit = self.limit(bay, end);
                let inner = match end {
                    End::Front => limit + spec.depth.0,
                    End::Rear => limit - spec.depth.0,
                };
                let left = opening.min.x + across.0;
                let bottom = self.inside.min.z + up.0;
                Some(Box3::between(
                    Vec3::new(left, limit, bottom),
                    Vec3::new(left + spec.width.0, inner, bottom + rack_or_own_height(spec)),
                ))
            }
            Place::Floor { bay, plinth, across, along } => {
                let bay = self.bays.get(bay)?;
                if plinth && self.plinth_height <= 0.0 {
                    return None;
                }
                let bottom = if plinth { self.plinth_sheet } else { self.inside.min.z + self.insulation.bottom };
                let left = bay.left + across.0;
                let front = self.inside.min.y + along.0;
                Some(Box3::between(
                    Vec3::new(left, front, bottom),
                    Vec3::new(left + spec.width.0, front + spec.depth.0, bottom + rack_or_own_height(spec)),
                ))
            }
            Place::Unplaced => None,
        }
    }

    /// The box of a gland plate, flush in a bay's floor; plates stand in rows over the floor, evenly spread.
    #[must_use]
    pub fn gland_plate(&self, bay: usize, plate: usize, build: &Build, catalogue: &Catalogue) -> Option<Box3> {
        let fitted = &build.bays.get(bay)?.gland_plates;
        let part = catalogue.gland_plates.get(&fitted.get(plate)?.part)?;
        let bay = self.bays.get(bay)?;
        let widest = fitted
            .iter()
            .filter_map(|one| catalogue.gland_plates.get(&one.part))
            .map(|one| one.width.0)
            .fold(1.0, f64::max);
        let columns = ((bay.right - bay.left) / (widest + GLAND_PLATE_SPACE)).floor().clamp(1.0, 8.0) as usize;
        let columns = columns.min(fitted.len());
        let rows = fitted.len().div_ceil(columns);
        // The middles of equal parts of the floor: (i + ½) ∕ n.
        let middle =
            |low: f64, high: f64, index: usize, of: usize| low + (high - low) * (index as f64 + 0.5) / of as f64;
        let x = middle(bay.left, bay.right, plate % columns, columns);
        let y = middle(self.inside.min.y, self.inside.max.y, plate / columns, rows);
        let half = Vec3::new(part.width.0 / 2.0, part.depth.0 / 2.0, 0.0);
        let top = Vec3::new(x, y, self.inside.min.z);
        Some(Box3::between(top - half, top + half - Vec3::new(0.0, 0.0, part.thickness.0)))
    }

    /// The boxes of a climate unit outside and inside the skin; either may be absent.
    #[must_use]
    pub fn unit_boxes(&self, unit: &FittedUnit, catalogue: &Catalogue) -> Option<(Option<Box3>, Option<Box3>)> {
        let part = catalogue.units.get(&unit.part)?;
        let (width, height) = (part.size.width.0, part.size.height.0);
        let outer = (part.size.depth.0 - part.inner_depth).max(0.0);
        let inner = part.inner_depth;
        let bottom =
            unit.height.map_or((self.inside.min.z + self.inside.max.z - height) / 2.0, |up| self.inside.min.z + up.0);
        let slab = |a: Vec3, b: Vec3, depth: f64| (depth > 0.0).then(|| Box3::between(a, b));
        match unit.at {
            UnitAt::Door { bay, end } => {
                let leaf = self.leaf(bay, end)?;
                let left = leaf.centre().x - width / 2.0;
                let (skin_out, skin_in, out) = match end {
                    End::Front => (leaf.min.y, leaf.max.y, -1.0),
                    End::Rear => (leaf.max.y, leaf.min.y, 1.0),
                };
                let low = |y: f64| Vec3::new(left, y, bottom);
                let high = |y: f64| Vec3::new(left + width, y, bottom + height);
                Some((
                    slab(low(skin_out), high(skin_out + out * outer), outer),
                    slab(low(skin_in), high(skin_in - out * inner), inner),
                ))
            }
            UnitAt::Side { side } => {
                let (skin_out, skin_in, out) = match side {
                    Side::Left => (self.body.min.x, self.inside.min.x, -1.0),
                    Side::Right => (self.body.max.x, self.inside.max.x, 1.0),
                };
                let low = |x: f64| Vec3::new(x, -width / 2.0, bottom);
                let high = |x: f64| Vec3::new(x, width / 2.0, bottom + height);
                Some((
                    slab(low(skin_out), high(skin_out + out * outer), outer),
                    slab(low(skin_in), high(skin_in - out * inner), inner),
                ))
            }
            UnitAt::Roof { bay } => {
                let bay = self.bays.get(bay)?;
                let left = bay.centre() - width / 2.0;
                let low = |z: f64| Vec3::new(left, -height / 2.0, z);
                let high = |z: f64| Vec3::new(left + width, height / 2.0, z);
                Some((
                    slab(low(self.body.max.z), high(self.body.max.z + outer), outer),
                    slab(low(self.inside.max.z), high(self.inside.max.z - inner), inner),
                ))
            }
            UnitAt::Inside { bay } => {
                let rear = self.limit(bay, End::Rear);
                let bay = self.bays.get(bay)?;
                let left = bay.centre() - width / 2.0;
                let floor = self.inside.min.z + unit.height.map_or(self.insulation.bottom, |up| up.0);
                Some((
                    None,
                    Some(Box3::between(
                        Vec3::new(left, rear - part.size.depth.0, floor),
                        Vec3::new(left + width, rear, floor + height),
                    )),
                ))
            }
        }
    }
}

/// Thickness of a shelf's board, on which a device stands, mm.
pub(crate) const SHELF_BOARD: f64 = 2.0;

/// Least space kept between two gland plates side by side, mm.
const GLAND_PLATE_SPACE: f64 = 20.0;

/// Own height of a device, or its panel's when it is made for a rack.
fn rack_or_own_height(spec: &Device) -> f64 {
    match spec.mount {
        Mount::Rack(units) => panel_height(units),
        _ => spec.height.0,
    }
}

/// Free height inside the skin, mm.
fn inside_height(family: &Family, units: u32) -> f64 {
    family.clear_below.0 + f64::from(units) * RACK_UNIT + family.clear_above.0
}

/// Panel width and clear opening, mm. 19 in: EIA/ECA-310-E (482.6; opening at least 450). 23 in: telephone-industry
/// practice, from memory (584.2; openings of 539.75 and 552.45 both occur, the narrower one is used).
#[must_use]
pub fn rail_widths(rails: RailWidth) -> (f64, f64) {
    match rails {
        RailWidth::Nineteen => (482.6, 450.0),
        RailWidth::TwentyThree => (584.2, 539.75),
    }
}

fn bay_layout(bay: &Bay, left: f64, inside: &Box3) -> BayLayout {
    let (panel_width, opening_width) = rail_widths(bay.rails);
    BayLayout {
        left,
        right: left + bay.width.0,
        front_rails: inside.min.y + bay.front_setback.0,
        rear_rails: inside.max.y - bay.rear_setback.0,
        panel_width,
        opening_width,
        front_door: matches!(bay.front, Closure::Door(_)),
        rear_door: matches!(bay.rear, Closure::Door(_)),
    }
}
