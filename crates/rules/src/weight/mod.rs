//! Weight: what does it weigh, can it be lifted, carried and set down?
//!
//! Masses and centres come from the model's solids (`sums.rs`); the lifting checks share one lift (`hoist.rs`): the
//! equipped cabinet with its eyes, without its pallet, hanging level with the hook straight above its centre of gravity.

pub mod centre_of_gravity;
pub mod door_load;
pub mod empty_mass;
pub mod equipped_mass;
pub mod eye_rating;
pub mod formulas;
mod hoist;
pub mod leg_tension;
#[cfg(test)]
pub(crate) mod lifting_testing;
pub mod pad_bearing;
pub mod rail_load;
pub mod shipping_mass;
pub mod sling_angle;
mod sums;
pub mod tip_angle;
