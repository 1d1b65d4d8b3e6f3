//! From a build to one list of solids, and from that list to everything that is measured or drawn.
//!
//! **Invariant:** a length, an area, a mass or a clearance that two places show comes from here once. No browser, no clock.
//!
//! Coordinates, millimetres: x to the right seen from the front, y from front to rear, z up. The origin lies on the
//! ground under the centre of the body; the outside of the body's front skin is at y = −depth/2.

mod layout;
mod solid;
mod vector;

pub use layout::{BayLayout, Layout, RACK_UNIT, panel_height};
pub use solid::{Axis, Frame, Layer, Mass, Of, Outline, Solid, Tone};
pub use vector::{Box3, Vec3};
