//! What draws from the strings while the supply is away.
//!
//! Everything that the bus feeds goes on ([`crate::network::Network::outlasts`]): through distribution, converters and
//! inverters with their losses, with climate units on direct current, and whole where its other input is dead.
//!
//! P_bat = (Σ P_device + Σ losses + max(Σ P_cool, Σ P_heat)) · (1 + growth)

use catalogue::UnitSort;
use project::{Fed, ItemId};

use crate::heat::heat_sources::Draw;
use crate::network::{Network, Node, NodeKind};
use crate::{Case, PlacedDevice};

/// Power that the strings give, W, growth included.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Loads {
    /// For hours on end, at the most draw.
    pub lasting: f64,
    /// Besides, what is on for less than three hours at a time.
    pub momentary: f64,
    /// What lasts, in ordinary use.
    pub ordinary: f64,
}

impl Loads {
    /// All of it at once.
    #[must_use]
    pub fn all(self) -> f64 {
        self.lasting + self.momentary
    }

    /// The loads of a case.
    #[must_use]
    pub fn of(case: &Case) -> Self {
        let outlasting: Vec<bool> =
            (0..case.network.nodes.len()).map(|node| case.network.outlasts(case, node)).collect();
        let growth = 1.0 + case.project.brief.power.growth.max(0.0);
        let drawn = |draw: Draw, momentary: bool| {
            let season = |heats: bool| at_bus(case, &outlasting, draw, momentary, heats);
            // Nobody cools and heats at once.
            season(false).max(season(true)) * growth
        };
        let lasting = drawn(Draw::Most, false);
        let momentary = (drawn(Draw::Most, true) - lasting).max(0.0);
        Self { lasting, momentary, ordinary: drawn(Draw::Ordinary, false) }
    }
}

/// All that the bus feeds at once at its most while the supply is there, W, growth included.
#[must_use]
pub fn on_bus(case: &Case) -> f64 {
    let all = vec![true; case.network.nodes.len()];
    let season = |heats: bool| at_bus(case, &all, Draw::Most, true, heats);
    season(false).max(season(true)) * (1.0 + case.project.brief.power.growth.max(0.0))
}

/// Devices that compute, switch or radiate, and stop as soon as the supply does.
#[must_use]
pub fn stopping(case: &Case) -> Vec<ItemId> {
    let stops = |device: &&PlacedDevice<'_>| {
        let id = device.fitted.id;
        let of_customer = matches!(device.spec.kind, catalogue::DeviceKind::Compute | catalogue::DeviceKind::Network);
        let inputs = || [Fed::Device(id), Fed::Second(id)].into_iter().filter_map(|input| case.network.node_of(input));
        of_customer && inputs().next().is_some() && !inputs().any(|node| case.network.outlasts(case, node))
    };
    case.devices.iter().filter(stops).map(|device| device.fitted.id).collect()
}

/// What the bus gives, W.
fn at_bus(case: &Case, outlasting: &[bool], draw: Draw, momentary: bool, heats: bool) -> f64 {
    let network = &case.network;
    let Some((bus, _)) = network.of_kind(NodeKind::Bus).next() else { return 0.0 };
    let mut given = vec![0.0; network.nodes.len()];
    // A node stands after all that feeds it; what stands before the bus is away.
    for index in (bus + 1..network.nodes.len()).rev() {
        if !outlasting[index] {
            continue;
        }
        let node = &network.nodes[index];
        let device = node.item().and_then(|id| case.device(id));
        let own = match (node.of, device) {
            (Some(Fed::Unit(id)), _) => unit_draw(case, id, heats),
            (Some(_), Some(device)) if device.spec.electrical.momentary && !momentary => 0.0,
            (Some(_), Some(device)) => device_draw(device, draw) / inputs(network, outlasting, node),
            _ => 0.0,
        };
        let mut handed: f64 = given[index];
        if let Some(converts) = device.and_then(|device| device.spec.converts).filter(|_| node.kind != NodeKind::Load) {
            handed = handed.min(converts.rating.0) / converts.efficiency;
        }
        if let Some(feed) = node.feeds.first() {
            given[feed.from] += own + handed;
        }
    }
    given[bus]
}

/// Over how many live inputs a device draws.
fn inputs(network: &Network, outlasting: &[bool], node: &Node) -> f64 {
    let live = |input: Fed| {
        let fed = |at: &usize| outlasting[*at] && !network.nodes[*at].feeds.is_empty();
        network.node_of(input).filter(fed).is_some()
    };
    node.item().map_or(1.0, |id| if live(Fed::Device(id)) && live(Fed::Second(id)) { 2.0 } else { 1.0 })
}

fn device_draw(device: &PlacedDevice<'_>, draw: Draw) -> f64 {
    match draw {
        Draw::Most => device.spec.worst_power().0,
        Draw::Ordinary => device.spec.power.0,
    }
}

/// The most that a unit draws anywhere on its map, when it is one that heats, or one that does not.
fn unit_draw(case: &Case, id: ItemId, heats: bool) -> f64 {
    let unit = case.units.iter().find(|(fitted, spec)| fitted.id == id && (spec.sort == UnitSort::Heater) == heats);
    unit.map_or(0.0, |(_, spec)| spec.map.input.iter().flatten().copied().fold(0.0, f64::max))
}
