//! Is everything fed, protected and wired?
//!
//! All checks start from the network of power (`network`), which follows from the build.

pub mod all_fed;
pub mod ampacity;
pub mod breaker_ratings;
pub mod circuits;
pub mod code;
pub mod conduit_fill;
pub mod cord_configuration;
pub mod demand_load;
pub mod electrode_conductor;
pub mod equipment_ground;
pub mod fault_rating;
pub mod formulas;
pub mod generator_inlet;
mod given;
pub mod interlock;
pub mod outlet_protection;
pub mod phase_balance;
pub mod positions;
pub mod voltage_drop_ac;
pub mod voltage_drop_dc;
pub mod working_space;

#[cfg(test)]
mod testing;

use circuits::Circuit;
use circuits::names::{circuit_mark, node_name};

use crate::{Case, Phrase};

/// A circuit in words: "Core switch 32, A 21 (DD1-2)".
fn about(case: &Case, circuit: &Circuit) -> Phrase {
    node_name(case, circuit.node).text(format!(" ({})", circuit_mark(case, circuit)))
}

/// Of circuits with what is demanded over what is allowed: the worst, and all those beyond their limit, in their order. Only
/// of these a finding is told.
fn worth_telling<'a>(judged: impl Iterator<Item = (f64, &'a Circuit)>) -> Vec<&'a Circuit> {
    let judged: Vec<(f64, &Circuit)> = judged.collect();
    let worst = judged.iter().map(|(used, _)| *used).fold(f64::NEG_INFINITY, f64::max);
    let first = judged.iter().position(|(used, _)| *used >= worst);
    let told = judged.iter().enumerate().filter(|(at, (used, _))| *used > 1.0 || Some(*at) == first);
    told.map(|(_, (_, circuit))| *circuit).collect()
}
