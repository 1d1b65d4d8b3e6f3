//! What every node draws, in VA, continuous and not.
//!
//! S = P / cos φ. What a converter draws follows from the flow of power; what hands power on draws what it feeds.
//!
//! Heaters and what cools the same room do not work at the same time (NFPA 70, 220.60): where the cabinet is one room,
//! every node is reckoned twice, in summer and in winter, and the larger counts. Of two rooms all is taken together.

use catalogue::{Role, UnitSort};
use project::{Conductor, Fed};
use serde::Serialize;

use super::edges::{Edge, rating};
use super::{Circuit, Run, amperes};
use crate::Case;
use crate::backup::plant::Gathered;
use crate::heat::heat_sources::{Draw, UnitDraw};
use crate::heat::walls::compartments;
use crate::network::{Electricity, Flow, NodeKind};
use crate::power::formulas::continuous::sized_for;

/// Apparent power, continuous for three hours or more, and not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Load {
    /// VA, continuous.
    pub continuous: f64,
    /// VA, the rest.
    pub other: f64,
}

/// An outlet counts as so many VA. Source: NFPA 70, 220.14(I), from memory, to be confirmed.
const OUTLET: f64 = 180.0;
/// A continuous load counts so many times. Source: NFPA 70, 210.19, 210.20 and 215.2, handbook 8.
pub(super) const CONTINUOUS: f64 = 1.25;

impl Load {
    /// All of it, VA.
    #[must_use]
    pub fn total(self) -> f64 {
        self.continuous + self.other
    }

    /// What breakers and conductors are chosen by, VA.
    #[must_use]
    pub fn least(self) -> f64 {
        sized_for(self.continuous, self.other, CONTINUOUS)
    }

    pub(super) fn add(&mut self, other: Self) {
        self.continuous += other.continuous;
        self.other += other.other;
    }

    const fn continuous(load: f64) -> Self {
        Self { continuous: load, other: 0.0 }
    }
}

/// What every node draws at most.
pub(super) struct Peak {
    /// Of each node, VA.
    pub taken: Vec<Load>,
    /// Of each node, W.
    pub watts: Vec<f64>,
    /// What a bus gives while nothing feeds it, W.
    pub in_failure: f64,
    /// Strings that share it.
    pub strings: f64,
    /// What the service would give if heaters worked beside what cools, VA.
    pub connected: Load,
}

/// What every node draws at most.
pub(super) fn loads(case: &Case) -> Peak {
    let all: Vec<UnitDraw> = case
        .units
        .iter()
        .map(|(fitted, spec)| UnitDraw {
            of: fitted.id,
            power: spec.map.input.iter().flatten().copied().fold(0.0, f64::max),
        })
        .collect();
    let heats =
        |draw: &UnitDraw| case.units.iter().any(|(fitted, spec)| fitted.id == draw.of && spec.sort == UnitSort::Heater);
    let (winter, summer): (Vec<UnitDraw>, Vec<UnitDraw>) = all.iter().partition(|draw| heats(draw));
    let mut peak = Peak {
        taken: vec![Load::default(); case.network.nodes.len()],
        watts: vec![0.0; case.network.nodes.len()],
        in_failure: 0.0,
        strings: strings(case),
        connected: Load::default(),
    };
    let apart = compartments(case) == 1 && !winter.is_empty() && !summer.is_empty();
    let whole = season(case, &all, &mut peak, !apart);
    peak.connected = whole;
    if apart {
        season(case, &summer, &mut peak, true);
        season(case, &winter, &mut peak, true);
    }
    peak
}

/// Reckons with these units, and keeps of each node the larger when asked to; what the service gives, VA.
fn season(case: &Case, units: &[UnitDraw], peak: &mut Peak, keep: bool) -> Load {
    let network = &case.network;
    let flow = Flow::of(case, Draw::Most, units, true);
    // VA and W that each node hands on, and in the end what it takes.
    let mut sums = vec![(Load::default(), 0.0); network.nodes.len()];
    let mut charging = 0.0;
    for (index, node) in network.nodes.iter().enumerate().rev() {
        let device = node.item().and_then(|id| case.device(id));
        let electrical = device.map(|device| &device.spec.electrical);
        let direct = node.feeds.first().is_some_and(|feed| feed.flows.is_direct());
        let factor = match node.of {
            _ if direct => 1.0,
            Some(Fed::Unit(id)) => {
                let unit = case.units.iter().find(|(fitted, _)| fitted.id == id);
                unit.map_or(1.0, |(_, spec)| spec.power_factor_or_usual())
            }
            _ => electrical.map_or(1.0, catalogue::Electrical::power_factor_or_usual),
        };
        // S = P / cos φ
        let apparent = flow.taken[index] / factor;
        let own = (flow.taken[index] - flow.given[index] - flow.lost[index]).max(0.0);
        let taken = match node.kind {
            NodeKind::Load if electrical.is_some_and(|electrical| electrical.momentary) => {
                Load { continuous: 0.0, other: apparent }
            }
            NodeKind::Load | NodeKind::Unit => Load::continuous(apparent),
            NodeKind::Rectifier | NodeKind::Ups | NodeKind::Inverter | NodeKind::Converter => {
                Load::continuous(apparent)
            }
            NodeKind::Battery => {
                charging += apparent;
                Load::continuous(apparent)
            }
            NodeKind::Outlet => Load { continuous: 0.0, other: OUTLET },
            _ => {
                let mut taken = sums[index].0;
                taken.add(Load::continuous(own / factor));
                taken
            }
        };
        let watts = match node.kind {
            NodeKind::Outlet => OUTLET,
            kind if hands_on(kind) => sums[index].1 + own,
            _ => flow.taken[index],
        };
        sums[index] = (taken, watts);
        if node.kind == NodeKind::Bus {
            peak.in_failure = (taken.total() - charging).max(peak.in_failure);
        }
        // Rectifiers and converters have told already what they draw.
        if let Some(feed) = node.feeds.first() {
            sums[feed.from].0.add(taken);
            sums[feed.from].1 += watts;
        }
        if keep && taken.least() > peak.taken[index].least() {
            peak.taken[index] = taken;
            peak.watts[index] = watts;
        }
    }
    sums.first().map_or_else(Load::default, |service| service.0)
}

/// Whether a node draws what it feeds, and nothing but its own beside.
const fn hands_on(kind: NodeKind) -> bool {
    !matches!(
        kind,
        NodeKind::Load
            | NodeKind::Unit
            | NodeKind::Battery
            | NodeKind::Rectifier
            | NodeKind::Ups
            | NodeKind::Inverter
            | NodeKind::Converter
    )
}

/// Whole strings on the bus, one at least.
fn strings(case: &Case) -> f64 {
    let whole: u32 = Gathered::of(case).strings.iter().map(|strings| strings.count).sum();
    f64::from(whole.max(1))
}

/// A stretch with its load; position, breaker and conductors follow.
pub(super) fn loaded(case: &Case, peak: &Peak, edge: Edge) -> Circuit {
    let node = &case.network.nodes[edge.node];
    let from = &case.network.nodes[edge.by.from];
    let flows = edge.by.flows;
    let regulated = from.kind == NodeKind::Converter;
    let (mut load, mut watts) = (peak.taken[edge.node], peak.watts[edge.node]);
    let mut rated = rated(case, node);
    match (edge.run, node.kind, from.kind) {
        // Rectifiers give what the bus takes, and at most their rating.
        (Run::Bus, NodeKind::Bus, NodeKind::Rectifier) => {
            let given = given(case, from);
            let all: f64 = node.feeds.iter().map(|feed| self::given(case, &case.network.nodes[feed.from])).sum();
            let taken = peak.taken[edge.node].total() * if all > 0.0 { given / all } else { 0.0 };
            load = Load::continuous(taken.min(given));
            watts = load.total();
            rated = given;
        }
        // What strings give when nothing else does; with one of them away the others carry it.
        (Run::String, ..) => {
            load = Load::continuous(peak.in_failure / (peak.strings - 1.0).max(1.0));
            watts = load.total();
        }
        (_, NodeKind::CutOut, _) => {
            load = Load::continuous(peak.in_failure);
            watts = load.total();
        }
        _ => {}
    }
    let current = amperes(load.total(), flows, regulated);
    let least = amperes(load.least().max(CONTINUOUS * rated), flows, regulated);
    let ambient = case.project.brief.hottest.0;
    let outside = edge.run == Run::Service && from.kind == NodeKind::Service;
    Circuit {
        node: edge.node,
        feed: edge.feed,
        from: edge.by.from,
        run: edge.run,
        flows,
        poles: flows.poles(),
        position: None,
        asked: edge.by.position,
        legs: [false; 3],
        load,
        watts,
        amperes: current,
        least_amperes: least,
        breaker: None,
        metal: if outside { case.project.brief.power.conductor } else { Conductor::Copper },
        bundled: 0,
        ambient: if outside { ambient } else { ambient + super::WARMER_INSIDE },
        wire: None,
        length: None,
        drop: 0.0,
    }
}

/// What a rectifier gives at most, W.
fn given(case: &Case, node: &crate::network::Node) -> f64 {
    let device = node.item().and_then(|id| case.device(id));
    device.and_then(|device| device.spec.converts).map_or(0.0, |converts| converts.rating.0)
}

/// What an input has to bear whatever flows today, VA: of a converter what it draws at its rating, as after a failure of
/// the supply; of one of two inputs all of the load.
fn rated(case: &Case, node: &crate::network::Node) -> f64 {
    let Some(device) = node.item().and_then(|id| case.device(id)) else { return 0.0 };
    let electrical = &device.spec.electrical;
    let direct = node.feeds.first().is_some_and(|feed| feed.flows.is_direct());
    let factor = if direct { 1.0 } else { electrical.power_factor_or_usual() };
    match (node.kind, device.spec.converts) {
        (NodeKind::Rectifier | NodeKind::Ups | NodeKind::Inverter | NodeKind::Converter, Some(converts)) => {
            (converts.rating.0 / converts.efficiency + device.spec.power.0) / factor
        }
        (NodeKind::Load, _) if electrical.two_inputs => device.spec.worst_power().0 / factor,
        _ => 0.0,
    }
}

/// The breaker that a thing asks for whatever it draws, A: outlets, strips and surge protectors.
pub(super) fn own_breaker(case: &Case, node: &crate::network::Node) -> Option<f64> {
    let device = case.device(node.item()?)?;
    let fixed = matches!(
        device.spec.electrical.role,
        Some(Role::Outlet { .. } | Role::OutletStrip { .. } | Role::SurgeProtector { .. })
    );
    if fixed { rating(case, node.item()?) } else { None }
}

/// Whether a circuit is of alternating current.
pub(super) const fn alternating(flows: Electricity) -> bool {
    matches!(flows, Electricity::Alternating { .. })
}
