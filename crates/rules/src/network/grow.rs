//! How the network grows: sources first, then what hands power on, then what only uses it.

use std::collections::BTreeMap;

use catalogue::{Device, DeviceKind, Mount, Role, Supply};
use project::{ChosenFeed, Fed, ItemId, SiteSupply};

use super::sources::{PLANT, converter_gives, service, site_gives};
use super::{Electricity, Feed, Network, Node, NodeKind, Trouble};
use crate::{Case, PlacedDevice};

/// What the network is grown from, and how far it is.
struct Grower<'c, 'a> {
    case: &'c Case<'a>,
    site: SiteSupply,
    /// What each device is, in the order of the case; none when it is not placed or has no part in the network.
    kinds: Vec<Option<NodeKind>>,
    network: Network,
    /// Nodes that feed others, in the order of the network.
    hubs: Vec<usize>,
    /// Branches that hang on each node.
    branches: Vec<u32>,
    /// Where each device stands: its node, or none while it is just being connected.
    standing: BTreeMap<ItemId, Option<usize>>,
}

/// What feeds others, in the order in which it is connected: each may hang on those before it.
const HUBS: [NodeKind; 5] =
    [NodeKind::Rectifier, NodeKind::Converter, NodeKind::Inverter, NodeKind::Ups, NodeKind::Strip];

/// Grows the network of a case.
pub(super) fn grow(case: &Case) -> Network {
    let kind = |device: &PlacedDevice<'_>| device.space.and_then(|_| kind_of(device.spec));
    let mut grower = Grower {
        case,
        site: case.project.brief.supply,
        kinds: case.devices.iter().map(kind).collect(),
        network: Network::default(),
        hubs: Vec::new(),
        branches: Vec::new(),
        standing: BTreeMap::new(),
    };
    grower.entry();
    for kind in HUBS {
        // The bus hangs on the rectifiers, and what follows on the bus.
        for id in grower.placed(kind) {
            grower.device(id);
        }
        if kind == NodeKind::Rectifier {
            grower.plant();
        }
    }
    for index in 0..case.devices.len() {
        if grower.kinds[index].is_some() {
            grower.device(case.devices[index].fitted.id);
        }
    }
    for (fitted, spec) in &case.units {
        if spec.supply != Supply::None {
            grower.load(NodeKind::Unit, Fed::Unit(fitted.id), spec.supply, false);
        }
    }
    for (index, device) in case.devices.iter().enumerate() {
        if device.spec.electrical.two_inputs && grower.kinds[index] == Some(NodeKind::Load) {
            let second = Fed::Second(device.fitted.id);
            grower.load(NodeKind::Load, second, device.spec.supply, is_rack_load(device.spec));
        }
    }
    grower.network
}

/// What a device is in the network; none when it has no part in it.
fn kind_of(spec: &Device) -> Option<NodeKind> {
    let of_role = match &spec.electrical.role {
        Some(Role::Disconnect { .. }) => Some(NodeKind::Disconnect),
        Some(Role::SurgeProtector { .. }) => Some(NodeKind::Surge),
        Some(Role::LoadCentre { .. }) => Some(NodeKind::Panel),
        Some(Role::Outlet { .. }) => Some(NodeKind::Outlet),
        Some(Role::OutletStrip { .. }) => Some(NodeKind::Strip),
        Some(Role::GeneratorInlet { .. }) => Some(NodeKind::Inlet),
        Some(Role::Interlock { .. }) => Some(NodeKind::Interlock),
        Some(Role::JunctionBox) => Some(NodeKind::JunctionBox),
        Some(Role::Distribution { .. }) => Some(NodeKind::Distribution),
        Some(Role::LowVoltageDisconnect { .. }) => Some(NodeKind::CutOut),
        Some(Role::GroundBar { .. } | Role::AlarmBlock { .. } | Role::AlarmPoint { .. }) | None => None,
    };
    let from_direct = matches!(spec.supply, Supply::V48Dc | Supply::V24Dc);
    let of_conversion = spec.converts.map(|converts| match (from_direct, converts.to) {
        (true, to) if to.is_ac() => NodeKind::Inverter,
        (false, to) if to.is_ac() => NodeKind::Ups,
        (false, Supply::V48Dc) => NodeKind::Rectifier,
        _ => NodeKind::Converter,
    });
    let store = (spec.kind == DeviceKind::Battery).then_some(NodeKind::Battery);
    let draws = (spec.supply != Supply::None).then_some(NodeKind::Load);
    of_role.or(of_conversion).or(store).or(draws)
}

/// Whether it is plugged into a strip and carried by an uninterruptible supply or an inverter, where there is one: what
/// computes and switches is.
fn is_rack_load(spec: &Device) -> bool {
    matches!(spec.kind, DeviceKind::Compute | DeviceKind::Network)
        && matches!(spec.mount, Mount::Rack(_) | Mount::Shelf)
}

impl Grower<'_, '_> {
    fn push(&mut self, kind: NodeKind, of: Option<Fed>, feeds: Vec<Feed>) -> usize {
        for feed in &feeds {
            self.branches[feed.from] += 1;
        }
        let node = self.network.nodes.len();
        if !matches!(kind, NodeKind::Load | NodeKind::Unit) {
            self.hubs.push(node);
        }
        self.network.nodes.push(Node { kind, of, feeds });
        self.branches.push(0);
        node
    }

    fn placed(&self, kind: NodeKind) -> Vec<ItemId> {
        let of_kind = self.case.devices.iter().zip(&self.kinds).filter(|(_, of)| **of == Some(kind));
        of_kind.map(|(device, _)| device.fitted.id).collect()
    }

    /// Puts a device behind all of these nodes.
    fn behind(&mut self, kind: NodeKind, id: ItemId, from: &[usize], flows: Electricity) -> usize {
        let feeds = from.iter().map(|&from| Feed { from, flows, position: None, chosen: false }).collect();
        let node = self.push(kind, Some(Fed::Device(id)), feeds);
        self.standing.insert(id, Some(node));
        node
    }

    /// Service, junction box, disconnect, inlet, interlock, and the load centres.
    fn entry(&mut self) {
        let flows = service(self.site);
        let mut head = self.push(NodeKind::Service, None, Vec::new());
        for kind in [NodeKind::JunctionBox, NodeKind::Disconnect] {
            for id in self.placed(kind) {
                head = self.behind(kind, id, &[head], flows);
            }
        }
        if flows.is_direct() {
            return;
        }
        let mut sources = vec![head];
        for id in self.placed(NodeKind::Inlet) {
            let generator = self.push(NodeKind::Generator, None, Vec::new());
            sources.push(self.behind(NodeKind::Inlet, id, &[generator], flows));
        }
        for id in self.placed(NodeKind::Interlock) {
            sources = vec![self.behind(NodeKind::Interlock, id, &sources, flows)];
        }
        let mut first = None;
        for id in self.placed(NodeKind::Panel) {
            let panel = self.behind(NodeKind::Panel, id, &sources, flows);
            // Another load centre hangs on the first.
            sources = vec![*first.get_or_insert(panel)];
        }
    }

    /// The bus behind the rectifiers; strings, cut-outs and distribution on it.
    fn plant(&mut self) {
        let mut sources: Vec<usize> = self.network.of_kind(NodeKind::Rectifier).map(|(node, _)| node).collect();
        if service(self.site) == PLANT {
            sources.extend(self.hubs.last());
        }
        let stores = self.placed(NodeKind::Battery);
        if sources.is_empty() && stores.is_empty() {
            return;
        }
        let feed = |&from: &usize| Feed { from, flows: PLANT, position: None, chosen: false };
        let bus = self.push(NodeKind::Bus, None, sources.iter().map(feed).collect());
        let mut before_stores = bus;
        if !stores.is_empty() {
            for id in self.placed(NodeKind::CutOut) {
                before_stores = self.behind(NodeKind::CutOut, id, &[before_stores], PLANT);
            }
        }
        for id in stores {
            self.behind(NodeKind::Battery, id, &[before_stores], PLANT);
        }
        for id in self.placed(NodeKind::Distribution) {
            self.behind(NodeKind::Distribution, id, &[bus], PLANT);
        }
    }

    /// Connects a device, unless it stands already; its node.
    fn device(&mut self, id: ItemId) -> Option<usize> {
        if let Some(standing) = self.standing.get(&id) {
            return *standing;
        }
        let device = self.case.device(id)?;
        let spec = device.spec;
        let kind = kind_of(spec)?;
        // What hands power on without using any says nothing of what it runs on: outlets and protectors.
        let supply = match (&spec.electrical.role, spec.supply) {
            (Some(Role::SurgeProtector { .. }), Supply::None) => [Supply::V230Ac, Supply::V120Ac]
                .into_iter()
                .find(|supply| site_gives(self.site, *supply).is_some())
                .unwrap_or(Supply::V230Ac),
            (Some(Role::Outlet { .. }), Supply::None) => Supply::WideAc,
            (_, supply) => supply,
        };
        self.standing.insert(id, None);
        let node = self.load(kind, Fed::Device(id), supply, is_rack_load(spec) || kind == NodeKind::Strip);
        self.standing.insert(id, node);
        node
    }

    /// Connects an input to what the user chose or, if nothing, to the nearest that gives what it runs on.
    fn load(&mut self, kind: NodeKind, input: Fed, supply: Supply, carried: bool) -> Option<usize> {
        let chosen = self.case.project.build.feeds.iter().find(|feed| feed.load == input).copied();
        let feed = self.chosen(input, supply, chosen).or_else(|| self.found(kind, input, supply, carried));
        let Some(mut feed) = feed else {
            self.network.troubles.push(Trouble::NoSource(input));
            return Some(self.push(kind, Some(input), Vec::new()));
        };
        feed.position = chosen.and_then(|chosen| chosen.position);
        self.tell_if_full(input, feed.from);
        Some(self.push(kind, Some(input), vec![feed]))
    }

    fn tell_if_full(&mut self, input: Fed, from: usize) {
        if let Some(id) = self.network.nodes[from].item()
            && self.network.nodes[from].kind != NodeKind::Panel
            && self.is_full(from)
        {
            self.network.troubles.push(Trouble::Full(input, id));
        }
    }

    /// The feed that the user chose.
    fn chosen(&mut self, input: Fed, supply: Supply, chosen: Option<ChosenFeed>) -> Option<Feed> {
        let from = chosen?.from?;
        if self.standing.get(&from) == Some(&None) {
            self.network.troubles.push(Trouble::Loop(input, from));
            return None;
        }
        let node = self.device(from);
        let Some((node, flows)) = node.and_then(|node| Some((node, self.gives(node, supply)?))) else {
            self.network.troubles.push(Trouble::WrongSource(input, from));
            return None;
        };
        Some(Feed { from: node, flows, position: None, chosen: true })
    }

    /// What a node gives for something that runs on this.
    fn gives(&self, node: usize, supply: Supply) -> Option<Electricity> {
        let of = &self.network.nodes[node];
        match of.kind {
            NodeKind::Service
            | NodeKind::JunctionBox
            | NodeKind::Disconnect
            | NodeKind::Interlock
            | NodeKind::Panel => site_gives(self.site, supply),
            NodeKind::Bus | NodeKind::Distribution => (supply == Supply::V48Dc).then_some(PLANT),
            NodeKind::Ups | NodeKind::Inverter | NodeKind::Converter => {
                let spec = self.case.device(of.item()?)?.spec;
                converter_gives(spec.converts?.to, supply, self.site)
            }
            NodeKind::Strip => {
                let flows = of.feeds.first()?.flows;
                let fits = match supply {
                    Supply::WideAc => true,
                    Supply::V120Ac => flows.volts() < 150.0,
                    Supply::V230Ac => flows.volts() > 200.0,
                    Supply::None | Supply::V48Dc | Supply::V24Dc => false,
                };
                fits.then_some(flows)
            }
            // Rectifiers give to the bus, and everything else to nothing.
            _ => None,
        }
    }

    fn is_full(&self, node: usize) -> bool {
        let Some(id) = self.network.nodes[node].item() else { return false };
        let role = self.case.device(id).and_then(|device| device.spec.electrical.role.as_ref());
        role.and_then(Role::positions).is_some_and(|positions| self.branches[node] >= positions)
    }

    /// The nearest that gives what an input runs on.
    fn found(&self, kind: NodeKind, input: Fed, supply: Supply, carried: bool) -> Option<Feed> {
        let before: &[NodeKind] = match (carried, kind) {
            (false, _) => &[],
            (true, NodeKind::Strip) => &[NodeKind::Ups, NodeKind::Inverter],
            (true, _) => &[NodeKind::Strip, NodeKind::Ups, NodeKind::Inverter],
        };
        // A second input is fed from another one than the first, where there is one.
        let first = match input {
            Fed::Second(id) => self.standing.get(&id).copied().flatten(),
            Fed::Device(_) | Fed::Unit(_) => None,
        };
        let first = first.and_then(|node| self.network.nodes[node].feeds.first()).map(|feed| feed.from);
        for wanted in before.iter().chain(&NEAREST) {
            let gives: Vec<(usize, Electricity)> = self
                .hubs
                .iter()
                .filter(|node| self.network.nodes[**node].kind == *wanted)
                .filter_map(|node| Some((*node, self.gives(*node, supply)?)))
                .collect();
            let free = || gives.iter().filter(|(node, _)| !self.is_full(*node));
            let pick = free().find(|(node, _)| Some(*node) != first).or_else(|| free().next());
            // Strips are left alone when they are full; anything else is told to be.
            let last = gives.last().filter(|_| *wanted != NodeKind::Strip);
            if let Some(&(from, flows)) = pick.or(last) {
                return Some(Feed { from, flows, position: None, chosen: false });
            }
        }
        None
    }
}

/// From what loads are fed by themselves, the nearest first.
const NEAREST: [NodeKind; 9] = [
    NodeKind::Distribution,
    NodeKind::Bus,
    NodeKind::Panel,
    NodeKind::Interlock,
    NodeKind::Disconnect,
    NodeKind::JunctionBox,
    NodeKind::Service,
    NodeKind::Converter,
    NodeKind::Inverter,
];
