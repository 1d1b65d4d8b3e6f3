//! What a place is made of, each to read and to write.

use project::{End, Place, Side};
use units::Millimetres;

/// A length of a place.
#[derive(Clone, Copy)]
pub(super) enum Axis {
    /// From the left.
    Across,
    /// From the front.
    Along,
    /// Above the floor.
    Up,
    /// Before the rails.
    Forward,
}

/// The length of a place along an axis, to read or write; none where the place has none.
pub(super) const fn length_of(at: &mut Place, axis: Axis) -> Option<&mut Millimetres> {
    match (at, axis) {
        (Place::Shelf { across, .. } | Place::Door { across, .. } | Place::Floor { across, .. }, Axis::Across) => {
            Some(across)
        }
        (Place::Wall { along, .. } | Place::Floor { along, .. }, Axis::Along) => Some(along),
        (Place::Wall { up, .. } | Place::Door { up, .. }, Axis::Up) => Some(up),
        (Place::Rack { forward, .. }, Axis::Forward) => Some(forward),
        _ => None,
    }
}

/// The wall.
pub(super) const fn side(at: &Place) -> Option<Side> {
    match at {
        Place::Wall { side, .. } => Some(*side),
        _ => None,
    }
}

/// Another wall.
pub(super) const fn set_side(at: &mut Place, to: Side) {
    if let Place::Wall { side, .. } = at {
        *side = to;
    }
}

/// The end whose rails or door hold it.
pub(super) const fn end(at: &Place) -> Option<End> {
    match at {
        Place::Rack { rails, .. } => Some(*rails),
        Place::Door { end, .. } => Some(*end),
        _ => None,
    }
}

/// The other end.
pub(super) fn set_end(at: &mut Place, to: End) {
    match at {
        Place::Rack { rails, facing, .. } => {
            // The face turns with the rails, as a device does that is carried round.
            if *rails != to {
                *facing = if *facing == *rails { to } else { *rails };
            }
            *rails = to;
        }
        Place::Door { end, .. } => *end = to,
        _ => {}
    }
}

/// The end its face looks to.
pub(super) const fn facing(at: &Place) -> Option<End> {
    match at {
        Place::Rack { facing, .. } => Some(*facing),
        _ => None,
    }
}

/// Turns its face.
pub(super) const fn set_facing(at: &mut Place, to: End) {
    if let Place::Rack { facing, .. } = at {
        *facing = to;
    }
}

/// Another bay.
pub(super) const fn set_bay(at: &mut Place, to: usize) {
    match at {
        Place::Rack { bay, .. } | Place::Door { bay, .. } | Place::Floor { bay, .. } => *bay = to,
        Place::Shelf { .. } | Place::Wall { .. } | Place::Unplaced => {}
    }
}
