//! What acts on a cabinet from outside at one moment, and over which moments.

use climate::{FaceLight, HourLight};

/// Faces that the sun may reach, in the order of a span: front, rear, left, right, roof.
pub const LIT_FACES: usize = 5;
/// Place of each in the order of [`climate::faces`]: top, front, right, rear, left.
pub const IN_CLIMATE: [usize; LIT_FACES] = [1, 3, 4, 2, 0];

/// What acts from outside at one moment.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Moment {
    /// Outdoor air, °C.
    pub outside: f64,
    /// Wind at the cabinet, m/s.
    pub wind: f64,
    /// Long-wave radiation of the sky on level ground, W/m².
    pub sky: f64,
    /// Sun on level ground, W/m².
    pub global: f64,
    /// Height of the sun over the horizon, degrees.
    pub sun_height: f64,
    /// Bearing of the sun, degrees clockwise from north.
    pub sun_bearing: f64,
    /// Towards the sun: out from the front, out from the right side, up.
    pub sun: [f64; 3],
    /// Beam on each face, W/m².
    pub beam: [f64; LIT_FACES],
    /// From sky and ground on each face, W/m².
    pub diffuse: [f64; LIT_FACES],
}

impl Moment {
    /// Puts the sun and its light in, of a cabinet whose front looks to a bearing, given as its sine and cosine.
    pub fn light(&mut self, light: &HourLight, global: f64, (sin, cos): (f64, f64)) {
        let [east, north, up] = light.sun.direction;
        self.global = global;
        self.sun_height = 90.0 - light.sun.apparent_zenith;
        self.sun_bearing = light.sun.azimuth();
        // The right side looks a quarter anticlockwise of the front, seen from above.
        self.sun = [east * sin + north * cos, north * sin - east * cos, up];
        for (face, place) in IN_CLIMATE.into_iter().enumerate() {
            let FaceLight { beam, sky, ground } = light.faces[place];
            self.beam[face] = beam;
            self.diffuse[face] = sky + ground;
        }
    }

    /// All the light on a face, W/m².
    #[must_use]
    pub fn on_face(&self, face: usize) -> f64 {
        self.beam[face] + self.diffuse[face]
    }
}
