//! Where the breakers stand: chosen places first, then those of several poles, then the others so that phases balance.
//!
//! As load centres have it, odd positions stand on the left and even ones on the right; a row of two is one phase, the next
//! row the next phase, so a breaker of two poles takes a position and the next but one below it.

use project::ItemId;

use super::{Circuit, Circuits, Run, is_line};
use crate::Case;
use crate::network::NodeKind;

/// The breakers of a load centre, or of a distribution of direct current.
#[derive(Clone, Debug, PartialEq)]
pub struct PanelSchedule {
    /// Its node.
    pub hub: usize,
    /// The device.
    pub device: ItemId,
    /// Whether it is of direct current.
    pub direct: bool,
    /// Positions or ways.
    pub positions: u32,
    /// Rated current of its bus, A.
    pub bus: f64,
    /// Its circuits, as indices, by their first position; those without a place last.
    pub circuits: Vec<usize>,
    /// Positions that were asked for and could not be given.
    pub conflicts: Vec<Conflict>,
    /// Load of each phase, VA.
    pub phases: [f64; 3],
}

impl PanelSchedule {
    /// Positions that are taken.
    #[must_use]
    pub fn taken(&self, all: &Circuits) -> u32 {
        let placed = self.circuits.iter().map(|index| &all.circuits[*index]);
        placed.filter(|circuit| circuit.position.is_some()).map(|circuit| circuit.poles).sum()
    }

    /// Circuits that found no place.
    pub fn without_place<'a>(&'a self, all: &'a Circuits) -> impl Iterator<Item = &'a Circuit> {
        self.circuits.iter().map(|index| &all.circuits[*index]).filter(|circuit| circuit.position.is_none())
    }

    /// Load of all its circuits, VA.
    #[must_use]
    pub fn load(&self, all: &Circuits) -> f64 {
        self.circuits.iter().map(|index| all.circuits[*index].load.total()).sum()
    }
}

/// A position that was asked for and could not be given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Conflict {
    /// The circuit.
    pub circuit: usize,
    /// The position asked for.
    pub position: u32,
    /// Why not.
    pub why: Misplaced,
}

/// Why a position could not be given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Misplaced {
    /// There is no such position, or not as many below it as the breaker has poles.
    Beyond,
    /// Another circuit asked for it before.
    Taken,
}

/// Places all breakers, and finds what each phase carries.
pub(super) fn lay_out(case: &Case, all: &mut Circuits) {
    let nodes = &case.network.nodes;
    for (hub, node) in nodes.iter().enumerate() {
        let (line, ways) = (is_line(node.kind), node.kind == NodeKind::Distribution);
        if !line && !ways {
            continue;
        }
        let hangs =
            |circuit: &Circuit| circuit.from == hub && holds_breaker(node.kind, nodes[circuit.node].kind, circuit.run);
        let own: Vec<usize> = (0..all.circuits.len()).filter(|index| hangs(&all.circuits[*index])).collect();
        let device = node.item().and_then(|id| case.device(id));
        let role = device.and_then(|device| device.spec.electrical.role.as_ref());
        let holder =
            device.zip(role.and_then(catalogue::Role::positions)).filter(|_| ways || node.kind == NodeKind::Panel);
        let places = holder.as_ref().map_or_else(|| 6 * own.len() as u32 + 6, |(_, positions)| *positions);
        let mut board = Board::new(places, if ways { 1 } else { all.phase_count });
        let conflicts = board.place(&mut all.circuits, &own);
        if node.kind != NodeKind::Panel || nodes[node.feeds.first().map_or(0, |feed| feed.from)].kind != NodeKind::Panel
        {
            for (sum, phase) in all.phases.iter_mut().zip(board.phases).take(if line { 3 } else { 0 }) {
                *sum += phase;
            }
        }
        let Some((device, positions)) = holder else {
            // Nothing holds these breakers, so they have a phase and no position.
            own.iter().for_each(|index| all.circuits[*index].position = None);
            continue;
        };
        let mut circuits = own;
        circuits.sort_by_key(|index| all.circuits[*index].position.unwrap_or(u32::MAX));
        let bus = role.and_then(catalogue::Role::amperes).map_or(0.0, |amperes| amperes.0);
        let device = device.fitted.id;
        let phases = board.phases;
        all.panels.push(PanelSchedule { hub, device, direct: ways, positions, bus, circuits, conflicts, phases });
    }
    carry(case, all);
}

/// Whether a circuit has its breaker in the hub it comes from: all but what only passes on the service.
const fn holds_breaker(hub: NodeKind, to: NodeKind, run: Run) -> bool {
    matches!(run, Run::Branch) || matches!((hub, to), (NodeKind::Panel, NodeKind::Panel))
}

/// Feeders carry what the most loaded of their phases does.
fn carry(case: &Case, all: &mut Circuits) {
    let nodes = &case.network.nodes;
    let whole = all.imbalance();
    for circuit in &mut all.circuits {
        let feeds = nodes[circuit.node].kind;
        if circuit.flows.is_direct() || !is_line(feeds) && circuit.run != Run::Inlet {
            continue;
        }
        let of_panel = nodes[circuit.from].kind == NodeKind::Panel;
        let own = all.panels.iter().find(|panel| of_panel && panel.hub == circuit.node);
        let factor = own.map_or(whole, |panel| imbalance(&panel.phases, all.phase_count));
        circuit.amperes *= factor;
        circuit.least_amperes *= factor;
    }
}

/// The most loaded phase over what each would carry if all carried the same.
pub(super) fn imbalance(phases: &[f64; 3], count: usize) -> f64 {
    let all: f64 = phases.iter().sum();
    let most = phases.iter().copied().fold(0.0, f64::max);
    if all > 0.0 { most * count as f64 / all } else { 1.0 }
}

/// Positions while they are filled.
struct Board {
    taken: Vec<bool>,
    phase_count: usize,
    phases: [f64; 3],
}

impl Board {
    fn new(positions: u32, phase_count: usize) -> Self {
        Self { taken: vec![false; positions as usize], phase_count, phases: [0.0; 3] }
    }

    fn place(&mut self, circuits: &mut [Circuit], own: &[usize]) -> Vec<Conflict> {
        let mut conflicts = Vec::new();
        for &index in own {
            let circuit = &mut circuits[index];
            let Some(position) = circuit.asked else { continue };
            let mut slots = slots(position, circuit.poles);
            let why = if position == 0 || slots.clone().any(|slot| slot > self.taken.len()) {
                Some(Misplaced::Beyond)
            } else if slots.any(|slot| self.taken[slot - 1]) {
                Some(Misplaced::Taken)
            } else {
                None
            };
            match why {
                Some(why) => conflicts.push(Conflict { circuit: index, position, why }),
                None => self.take(circuit, position),
            }
        }
        let mut rest: Vec<usize> = own.iter().copied().filter(|index| circuits[*index].position.is_none()).collect();
        // More poles first; of one pole, where balance is to be found, the larger load first.
        let rank = |circuit: &Circuit| {
            let load = if circuit.poles == 1 && self.phase_count > 1 { circuit.load.total() } else { 0.0 };
            (circuit.poles, load)
        };
        rest.sort_by(|one, other| {
            let (one, other) = (rank(&circuits[*one]), rank(&circuits[*other]));
            other.0.cmp(&one.0).then(other.1.total_cmp(&one.1))
        });
        for index in rest {
            let circuit = &mut circuits[index];
            if let Some(position) = self.free(circuit.poles) {
                self.take(circuit, position);
            }
        }
        conflicts
    }

    /// The first free place; of one pole that on the phase with the least load.
    fn free(&self, poles: u32) -> Option<u32> {
        let fits =
            |position: &u32| slots(*position, poles).all(|slot| self.taken.get(slot - 1).is_some_and(|taken| !taken));
        let mut free = (1..=self.taken.len() as u32).filter(fits);
        if poles > 1 || self.phase_count == 1 {
            return free.next();
        }
        // The first of the least, as `min_by` takes it.
        free.min_by(|one, other| self.phases[self.leg(*one)].total_cmp(&self.phases[self.leg(*other)]))
    }

    fn leg(&self, position: u32) -> usize {
        (position as usize - 1) / 2 % self.phase_count
    }

    fn take(&mut self, circuit: &mut Circuit, position: u32) {
        circuit.position = Some(position);
        for slot in slots(position, circuit.poles) {
            self.taken[slot - 1] = true;
            let leg = self.leg(slot as u32);
            if self.phase_count > 1 {
                circuit.legs[leg] = true;
            }
            self.phases[leg] += circuit.load.total() / f64::from(circuit.poles);
        }
    }
}

/// The positions of a breaker, counted from 1.
fn slots(position: u32, poles: u32) -> impl Iterator<Item = usize> + Clone {
    (0..poles as usize).map(move |pole| position as usize + 2 * pole)
}
