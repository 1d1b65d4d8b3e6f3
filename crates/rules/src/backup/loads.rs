//! What draws from the strings while the supply is away.
//!
//! Everything that the bus feeds goes on ([`crate::network::Network::outlasts`]): through distribution, converters and
//! inverters with their losses, with climate units on direct current, and whole where its other input is dead.
//!
//! P_bat = (Σ P_device + Σ losses + max(Σ P_cool, Σ P_heat)) · (1 + growth)

use catalogue::UnitSort;
use project::{Fed, ItemId};

use crate::heat::heat_sources::Draw;
use crate::network::{Conditions, Flow, NodeKind};
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
        let outlasting = live(case, true);
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
fn at_bus(case: &Case, live: &[bool], draw: Draw, momentary: bool, heats: bool) -> f64 {
    let unit = |id| unit_draw(case, id, heats);
    bus(case).map_or(0.0, |bus| flow(case, live, draw, momentary, &unit).given[bus])
}

fn bus(case: &Case) -> Option<usize> {
    case.network.of_kind(NodeKind::Bus).next().map(|(bus, _)| bus)
}

/// What flows with these nodes live, W.
fn flow(case: &Case, live: &[bool], draw: Draw, momentary: bool, unit: &dyn Fn(ItemId) -> f64) -> Flow {
    Flow::under(case, &Conditions { draw, unit, charging: false, live: Some(live), momentary })
}

/// Heat that a device gives off while the supply is away.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KeptHeat {
    /// The device.
    pub id: ItemId,
    /// W, losses of conversion included.
    pub watts: f64,
}

/// Heat of all that goes on without supply at its most draw, with the strings on the bus or once these give no more. What is
/// on for a short time only is off; of what nobody has said what it runs on, nobody knows that it stops.
#[must_use]
pub fn kept_heats(case: &Case, strings: bool) -> Vec<KeptHeat> {
    let live = live(case, strings);
    let flow = flow(case, &live, Draw::Most, false, &|_| 0.0);
    let heat = |device: &PlacedDevice<'_>| {
        let id = device.fitted.id;
        let nodes: Vec<usize> =
            [Fed::Device(id), Fed::Second(id)].into_iter().filter_map(|input| case.network.node_of(input)).collect();
        let goes_on = nodes.is_empty() || nodes.iter().any(|node| live[*node]);
        let own = if goes_on && !device.spec.electrical.momentary { device.spec.worst_power().0 } else { 0.0 };
        let lost: f64 = nodes.iter().map(|node| flow.lost[*node]).sum();
        KeptHeat { id, watts: own * device.spec.heat_share + lost }
    };
    case.devices.iter().map(heat).collect()
}

/// What the strings give to the devices that go on, W, without climate units and growth.
#[must_use]
pub fn devices_on_strings(case: &Case) -> f64 {
    let live = live(case, true);
    bus(case).map_or(0.0, |bus| flow(case, &live, Draw::Most, false, &|_| 0.0).given[bus])
}

/// What the strings give for each watt that a climate unit draws; none when it does not hang on them.
#[must_use]
pub fn of_unit(case: &Case, id: ItemId) -> Option<f64> {
    let mut node = case.network.node_of(Fed::Unit(id))?;
    let mut times = 1.0;
    while case.network.nodes[node].kind != NodeKind::Bus {
        let of = &case.network.nodes[node];
        if let Some(converts) = of.item().and_then(|id| case.device(id)?.spec.converts) {
            times /= converts.efficiency;
        }
        node = of.feeds.first()?.from;
    }
    Some(times)
}

fn live(case: &Case, strings: bool) -> Vec<bool> {
    (0..case.network.nodes.len()).map(|node| case.network.goes_on(case, node, strings)).collect()
}

/// The most that a unit draws anywhere on its map, when it is one that heats, or one that does not.
fn unit_draw(case: &Case, id: ItemId, heats: bool) -> f64 {
    let unit = case.units.iter().find(|(fitted, spec)| fitted.id == id && (spec.sort == UnitSort::Heater) == heats);
    unit.map_or(0.0, |(_, spec)| spec.map.input.iter().flatten().copied().fold(0.0, f64::max))
}

#[cfg(test)]
mod tests {
    use catalogue::{Device, Electrical, Supply};
    use units::Watts;

    use super::super::testing::{converter, direct, lead, plant};
    use super::*;
    use crate::heat::testing::{Desk, device, rack};

    #[track_caller]
    fn check(desk: &Desk, lasting: f64, momentary: f64, ordinary: f64) {
        let found = desk.with(Loads::of);
        let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
        let as_expected =
            near(found.lasting, lasting) && near(found.momentary, momentary) && near(found.ordinary, ordinary);
        assert!(as_expected, "{found:?}");
    }

    fn unit(desk: &mut Desk, id: ItemId) {
        let part = desk.project.build.climate.iter().find(|fitted| fitted.id == id).unwrap().part.clone();
        desk.catalogue.units.get_mut(&part).unwrap().supply = Supply::V48Dc;
    }

    #[test]
    fn what_is_on_for_a_short_time_stands_apart() {
        let electrical = Electrical { momentary: true, ..Electrical::default() };
        let lamp = Device { electrical, ..direct(8.0) };
        let busy = Device { power_max: Some(Watts(150.0)), ..direct(100.0) };
        check(&plant(vec![lead(24, 100.0)], vec![busy, lamp]), 150.0, 8.0, 100.0);
        check(&plant(vec![], vec![direct(100.0)]), 0.0, 0.0, 0.0);
    }

    #[test]
    fn nobody_cools_and_heats_at_once() {
        let mut desk = plant(vec![lead(24, 100.0)], vec![direct(100.0)]);
        let (cooler, heater) = (desk.conditioner(1000.0, 0), desk.heater(300.0, 0));
        check(&desk, 100.0, 0.0, 100.0);
        unit(&mut desk, cooler);
        // It draws 200 W everywhere on its map, and the heater 300 W.
        check(&desk, 300.0, 0.0, 300.0);
        unit(&mut desk, heater);
        check(&desk, 400.0, 0.0, 400.0);
        assert_eq!(desk.with(|case| of_unit(case, cooler)), Some(1.0));
        assert!((desk.with(on_bus) - 400.0).abs() < 1e-9);
        assert!((desk.with(devices_on_strings) - 100.0).abs() < 1e-9);
    }

    #[test]
    fn heat_is_left_of_what_goes_on() {
        // 90 W behind an inverter of 90 %, 50 W of alternating current that stops, and the rectifiers, which stop too.
        let inverter = converter(Supply::V48Dc, Supply::V120Ac, 1000.0, 0.9);
        let kept = Device { power: Watts(90.0), supply: Supply::V120Ac, ..device(1) };
        let mut desk = plant(vec![lead(24, 100.0)], vec![inverter]);
        desk.add(kept, rack(0, 10));
        let heater = Device { power: Watts(50.0), supply: Supply::V230Ac, ..device(1) };
        desk.add(heater, rack(0, 12));
        let sum = |strings| desk.with(|case| kept_heats(case, strings).iter().map(|heat| heat.watts).sum::<f64>());
        let (with, without) = (sum(true), sum(false));
        assert!((with - 100.0).abs() < 1e-9 && without == 0.0, "{with} and {without}");
    }
}
