//! What flows where: from what every load draws to what every source gives.
//!
//! P_in = P_own + P_out / η,  losses = P_out · (1/η − 1)
//!
//! An input of two carries half while both are fed. A converter carries at most its rating, and is told by its check when
//! more is asked of it. Rectifiers share a bus by their ratings. While there is supply, batteries take and do not give.

use catalogue::Chemistry;

use super::{Network, NodeKind};
use crate::heat::heat_sources::{Draw, UnitDraw};
use crate::{Case, PlacedDevice};
use project::{Fed, ItemId};

/// Charge to be given back for each Ah taken out: k. Common practice for lead-acid 1.10 to 1.15, the handbook's 1.15 taken;
/// lithium gives nearly all of it back. From memory, to be confirmed.
#[must_use]
pub const fn charge_factor(chemistry: Option<Chemistry>) -> f64 {
    match chemistry {
        Some(Chemistry::Lithium) => 1.02,
        Some(Chemistry::Nickel) => 1.4,
        Some(Chemistry::Lead) | None => 1.15,
    }
}

/// Voltage of a cell on charge, V. Lead: float 2.25 to 2.27 V at 25 °C; iron phosphate and nickel from memory, to be confirmed.
#[must_use]
pub const fn charge_volts(chemistry: Option<Chemistry>) -> f64 {
    match chemistry {
        Some(Chemistry::Lithium) => 3.5,
        Some(Chemistry::Nickel) => 1.45,
        Some(Chemistry::Lead) | None => 2.27,
    }
}

/// What charges a battery from empty within the brief's time, and what of it becomes heat in the battery, W.
/// I = k · Ah / t,  P = I · n · V;  heat = P · (k − 1) / k
#[must_use]
pub fn recharge_power(case: &Case, device: &PlacedDevice<'_>) -> (f64, f64) {
    let Some(cells) = device.spec.electrical.cells else { return (0.0, 0.0) };
    let k = charge_factor(device.spec.chemistry);
    let amperes = k * cells.amp_hours / case.project.brief.power.recharge.0;
    let power = amperes * f64::from(cells.count) * charge_volts(device.spec.chemistry);
    (power, power * (k - 1.0) / k)
}

/// Power at every node of a network, W.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Flow {
    /// What each node takes from all that feeds it.
    pub taken: Vec<f64>,
    /// What each node hands on.
    pub given: Vec<f64>,
    /// What each node loses in converting.
    pub lost: Vec<f64>,
}

/// Under what the power flows.
pub struct Conditions<'s> {
    /// The draw of devices.
    pub draw: Draw,
    /// What each climate unit draws, W.
    pub unit: &'s dyn Fn(ItemId) -> f64,
    /// Whether batteries are on charge.
    pub charging: bool,
    /// Which nodes are live; none: all.
    pub live: Option<&'s [bool]>,
    /// Whether what is on for a short time only is on.
    pub momentary: bool,
}

impl Conditions<'_> {
    /// Over how many live inputs a device draws.
    fn inputs(&self, network: &Network, id: ItemId) -> f64 {
        let live = |at: &usize| self.live.is_none_or(|live| live[*at]) && !network.nodes[*at].feeds.is_empty();
        let draws = |input: Fed| network.node_of(input).filter(live).is_some();
        if draws(Fed::Device(id)) && draws(Fed::Second(id)) { 2.0 } else { 1.0 }
    }

    fn device(&self, device: &PlacedDevice<'_>) -> f64 {
        match self.draw {
            _ if device.spec.electrical.momentary && !self.momentary => 0.0,
            Draw::Most => device.spec.worst_power().0,
            Draw::Ordinary => device.spec.power.0,
        }
    }
}

impl Flow {
    /// With this draw of devices, these draws of climate units, and batteries on charge or not, while there is supply.
    #[must_use]
    pub fn of(case: &Case, draw: Draw, units: &[UnitDraw], charging: bool) -> Self {
        let unit = |id| units.iter().filter(|unit| unit.of == id).map(|unit| unit.power).sum();
        Self::under(case, &Conditions { draw, unit: &unit, charging, live: None, momentary: true })
    }

    /// Under these conditions.
    #[must_use]
    pub fn under(case: &Case, conditions: &Conditions<'_>) -> Self {
        let network = &case.network;
        let none = vec![0.0; network.nodes.len()];
        let mut flow = Self { taken: none.clone(), given: none.clone(), lost: none };
        let feeds_bus = network.of_kind(NodeKind::Bus).any(|(_, bus)| !bus.feeds.is_empty());
        // A node stands after all that feeds it, so that from behind everything that it feeds is known.
        for (index, node) in network.nodes.iter().enumerate().rev() {
            if conditions.live.is_some_and(|live| !live[index]) {
                continue;
            }
            let device = node.item().and_then(|id| case.device(id));
            let own = match (node.of, device) {
                (Some(_), Some(device)) if node.kind == NodeKind::Battery => {
                    let charged = if conditions.charging && feeds_bus { recharge_power(case, device).0 } else { 0.0 };
                    charged + conditions.device(device)
                }
                (Some(Fed::Unit(id)), _) => (conditions.unit)(id),
                (Some(_), Some(device)) if device.spec.electrical.two_inputs => {
                    conditions.device(device) / conditions.inputs(network, device.fitted.id)
                }
                (Some(_), Some(device)) => conditions.device(device),
                _ => 0.0,
            };
            let mut handed = flow.given[index];
            if let Some(converts) =
                device.and_then(|device| device.spec.converts).filter(|_| node.kind != NodeKind::Load)
            {
                handed = handed.min(converts.rating.0);
                // losses = P_out · (1/η − 1)
                flow.lost[index] = handed * (1.0 / converts.efficiency - 1.0);
            }
            flow.given[index] = handed;
            flow.taken[index] = own + handed + flow.lost[index];
            let taken = flow.taken[index];
            for (from, share) in shares(case, network, index) {
                flow.given[from] += taken * share;
            }
        }
        flow
    }
}

/// How much of what a node takes comes from each of its feeds while the service is there: batteries and generator give
/// nothing, rectifiers share by their ratings, and of other feeds the first gives all.
fn shares(case: &Case, network: &Network, index: usize) -> Vec<(usize, f64)> {
    let node = &network.nodes[index];
    if node.kind != NodeKind::Bus {
        return node.feeds.first().map(|feed| (feed.from, 1.0)).into_iter().collect();
    }
    let rating = |from: usize| {
        let device = network.nodes[from].item().and_then(|id| case.device(id));
        device.and_then(|device| device.spec.converts).map_or(0.0, |converts| converts.rating.0)
    };
    let of_kind = |kind: NodeKind| move |from: &usize| network.nodes[*from].kind == kind;
    let feeds = || node.feeds.iter().map(|feed| feed.from);
    let rectifiers: Vec<usize> = feeds().filter(of_kind(NodeKind::Rectifier)).collect();
    let all: f64 = rectifiers.iter().map(|from| rating(*from)).sum();
    if all > 0.0 {
        return rectifiers.into_iter().map(|from| (from, rating(from) / all)).collect();
    }
    feeds().filter(of_kind(NodeKind::Service)).map(|from| (from, 1.0)).collect()
}
