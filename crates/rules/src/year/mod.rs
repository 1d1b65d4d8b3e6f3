//! Year: what happens over the hours of a day and of a year?
//!
//! The checks reckon little themselves: they judge a [`crate::course::Course`], which a run has left behind, and are asked
//! only when the case has one. `given.rs` says whether it is there and belongs to this build; `words.rs` names things.

pub mod battery_life;
pub mod closed_balance;
pub mod cold_start;
pub mod coldest_hour;
pub mod cooling_lost;
pub mod energy_of_the_year;
pub mod frost_on_lithium;
mod given;
pub mod grid_lost;
pub mod hot_day;
mod hot_limit;
pub mod hottest_hour;
pub mod hours_above;
pub mod open_door;
pub mod peak_shares;
mod rests_on;
#[cfg(test)]
pub(crate) mod testing;
#[cfg(test)]
mod tests;
pub mod unit_duty;
mod until_limit;
mod words;
