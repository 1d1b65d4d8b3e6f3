//! Steps of working that more than one check of the hottest hour shows.

use units::{Kind, Value};

use super::cooling::CoolingUnit;
use super::hottest::Way;
use super::walls::face_names;
use crate::sources::{CATALOGUE, FLAT_SUN};
use crate::{Phrase, Step};

/// The sun on a compartment.
pub(super) fn sun_step(way: &Way, compartment: usize) -> Step {
    let lit = format!("sun on {}", face_names(&way.exposure.lit));
    Step::input("Q_sun", lit, Value::new(way.sun[compartment], Kind::Power)).from_source(&FLAT_SUN)
}

/// What is left at the site of the heat that a unit moves by its map, W.
pub(super) fn unit_step(unit: &CoolingUnit, meaning: Phrase, of_map: f64, formula: &'static str) -> Step {
    let (left, watts) = (unit.mover.left, |number| Value::new(number, Kind::Power));
    let numbers = Phrase::new().number(Value::new(left, Kind::Ratio)).text(" × ").number(watts(of_map));
    Step::computed("Q_unit", meaning, formula, numbers, watts(left * of_map)).from_source(&CATALOGUE)
}
