//! The light of one moment, as weather files give it.

/// Light from the sun and the sky, W/m².
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SkyLight {
    /// On level ground, from sun and sky together.
    pub global: f64,
    /// From the sun, on a plane square to its rays.
    pub direct_normal: f64,
    /// From the sky, on level ground.
    pub diffuse: f64,
}

/// The number where it is above zero, otherwise zero; a missing number is zero too.
pub(crate) fn positive(number: f64) -> f64 {
    if number > 0.0 { number } else { 0.0 }
}

/// The smaller of two numbers.
pub(crate) fn smaller(a: f64, b: f64) -> f64 {
    if a < b { a } else { b }
}

/// The larger of two numbers.
pub(crate) fn larger(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}
