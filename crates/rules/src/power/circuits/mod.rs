//! Every stretch of conductors from the service to the last load: what it carries, its breaker, conductors and place.
//!
//! One circuit stands for each feed of the network (`crate::network`). It is made once for a case ([`Case::circuits`]), and
//! checks, schedules and wire list read it there.
//!
//! What is assumed, and stands in the working of the checks: conductors of 90 °C in air [`WARMER_INSIDE`] above the
//! brief's hottest outdoor air; bundles of at most [`LARGEST_BUNDLE`] conductors that carry current; ends of
//! [`END_ALLOWANCE`] beyond the way of the cable; direct current of a plant reckoned at its end of discharge.
//!
//! **Invariant:** the load of a load centre is the sum of the loads of its circuits, wherever they are placed.

mod alarms;
mod edges;
mod length;
mod loads;
pub mod names;
mod positions;
mod sizing;
mod wires;

#[cfg(test)]
mod tests;

use project::{Conductor, SiteSupply};
use serde::Serialize;

use super::code::Size;
use super::formulas::Wires;
use super::formulas::current::current;
use crate::Case;
use crate::network::{Electricity, NodeKind};

pub use alarms::{Alarm, GroundPlace, alarms, ground_places};
pub use loads::Load;
pub use positions::{Conflict, Misplaced, PanelSchedule};
pub use sizing::{ALTERNATING_BRANCH, ALTERNATING_FEEDER, BUS_TO_LOAD, STRING_DROP, metal_name};
pub use wires::{ListedWire, Part, colour, parts, wire_list};

/// Air around conductors in the cabinet above the brief's hottest outdoor air, K. Common practice, no source: about what
/// a cabinet without a conditioner is warmer inside at its hottest hour; in a cooled one it is on the safe side.
pub const WARMER_INSIDE: f64 = 10.0;
/// Conductors that carry current and are tied together, at most. Common practice, no source: larger bundles are divided.
pub const LARGEST_BUNDLE: u32 = 9;
/// What a conductor is longer than its way, at each end, m. Common practice, no source.
pub const END_ALLOWANCE: f64 = 0.3;
/// Lowest voltage of a plant over its nominal one: 42 V of 48, where 24 lead cells of 1.75 V are empty. Loads draw the
/// same power there, and so the most current.
pub const LOWEST_SHARE: f64 = 42.0 / 48.0;

/// What a stretch of conductors is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Run {
    /// Before the first thing that can switch it off.
    Service,
    /// To what holds the breakers of others.
    Feeder,
    /// From the last breaker to a load.
    Branch,
    /// Between rectifiers, bus, distribution and cut-out.
    Bus,
    /// To a string of cells.
    String,
    /// From the generator's inlet.
    Inlet,
    /// A cord that belongs to what it is plugged into: nothing here sizes it.
    Cord,
}

/// One stretch of conductors.
#[derive(Clone, Debug, PartialEq)]
pub struct Circuit {
    /// The node fed.
    pub node: usize,
    /// Which of its feeds.
    pub feed: usize,
    /// The node it comes from.
    pub from: usize,
    /// What it is for.
    pub run: Run,
    /// What flows.
    pub flows: Electricity,
    /// Poles of its breaker.
    pub poles: u32,
    /// Its first position in a load centre, or its way in a distribution; none elsewhere, or when no place is left.
    pub position: Option<u32>,
    /// The position the user asked for.
    pub asked: Option<u32>,
    /// The phases it hangs on, of a supply that has more than one.
    pub legs: [bool; 3],
    /// What it carries, VA; of direct current, W.
    pub load: Load,
    /// The same in W.
    pub watts: f64,
    /// Current of its load, A, in the conductor that carries most.
    pub amperes: f64,
    /// What breaker and conductors have to bear, A: 125 % of what is continuous and all of the rest, of a converter at least
    /// what it draws at its rating.
    pub least_amperes: f64,
    /// Rated current of its breaker, A; none of a cord, or when none is large enough.
    pub breaker: Option<f64>,
    /// Metal of its conductors.
    pub metal: Conductor,
    /// Conductors that carry current and are tied together with its own, its own included.
    pub bundled: u32,
    /// Air around it, °C.
    pub ambient: f64,
    /// Its conductors; none of a cord, or when no size of the table bears it.
    pub wire: Option<Wire>,
    /// One way, m; none when nobody knows where its ends are.
    pub length: Option<f64>,
    /// Voltage lost over it, there and back, V.
    pub drop: f64,
}

/// The conductors of a circuit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wire {
    /// Size of line and neutral conductors.
    pub size: Size,
    /// Size of the equipment grounding conductor; none before the disconnect and of direct current, where frames are bonded
    /// to the ground bar instead.
    pub ground: Option<Size>,
    /// What it bears at its ambient temperature and in its bundle, and what terminals bear of it, A.
    pub ampacity: f64,
    /// What its terminals bear: the table's column for them, uncorrected, A.
    pub terminal_ampacity: f64,
    /// Whether it is larger than its current asks, so that less voltage is lost.
    pub for_drop: bool,
}

impl Circuit {
    /// All positions it takes.
    pub fn positions(&self) -> impl Iterator<Item = u32> + use<> {
        let poles = self.poles;
        self.position.into_iter().flat_map(move |first| (0..poles).map(move |pole| first + 2 * pole))
    }

    /// Voltage lost over nominal voltage.
    #[must_use]
    pub fn drop_share(&self) -> f64 {
        self.drop / self.flows.volts()
    }

    /// Whether its conductors are ours to size.
    #[must_use]
    pub fn is_wired(&self) -> bool {
        self.run != Run::Cord
    }
}

/// All circuits of a case.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Circuits {
    /// In the order of the network: each after those it hangs on.
    pub circuits: Vec<Circuit>,
    /// Load centres and distributions, in the order of the network.
    pub panels: Vec<PanelSchedule>,
    /// All that is connected, VA: each load once, heaters beside what cools.
    pub connected: Load,
    /// What the service carries at most, VA: of heating and cooling one room only the larger.
    pub demand: Load,
    /// The same in W.
    pub demand_watts: f64,
    /// Rated current of what limits the service: the weakest of disconnect, interlock and load centre, A.
    pub main: Option<f64>,
    /// Load of each phase, VA.
    pub phases: [f64; 3],
    /// Phases of the supply: 1, 2 or 3.
    pub phase_count: usize,
}

impl Circuits {
    /// The circuits of a case.
    #[must_use]
    pub fn of(case: &Case) -> Self {
        let edges = edges::edges(case);
        let peak = loads::loads(case);
        let mut all = Self {
            connected: peak.connected,
            demand: peak.taken.first().copied().unwrap_or_default(),
            demand_watts: peak.watts.first().copied().unwrap_or_default(),
            main: edges::main(case),
            phase_count: phase_count(case.project.brief.supply),
            ..Self::default()
        };
        all.circuits = edges.into_iter().map(|edge| loads::loaded(case, &peak, edge)).collect();
        positions::lay_out(case, &mut all);
        length::measure(case, &mut all.circuits);
        sizing::size(case, &mut all);
        all
    }

    /// The circuit by which a node is fed first.
    #[must_use]
    pub fn of_node(&self, node: usize) -> Option<&Circuit> {
        let at = self.circuits.partition_point(|circuit| circuit.node < node);
        self.circuits.get(at).filter(|circuit| circuit.node == node)
    }

    /// Current of each phase of the service, A.
    #[must_use]
    pub fn phase_amperes(&self, supply: SiteSupply) -> [f64; 3] {
        let volts = to_neutral(supply);
        self.phases.map(|load| load / volts)
    }

    /// The most loaded phase over what each would carry if all carried the same: 1 when they do.
    #[must_use]
    pub fn imbalance(&self) -> f64 {
        positions::imbalance(&self.phases, self.phase_count)
    }

    /// Voltage lost from the source to the end of a circuit over circuits of this sort, V, its own included.
    #[must_use]
    pub fn drop_to(&self, circuit: &Circuit, counts: impl Fn(&Circuit) -> bool) -> f64 {
        let mut lost = 0.0;
        let mut at = Some(circuit);
        while let Some(one) = at {
            if counts(one) {
                lost += one.drop;
            }
            at = self.of_node(one.from);
        }
        lost
    }
}

/// Phases of a supply.
#[must_use]
pub const fn phase_count(supply: SiteSupply) -> usize {
    match supply {
        SiteSupply::SplitPhase120240 => 2,
        SiteSupply::ThreePhase208 | SiteSupply::ThreePhase400 => 3,
        SiteSupply::Single120 | SiteSupply::Single230 | SiteSupply::Remote48Dc | SiteSupply::Remote24Dc => 1,
    }
}

/// Voltage of a phase against neutral, V; of direct current its lowest.
#[must_use]
pub fn to_neutral(supply: SiteSupply) -> f64 {
    match supply {
        SiteSupply::SplitPhase120240 | SiteSupply::Single120 | SiteSupply::ThreePhase208 => 120.0,
        SiteSupply::Single230 | SiteSupply::ThreePhase400 => 230.0,
        SiteSupply::Remote48Dc => 48.0 * LOWEST_SHARE,
        SiteSupply::Remote24Dc => 24.0 * LOWEST_SHARE,
    }
}

/// The letter of a phase.
#[must_use]
pub const fn phase_letter(phase: usize) -> char {
    match phase {
        0 => 'A',
        1 => 'B',
        _ => 'C',
    }
}

/// Rated current of a device that has a part in the entry or the plant, A.
#[must_use]
pub fn rated_current(case: &Case, id: project::ItemId) -> Option<f64> {
    edges::rating(case, id)
}

/// Whether a node hands on the phases of the service as they come.
pub(super) const fn is_line(kind: NodeKind) -> bool {
    matches!(
        kind,
        NodeKind::Service | NodeKind::JunctionBox | NodeKind::Disconnect | NodeKind::Interlock | NodeKind::Panel
    )
}

/// Current of so many VA, A: of direct current that is not kept at its voltage, at the lowest of the plant.
#[must_use]
pub fn amperes(load: f64, flows: Electricity, regulated: bool) -> f64 {
    let volts = match flows {
        Electricity::Direct { volts } if !regulated => volts * LOWEST_SHARE,
        _ => flows.volts(),
    };
    current(load, volts, wires(flows)).unwrap_or(0.0)
}

/// How many conductors carry the current of a circuit.
const fn wires(flows: Electricity) -> Wires {
    if flows.poles() == 3 { Wires::Three } else { Wires::Two }
}
