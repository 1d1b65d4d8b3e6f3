//! From a build to one list of solids, and from that list to everything that is measured or drawn.
//!
//! **Invariant:** a length, an area, a mass or a clearance that two places show comes from here once. No browser, no clock.
//!
//! Coordinates, millimetres: x to the right seen from the front, y from front to rear, z up. The origin lies on the
//! ground under the centre of the body; the outside of the body's front skin is at y = −depth/2.

mod clearance;
mod layout;
mod measure;
mod mesh;
mod model;
mod parts;
mod piece;
mod route;
mod shape;
mod solid;
mod vector;
mod view;

pub use clearance::{Gap, Meeting, SLACK};
pub use layout::{BayLayout, Layout, panel_height, rail_widths};
pub use measure::{FaceArea, MassSum};
pub use mesh::Mesh;
pub use model::{Anchor, Eyes, Hinge, Model, Placed, model};
pub use route::Route;
pub use solid::{Axis, Frame, Layer, Mass, Of, Outline, Solid, Tone};
pub use vector::{Box3, Vec3};
pub use view::{View, ViewOutline, elevation, extent};

#[cfg(test)]
mod clearance_tests;
#[cfg(test)]
mod model_tests;
#[cfg(test)]
mod sample;
#[cfg(test)]
mod shape_tests;
#[cfg(test)]
mod view_tests;
