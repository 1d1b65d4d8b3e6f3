//! Does everything fit? One check in each file.

pub mod air_space;
pub mod all_placed;
pub mod bend_radius;
mod cabling;
mod counted;
pub mod depth_to_doors;
pub mod fibre_ports;
pub mod gland_plates;
pub mod height_units;
pub mod manager_fill;
pub(crate) mod names;
pub mod one_person_lift;
pub mod parts_meet;
pub mod rail_width;
mod room;
pub mod splices;
mod subjects;
#[cfg(test)]
mod trial;
pub mod unit_overlap;

pub use names::part_words;
