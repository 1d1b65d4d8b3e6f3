//! How long does it carry on without supply?
//!
//! All checks start from the network of power (`crate::network`) and from the strings in it ([`plant::Plant`]): what draws from
//! them, how warm they are, how they run down ([`discharge::discharge`]) and how they are charged again. [`curves::curves`] is what a chart shows.

pub mod autonomy;
pub mod bus_window;
pub mod cell_sizing;
pub mod curves;
pub mod discharge;
pub mod energy_threshold;
pub mod figures;
pub mod formulas;
pub mod hydrogen;
pub mod lithium_energy;
pub mod loads;
pub mod plant;
pub mod recharge_time;
pub mod rectifier_capacity;
pub mod string_whole;
pub mod temperatures;
#[cfg(test)]
mod testing;
pub mod ups_runtime;
mod words;

/// The caution beside results on lithium.
pub const LITHIUM_CAUTION: &str = "Preliminary. Lithium batteries burn fiercely once damaged, overcharged or charged in frost. \
                                   Local fire and electrical code, the authority that enforces them and the maker's manual \
                                   decide; a licensed professional confirms the design.";

/// The caution beside results on hydrogen.
pub const HYDROGEN_CAUTION: &str = "Preliminary. Charging batteries give off hydrogen, which explodes. Local code and the \
                                    authority that enforces it decide; a licensed professional confirms the ventilation \
                                    before anything is energised.";
