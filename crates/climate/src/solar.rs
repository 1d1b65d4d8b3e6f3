//! Where the sun is, and what arrives of it on each face.

mod face;

pub use face::{Face, faces};
