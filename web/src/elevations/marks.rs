//! What is drawn for each device that the elevations show.

use catalogue::{Catalogue, DeviceKind};
use geometry::{Layout, Model, rail_widths};
use project::{Build, End, FittedDevice, ItemId, Place, RailWidth, units_needed};

use super::frame::{Frame, Rect};
use crate::devices::{kind_words, place_words};

/// From this share of the way to the other rails on, a device is shown there as a hidden edge.
const DEEP: f64 = 2.0 / 3.0;

/// One device on the drawing.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Mark {
    /// Its name.
    pub(super) name: String,
    /// Its kind.
    pub(super) kind: DeviceKind,
    /// Where it is.
    pub(super) at: Place,
    /// Units it takes between rails.
    pub(super) units: u32,
    /// Where it is drawn.
    pub(super) rect: Rect,
    /// Whether its strip is wide enough for names.
    pub(super) named: bool,
    /// Its back on the opposite strip, when it reaches far.
    pub(super) hidden: Option<Rect>,
}

impl Mark {
    /// The device in words: "Switch 48, A 17, 1 U, network".
    pub(super) fn words(&self) -> String {
        let units = match self.at {
            Place::Rack { .. } => format!(" {}\u{a0}U,", self.units),
            _ => String::new(),
        };
        format!("{}, {},{units} {}", self.name, place_words(self.at), kind_words(self.kind))
    }
}

/// The devices of a build that are drawn: those on rails or shelves, and those in the plinth.
pub(super) fn marks(build: &Build, catalogue: &Catalogue, model: &Model, frame: &Frame) -> Vec<(ItemId, Mark)> {
    let mark = |device: &FittedDevice| {
        let spec = device.resolve(catalogue)?;
        let placed = model.placed.iter().find(|placed| placed.id == device.id)?;
        let (rect, named, hidden) = match (device.at, placed.end) {
            (Place::Floor { bay, plinth: true, .. }, _) => (frame.in_room(bay, &placed.body)?, false, None),
            (Place::Rack { bay, rails, .. }, _) => {
                let strip = frame.strip(bay, rails)?;
                let rails_made_for = if spec.rack == 23 { RailWidth::TwentyThree } else { RailWidth::Nineteen };
                let heights = (placed.body.min.z, placed.body.max.z);
                let panel = frame.panel(strip, rail_widths(rails_made_for).0, heights);
                let opposite =
                    frame.strip(bay, other_end(rails)).filter(|_| reaches_far(&model.layout, bay, rails, placed));
                (panel, rails == End::Front, opposite.map(|strip| frame.seen(strip, &placed.body)))
            }
            (Place::Shelf { .. }, Some(end)) => {
                let strip = frame.strip(placed.bay, end)?;
                (frame.seen(strip, &placed.body), end == End::Front, None)
            }
            _ => return None,
        };
        let mark = Mark {
            name: spec.name.clone(),
            kind: spec.kind,
            at: device.at,
            units: units_needed(spec),
            rect,
            named,
            hidden,
        };
        Some((device.id, mark))
    };
    build.devices.iter().filter_map(mark).collect()
}

/// How one device is drawn, if it is.
pub(super) fn mark_of(marks: &[(ItemId, Mark)], id: ItemId) -> Option<&Mark> {
    marks.iter().find(|(each, _)| *each == id).map(|(_, mark)| mark)
}

pub(super) const fn other_end(end: End) -> End {
    match end {
        End::Front => End::Rear,
        End::Rear => End::Front,
    }
}

fn reaches_far(layout: &Layout, bay: usize, rails: End, placed: &geometry::Placed) -> bool {
    let Some(planes) = layout.bays.get(bay) else { return false };
    let reach = match rails {
        End::Front => placed.body.max.y - planes.front_rails,
        End::Rear => planes.rear_rails - placed.body.min.y,
    };
    reach > DEEP * (planes.rear_rails - planes.front_rails)
}

/// A name cut to a width, with letters of 14 px: by their usual widths, since nothing is measured before it is drawn.
pub(crate) fn fitted(name: &str, width: f64) -> String {
    let wide = |letter: char| match letter {
        'i' | 'l' | 'j' | '.' | ',' | '\'' | '|' | ' ' => 3.8,
        't' | 'f' | 'r' | '-' | '(' | ')' => 5.2,
        's' | 'c' | 'k' | 'v' | 'x' | 'y' | 'z' => 7.0,
        'm' | 'w' | 'M' | 'W' => 11.8,
        'A'..='Z' => 8.8,
        _ => 7.9,
    };
    if name.chars().map(wide).sum::<f64>() <= width {
        return name.to_owned();
    }
    let mut left = width - 9.0;
    let short: String = name
        .chars()
        .take_while(|letter| {
            left -= wide(*letter);
            left >= 0.0
        })
        .collect();
    format!("{}…", short.trim_end())
}

/// What tells a kind where there is no room for a name.
pub(super) fn glyph(kind: DeviceKind, rect: &Rect) -> String {
    let (left, middle, right) = (rect.x + 5.0, rect.y + rect.height / 2.0, rect.x + rect.width - 5.0);
    let width = (right - left).max(0.0);
    match kind {
        DeviceKind::Power => format!("M{left:.1} {middle:.1}H{right:.1}"),
        DeviceKind::Cable => {
            let top = middle - 2.5;
            format!("M{left:.1} {top:.1}v5h8v-5M{:.1} {top:.1}v5h8v-5", left + width * 0.55)
        }
        DeviceKind::Network => format!("M{left:.1} {middle:.1}h4m3 0h4m3 0h4m3 0h4"),
        DeviceKind::Fibre => format!("M{left:.1} {:.1}v4m4 -4v4m4 -4v4m4 -4v4m4 -4v4", middle - 2.0),
        DeviceKind::Compute => {
            format!("M{left:.1} {:.1}H{right:.1}M{left:.1} {:.1}H{right:.1}", middle - 2.0, middle + 2.0)
        }
        DeviceKind::Battery => format!("M{:.1} {middle:.1}h6m-3 -3v6", rect.x + rect.width / 2.0 - 3.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_name_stays_and_a_long_one_ends_in_an_ellipsis() {
        assert_eq!(fitted("Switch 48", 110.0), "Switch 48");
        let cut = fitted("Rectifier shelf 6 kW, 230 V, with controller", 110.0);
        assert!(cut.ends_with('…') && cut.len() < 20, "{cut}");
    }
}
