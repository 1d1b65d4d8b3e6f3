use catalogue::{Conversion, Device, DeviceKind, Electrical, Role, Supply};
use project::{ChosenFeed, Fed, ItemId, Place, SiteSupply};
use units::{Amperes, Watts};

use super::*;
use crate::heat::heat_sources::Draw;
use crate::heat::testing::{Desk, device, rack};

fn with_role(role: Role) -> Device {
    Device {
        kind: DeviceKind::Power,
        electrical: Electrical { role: Some(role), ..Electrical::default() },
        ..device(1)
    }
}

fn panel() -> Device {
    with_role(Role::LoadCentre { positions: 12, amperes: Amperes(100.0), interrupts: Amperes(10_000.0) })
}

fn inlet() -> Device {
    with_role(Role::GeneratorInlet { amperes: Amperes(30.0), configuration: "L14-30".into() })
}

fn interlock() -> Device {
    with_role(Role::Interlock { amperes: Amperes(100.0) })
}

fn distribution(ways: u32) -> Device {
    with_role(Role::Distribution { ways, amperes: Amperes(100.0) })
}

fn converter(from: Supply, to: Supply) -> Device {
    let converts = Some(Conversion { to, rating: Watts(2000.0), efficiency: 0.9 });
    Device { kind: DeviceKind::Power, supply: from, converts, ..device(1) }
}

fn load(watts: f64, supply: Supply) -> Device {
    Device { power: Watts(watts), supply, ..device(1) }
}

fn battery() -> Device {
    Device { kind: DeviceKind::Battery, ..device(1) }
}

fn desk(devices: Vec<Device>) -> Desk {
    let mut desk = Desk::new();
    for (at, device) in devices.into_iter().enumerate() {
        desk.add(device, rack(0, at as u32 + 1));
    }
    desk
}

/// The kinds from a device up to its source, by the first feed of each.
fn way(desk: &Desk, input: Fed) -> Vec<NodeKind> {
    desk.with(|case| {
        let mut kinds = Vec::new();
        let mut at = case.network.node_of(input);
        while let Some(node) = at {
            kinds.push(case.network.nodes[node].kind);
            at = case.network.nodes[node].feeds.first().map(|feed| feed.from);
        }
        kinds
    })
}

#[track_caller]
fn check(devices: Vec<Device>, of: u32, expected: &[NodeKind]) {
    assert_eq!(way(&desk(devices), Fed::Device(ItemId(of))), expected);
}

use NodeKind::*;

#[test]
fn an_alternating_load_hangs_on_the_load_centre() {
    check(vec![panel(), load(60.0, Supply::V120Ac)], 2, &[Load, Panel, Service]);
    check(vec![load(60.0, Supply::V120Ac)], 1, &[Load, Service]);
}

#[test]
fn computers_hang_on_the_uninterruptible_supply_and_on_strips_behind_it() {
    let ups = || converter(Supply::V120Ac, Supply::V120Ac);
    let strip =
        Device { supply: Supply::WideAc, ..with_role(Role::OutletStrip { amperes: Amperes(15.0), outlets: 8 }) };
    check(vec![load(60.0, Supply::WideAc), ups(), panel()], 1, &[Load, Ups, Panel, Service]);
    check(vec![load(60.0, Supply::WideAc), strip, ups(), panel()], 1, &[Load, Strip, Ups, Panel, Service]);
}

#[test]
fn direct_loads_hang_on_distribution_bus_and_rectifiers() {
    let rectifier = converter(Supply::WideAc, Supply::V48Dc);
    let all = vec![load(60.0, Supply::V48Dc), distribution(10), rectifier.clone(), panel(), battery()];
    check(all, 1, &[Load, Distribution, Bus, Rectifier, Panel, Service]);
    check(vec![load(60.0, Supply::V48Dc), rectifier], 1, &[Load, Bus, Rectifier, Service]);
}

#[test]
fn direct_loads_hang_on_distribution_where_the_site_gives_direct_current_too() {
    let mut desk = desk(vec![load(60.0, Supply::V48Dc), distribution(10)]);
    desk.project.brief.supply = SiteSupply::Remote48Dc;
    assert_eq!(way(&desk, Fed::Device(ItemId(1))), [Load, Distribution, Bus, Service]);
}

#[test]
fn a_generator_comes_in_through_the_interlock() {
    let desk = desk(vec![inlet(), interlock(), panel()]);
    desk.with(|case| {
        let (_, panel) = case.network.of_kind(Panel).next().unwrap();
        let interlock = &case.network.nodes[panel.feeds[0].from];
        let sources: Vec<NodeKind> = interlock.feeds.iter().map(|feed| case.network.nodes[feed.from].kind).collect();
        assert_eq!((panel.feeds.len(), interlock.kind, sources), (1, Interlock, vec![Service, Inlet]));
    });
}

#[test]
fn what_nothing_feeds_is_told() {
    for (supply, site) in [
        (Supply::V48Dc, SiteSupply::SplitPhase120240),
        (Supply::V230Ac, SiteSupply::ThreePhase208),
        (Supply::V120Ac, SiteSupply::Remote48Dc),
        (Supply::V24Dc, SiteSupply::Remote48Dc),
    ] {
        let mut desk = desk(vec![load(60.0, supply)]);
        desk.project.brief.supply = site;
        let troubles = desk.with(|case| case.network.troubles.clone());
        assert_eq!(troubles, [Trouble::NoSource(Fed::Device(ItemId(1)))], "{supply:?} at {site:?}");
    }
}

#[test]
fn a_chosen_feed_is_kept_to_unless_it_loops_or_does_not_fit() {
    let devices = vec![
        load(60.0, Supply::WideAc),
        converter(Supply::V120Ac, Supply::V120Ac),
        panel(),
        distribution(10),
        converter(Supply::WideAc, Supply::V48Dc),
    ];
    let tried = |load: u32, from: u32| {
        let mut desk = desk(devices.clone());
        let load = Fed::Device(ItemId(load));
        desk.project.build.feeds = vec![ChosenFeed { load, from: Some(ItemId(from)), position: Some(4) }];
        let (kind, position) = desk.with(|case| {
            let feed = case.network.nodes[case.network.node_of(load).unwrap()].feeds[0];
            (case.network.nodes[feed.from].kind, feed.position)
        });
        assert_eq!(position, Some(4));
        (kind, desk.with(|case| case.network.troubles.clone()))
    };
    let input = |id| Fed::Device(ItemId(id));
    assert_eq!(tried(1, 3), (Panel, vec![]));
    assert_eq!(tried(1, 4), (Ups, vec![Trouble::WrongSource(input(1), ItemId(4))]));
    // The supply fed from what it feeds: told, and fed as by itself.
    assert_eq!(tried(2, 1), (Panel, vec![Trouble::WrongSource(input(2), ItemId(1))]));
    let mut looped = desk(vec![converter(Supply::V120Ac, Supply::V120Ac), converter(Supply::V120Ac, Supply::V120Ac)]);
    let feed = |load: u32, from: u32| ChosenFeed { load: input(load), from: Some(ItemId(from)), position: None };
    looped.project.build.feeds = vec![feed(1, 2), feed(2, 1)];
    let troubles = looped.with(|case| case.network.troubles.clone());
    assert_eq!(troubles, [Trouble::Loop(input(2), ItemId(1))]);
}

#[test]
fn a_full_distribution_is_told_and_another_one_is_used_first() {
    let loads = || vec![load(1.0, Supply::V48Dc), load(2.0, Supply::V48Dc), converter(Supply::WideAc, Supply::V48Dc)];
    let troubles = |more: Vec<Device>| {
        let devices = loads().into_iter().chain(more).collect();
        desk(devices).with(|case| case.network.troubles.clone())
    };
    assert_eq!(troubles(vec![distribution(1)]), [Trouble::Full(Fed::Device(ItemId(2)), ItemId(4))]);
    assert_eq!(troubles(vec![distribution(1), distribution(1)]), []);
}

#[test]
fn two_inputs_hang_on_two_sources_and_share_the_load() {
    let two = Electrical { two_inputs: true, ..Electrical::default() };
    let load = Device { electrical: two, ..load(100.0, Supply::V48Dc) };
    let devices = vec![load, distribution(4), distribution(4), converter(Supply::WideAc, Supply::V48Dc)];
    desk(devices).with(|case| {
        let flow = Flow::of(case, Draw::Most, &[], false);
        let given: Vec<f64> = case.network.of_kind(Distribution).map(|(node, _)| flow.given[node]).collect();
        assert_eq!(given, [50.0, 50.0]);
    });
}

#[test]
fn what_the_source_gives_is_what_loads_and_losses_take() {
    let devices = vec![
        load(300.0, Supply::V48Dc),
        converter(Supply::V48Dc, Supply::V24Dc),
        load(90.0, Supply::V24Dc),
        converter(Supply::WideAc, Supply::V48Dc),
        load(70.0, Supply::V120Ac),
        panel(),
    ];
    desk(devices).with(|case| {
        let flow = Flow::of(case, Draw::Most, &[], false);
        // 24 V: 90 / 0.9 = 100; plant: (300 + 100) / 0.9 = 444.4; and 70 of alternating current.
        assert!((flow.given[0] - (400.0 / 0.9 + 70.0)).abs() < 1e-9, "{}", flow.given[0]);
        assert!((flow.lost.iter().sum::<f64>() - (flow.given[0] - 460.0)).abs() < 1e-9);
    });
}

#[test]
fn what_is_not_placed_has_no_part_in_it() {
    let mut desk = Desk::new();
    desk.add(load(60.0, Supply::V48Dc), Place::Unplaced);
    desk.with(|case| assert_eq!((case.network.nodes.len(), case.network.troubles.len()), (1, 0)));
}

#[test]
fn what_hangs_on_a_battery_outlasts_the_supply() {
    let outlasts = |devices: Vec<Device>, of: u32| {
        desk(devices).with(|case| {
            let node = case.network.node_of(Fed::Device(ItemId(of))).unwrap();
            case.network.outlasts(case, node)
        })
    };
    let rectifier = || converter(Supply::WideAc, Supply::V48Dc);
    assert!(outlasts(vec![load(1.0, Supply::V48Dc), rectifier(), battery()], 1));
    assert!(!outlasts(vec![load(1.0, Supply::V48Dc), rectifier()], 1));
    assert!(!outlasts(vec![load(1.0, Supply::V120Ac), rectifier(), battery()], 1));
    assert!(outlasts(
        vec![load(1.0, Supply::V120Ac), converter(Supply::V48Dc, Supply::V120Ac), rectifier(), battery()],
        1
    ));
}

#[test]
fn every_cable_between_two_things_in_place_has_a_way() {
    let devices =
        vec![panel(), load(60.0, Supply::V120Ac), converter(Supply::WideAc, Supply::V48Dc), load(9.0, Supply::V48Dc)];
    desk(devices).with(|case| {
        // Service to load centre; load centre to load and rectifiers; rectifiers, which are the bus, to their load.
        let ways = case.network.ways(case);
        assert_eq!(ways.len(), 4);
        assert!(ways.iter().all(|way| way.length() > 0.0));
    });
}
