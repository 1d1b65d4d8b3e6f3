//! Breaker, conductors and voltage lost of every circuit.
//!
//! The breaker is the next standard rating (NFPA 70, 240.6) at or above 125 % of what is continuous and all of the rest.
//! Conductors are the smallest of which all of this holds:
//!
//! - in the column of the terminals they bear what the breaker was chosen by;
//! - at their air temperature and in their bundle, from their own column of 90 °C, they bear the load;
//! - the breaker is at most the next standard rating above that (240.4(B)), for an outlet at most that itself;
//! - the smallest sizes keep their own limits (240.4(D));
//! - no more voltage is lost than [`allowed_drop`] allots, where a larger size of the table can see to that.

use project::Conductor;

use super::loads::{alternating, own_breaker};
use super::{Circuit, Circuits, LARGEST_BUNDLE, Run, Wire, edges, is_line, wires};
use crate::Case;
use crate::network::{Electricity, NodeKind};
use crate::power::code::{Code, Column, Size};
use crate::power::formulas::drop::voltage_drop;

/// Share of nominal voltage that a branch may lose. Source: NFPA 70, 210.19 informational note: a recommendation.
pub const ALTERNATING_BRANCH: f64 = 0.03;
/// Share that feeders may lose, so that with the branch it is 5 %. Source: NFPA 70, 215.2 informational note.
pub const ALTERNATING_FEEDER: f64 = 0.02;
/// What a plant of 48 V may lose from its bus to a load, V. Common practice, no source: half of the 2 V that operators
/// allow from the strings to the load at the end of discharge.
pub const BUS_TO_LOAD: f64 = 1.0;
/// What it may lose from a string to the bus, V. Common practice, no source.
pub const STRING_DROP: f64 = 0.5;

/// Least breaker of a branch, A. Source: NFPA 70, 210.3.
const LEAST_BREAKER: f64 = 15.0;

/// Sizes every circuit.
pub(super) fn size(case: &Case, all: &mut Circuits) {
    let code = Code::of(case.project.brief.power.code);
    let bundles = bundles(case, &all.circuits);
    let of_service = |circuit: &Circuit| matches!(circuit.run, Run::Service | Run::Feeder);
    let entry: f64 = all.circuits.iter().filter(|one| of_service(one)).filter_map(|one| one.length).sum();
    for index in 0..all.circuits.len() {
        let mut circuit = all.circuits[index].clone();
        if circuit.run == Run::Cord {
            continue;
        }
        circuit.bundled = bundles[circuit.from].max(carrying(circuit.flows)).min(LARGEST_BUNDLE);
        circuit.breaker = breaker(case, code, all.main, &circuit);
        circuit.wire = circuit.breaker.and_then(|breaker| wire(case, code, &circuit, breaker, entry));
        circuit.drop = circuit.wire.map_or(0.0, |wire| lost(code, &circuit, wire.size));
        all.circuits[index] = circuit;
    }
}

/// Conductors of a circuit that carry current.
pub(super) const fn carrying(flows: Electricity) -> u32 {
    match flows {
        Electricity::Alternating { poles: 3, .. } => 3,
        Electricity::Alternating { .. } | Electricity::Direct { .. } => 2,
    }
}

/// Conductors that leave each node and carry current; those of the service and its feeders run by themselves.
fn bundles(case: &Case, circuits: &[Circuit]) -> Vec<u32> {
    let mut bundles = vec![0; case.network.nodes.len()];
    for circuit in circuits.iter().filter(|circuit| circuit.run == Run::Branch) {
        bundles[circuit.from] += carrying(circuit.flows);
    }
    bundles
}

/// Rated current of a circuit's breaker, A; none when there is none as large.
fn breaker(case: &Case, code: &'static Code, main: Option<f64>, circuit: &Circuit) -> Option<f64> {
    let nodes = &case.network.nodes;
    let (node, from) = (&nodes[circuit.node], &nodes[circuit.from]);
    let passes_service = is_line(node.kind) || node.kind == NodeKind::Bus;
    let wanted = match circuit.run {
        Run::Inlet => edges::rating(case, from.item()?)?,
        Run::Service | Run::Feeder if passes_service && from.kind != NodeKind::Panel => {
            main.unwrap_or(circuit.least_amperes)
        }
        Run::Branch => own_breaker(case, node).unwrap_or(circuit.least_amperes),
        _ => circuit.least_amperes,
    };
    Some(code.standard_rating(wanted.max(LEAST_BREAKER))?.value)
}

/// The smallest conductors that do.
fn wire(case: &Case, code: &'static Code, circuit: &Circuit, breaker: f64, entry: f64) -> Option<Wire> {
    let metal = circuit.metal;
    let column = code.terminal_column(breaker, case.project.brief.power.terminals.0)?.value;
    let air = code.ambient_factor(Column::C90, circuit.ambient)?.value;
    let correction = air * code.bundling_factor(circuit.bundled)?.value;
    let exact = case.network.nodes[circuit.node].kind == NodeKind::Outlet;
    let bears = |size: Size| {
        let terminal_ampacity = code.ampacity(size, metal, column)?.value;
        let ampacity = (code.ampacity(size, metal, Column::C90)?.value * correction).min(terminal_ampacity);
        let protected = if exact { ampacity >= breaker } else { code.standard_rating(ampacity)?.value >= breaker };
        let within = code.small_conductor_limit(size, metal).is_none_or(|limit| breaker <= limit.value);
        let carries = terminal_ampacity >= circuit.least_amperes && ampacity >= circuit.amperes;
        (protected && within && carries).then_some((terminal_ampacity, ampacity))
    };
    let mut sizes = Size::ALL.iter().copied().filter_map(|size| Some((size, bears(size)?)));
    let least = sizes.next()?;
    let allowed = allowed_drop(case, circuit, entry);
    let keeps = |size: Size| lost(code, circuit, size) <= allowed;
    let larger = if keeps(least.0) { None } else { sizes.find(|(size, _)| keeps(*size)) };
    let (size, (terminal_ampacity, ampacity)) = larger.unwrap_or(least);
    let grounded = alternating(circuit.flows) && circuit.run != Run::Service;
    let ground = grounded.then(|| code.equipment_ground(breaker, metal)).flatten().map(|entry| entry.value);
    // 250.122(B): it grows with the others, and need not be larger than they are.
    let share = size.area() / least.0.area();
    let grown =
        |ground: Size| Size::ALL.iter().copied().find(|one| one.area() >= ground.area() * share).unwrap_or(size);
    let ground = ground.map(|ground| if larger.is_some() { grown(ground).min(size) } else { ground.min(size) });
    Some(Wire { size, ground, ampacity, terminal_ampacity, for_drop: larger.is_some() })
}

/// What a circuit may lose, V: its share of what is allowed on the way to a load.
pub(super) fn allowed_drop(case: &Case, circuit: &Circuit, entry: f64) -> f64 {
    let volts = circuit.flows.volts();
    let from = case.network.nodes[circuit.from].kind;
    // What is allowed of 48 V, in a plant of another voltage.
    let of_plant = |allowed: f64| allowed * volts / 48.0;
    let share = circuit.length.filter(|_| entry > 0.0).map_or(1.0, |length| length / entry);
    match (circuit.run, alternating(circuit.flows)) {
        (Run::Service | Run::Feeder, true) => ALTERNATING_FEEDER * volts * share,
        (Run::Service | Run::Feeder, false) => of_plant(BUS_TO_LOAD) * share,
        (Run::Inlet, _) => ALTERNATING_FEEDER * volts,
        (_, true) => ALTERNATING_BRANCH * volts,
        (Run::Branch, false) if from == NodeKind::Distribution => of_plant(BUS_TO_LOAD / 2.0),
        (Run::Branch, false) => of_plant(BUS_TO_LOAD),
        (Run::Bus | Run::String, false) => of_plant(STRING_DROP / 2.0),
        (Run::Cord, false) => f64::INFINITY,
    }
}

/// Voltage lost over a circuit of conductors of this size, V.
fn lost(code: &'static Code, circuit: &Circuit, size: Size) -> f64 {
    let resistance = code.resistance(size, circuit.metal).map_or(0.0, |entry| entry.value);
    // ΔV = m · I · R · L, the power factor taken as 1, which is on the safe side.
    voltage_drop(circuit.amperes, resistance * circuit.length.unwrap_or(0.0) / 1000.0, 1.0, wires(circuit.flows))
}

/// Metal of the conductors in words.
#[must_use]
pub const fn metal_name(metal: Conductor) -> &'static str {
    match metal {
        Conductor::Copper => "copper",
        Conductor::Aluminium => "aluminium",
    }
}
