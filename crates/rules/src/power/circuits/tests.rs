use catalogue::{Device, Electrical, Supply};
use project::{ChosenFeed, CodeEdition, Fed, ItemId, SiteSupply};
use proptest::prelude::*;
use units::{Celsius, Metres};

use super::names::{circuit_mark, mark, phase_letters};
use super::*;
use crate::heat::testing::Desk;
use crate::network::NodeKind;
use crate::power::code::Code;
use crate::power::testing::{desk, disconnect, distribution, inlet, load, near, outlet, panel, rectifier, strip};

/// Circuit of each load, by the name of its node: positions, phases, breaker, size.
#[track_caller]
fn check(desk: &Desk, node: &str, expected: (&[u32], &str, Option<f64>, Option<&str>)) {
    desk.with(|case| {
        let all = case.circuits();
        let circuit = all.circuits.iter().find(|circuit| mark(case, circuit.node) == node).unwrap();
        let positions: Vec<u32> = circuit.positions().collect();
        let size = circuit.wire.map(|wire| wire.size.name());
        assert_eq!((&positions[..], phase_letters(circuit).as_str(), circuit.breaker, size), expected, "{node}");
    });
}

#[test]
fn two_poles_stand_first_and_single_poles_balance_the_phases() {
    let loads = [
        load(950.0, Supply::V120Ac),
        load(600.0, Supply::V120Ac),
        load(500.0, Supply::V120Ac),
        load(1900.0, Supply::V230Ac),
    ];
    let desk = desk(std::iter::once(panel(12, 100.0)).chain(loads).collect());
    check(&desk, "L4", (&[1, 3], "AB", Some(15.0), Some("14 AWG")));
    // The largest on the first free place, the next two opposite it.
    check(&desk, "L1", (&[2], "A", Some(15.0), Some("14 AWG")));
    check(&desk, "L2", (&[4], "B", Some(15.0), Some("14 AWG")));
    check(&desk, "L3", (&[7], "B", Some(15.0), Some("14 AWG")));
}

#[test]
fn chosen_positions_are_kept_before_any_other() {
    let mut desk = desk(vec![panel(12, 100.0), load(60.0, Supply::V230Ac), load(60.0, Supply::V120Ac)]);
    desk.project.build.feeds = vec![ChosenFeed { load: Fed::Device(ItemId(3)), from: None, position: Some(3) }];
    check(&desk, "L2", (&[3], "B", Some(15.0), Some("14 AWG")));
    // 1 and 3 are no longer both free.
    check(&desk, "L1", (&[2, 4], "AB", Some(15.0), Some("14 AWG")));
}

#[test]
fn three_phases_take_rows_in_turn() {
    let mut desk =
        desk(vec![panel(12, 100.0), load(9.0, Supply::V120Ac), load(8.0, Supply::V120Ac), load(7.0, Supply::V120Ac)]);
    desk.project.brief.supply = SiteSupply::ThreePhase208;
    check(&desk, "L1", (&[1], "A", Some(15.0), Some("14 AWG")));
    check(&desk, "L2", (&[3], "B", Some(15.0), Some("14 AWG")));
    check(&desk, "L3", (&[5], "C", Some(15.0), Some("14 AWG")));
}

#[test]
fn what_is_continuous_counts_as_the_code_says() {
    for edition in [CodeEdition::E2017, CodeEdition::E2020, CodeEdition::E2023] {
        let factor = Code::of(edition).continuous_factor().map(|entry| entry.value);
        assert_eq!(factor, Some(loads::CONTINUOUS), "{edition:?}");
    }
}

#[test]
fn the_service_is_wired_for_what_can_switch_it_off() {
    let desk = desk(vec![panel(12, 100.0), disconnect(60.0), load(60.0, Supply::V120Ac)]);
    check(&desk, "SD1", (&[], "", Some(60.0), Some("6 AWG")));
    desk.with(|case| {
        let all = case.circuits();
        let runs: Vec<Run> = all.circuits.iter().map(|circuit| circuit.run).collect();
        assert_eq!(runs, [Run::Service, Run::Feeder, Run::Branch]);
        // Nothing is grounded by a conductor of its own before the disconnect.
        let grounds: Vec<bool> =
            all.circuits.iter().map(|circuit| circuit.wire.is_some_and(|wire| wire.ground.is_some())).collect();
        assert_eq!(grounds, [false, true, true]);
        assert_eq!(circuit_mark(case, &all.circuits[2]), "LC1-1");
    });
}

#[test]
fn warm_air_and_cool_terminals_ask_for_more() {
    let at = |hottest: f64, terminals: f64| {
        let mut desk = desk(vec![panel(12, 100.0), load(0.95 * 32.0 * 240.0, Supply::V230Ac)]);
        desk.project.brief.hottest = Celsius(hottest);
        desk.project.brief.power.terminals = Celsius(terminals);
        desk
    };
    // 40 A. At 30 °C: 8 AWG of 50 A, of 40 A in its column of 60 °C, and 10 AWG of 35 A at most for 30 A.
    check(&at(20.0, 75.0), "L1", (&[1, 3], "AB", Some(40.0), Some("8 AWG")));
    check(&at(20.0, 60.0), "L1", (&[1, 3], "AB", Some(40.0), Some("8 AWG")));
    // At 60 °C the column of 90 °C counts 0.71: 8 AWG 39 A, and 40 A is the next standard rating.
    check(&at(50.0, 75.0), "L1", (&[1, 3], "AB", Some(40.0), Some("8 AWG")));
    // At 70 °C 0.58: 8 AWG bears 31.9 A and not the 32 A of the load, so 6 AWG.
    check(&at(60.0, 75.0), "L1", (&[1, 3], "AB", Some(40.0), Some("6 AWG")));
}

#[test]
fn an_outlet_has_the_breaker_it_is_rated_for_and_counts_180_va() {
    let desk = desk(vec![panel(12, 100.0), outlet()]);
    check(&desk, "OUT1", (&[1], "A", Some(20.0), Some("12 AWG")));
    desk.with(|case| near(case.circuits().demand.other, 180.0));
}

#[test]
fn a_rectifier_is_wired_for_its_rating_and_counts_what_it_draws() {
    let desk = desk(vec![panel(12, 100.0), rectifier(6000.0), distribution(8, 150.0), load(960.0, Supply::V48Dc)]);
    // 6000 / 0.96 / 0.95 = 6579 VA; 1.25 · 6579 / 240 = 34.3 A.
    check(&desk, "REC1", (&[1, 3], "AB", Some(35.0), Some("8 AWG")));
    desk.with(|case| near(case.circuits().demand.continuous, 960.0 / 0.96 / 0.95));
}

#[test]
fn a_generator_and_its_inlet_carry_the_whole_load() {
    let desk = desk(vec![panel(12, 100.0), inlet(30.0), load(950.0, Supply::V230Ac)]);
    desk.with(|case| {
        let all = case.circuits();
        let inlet = all.circuits.iter().find(|circuit| circuit.run == Run::Inlet).unwrap();
        near(inlet.load.total(), 1000.0);
        assert_eq!(inlet.breaker, Some(30.0));
        // What the inlet brings is not counted twice.
        near(all.demand.total(), 1000.0);
    });
}

#[test]
fn colours_follow_code_and_country() {
    let colours = |supply: SiteSupply, runs_on: Supply| {
        let mut desk = desk(vec![panel(12, 100.0), load(60.0, runs_on)]);
        desk.project.brief.supply = supply;
        desk.with(|case| {
            let list = wire_list(case, case.circuits());
            let last = case.circuits().circuits.len() - 1;
            list.into_iter().filter(|wire| wire.circuit == last).map(|wire| wire.colour).collect::<Vec<_>>()
        })
    };
    assert_eq!(colours(SiteSupply::SplitPhase120240, Supply::V120Ac), ["black", "white", "green"]);
    assert_eq!(colours(SiteSupply::SplitPhase120240, Supply::V230Ac), ["black", "red", "green"]);
    assert_eq!(colours(SiteSupply::Single230, Supply::V230Ac), ["brown", "blue", "green-yellow"]);
    let plant = Electricity::Direct { volts: 48.0 };
    assert_eq!([Part::Live, Part::Return].map(|part| colour(plant, part)), ["blue", "black"]);
}

#[test]
fn every_alarm_and_bond_has_a_number_of_its_own() {
    let block = crate::power::testing::with_role("Block", catalogue::Role::AlarmBlock { terminals: 4 });
    let bar = crate::power::testing::with_role("Bar", catalogue::Role::GroundBar { places: 3 });
    let desk = desk(vec![block, bar, rectifier(2000.0), distribution(4, 100.0), panel(12, 100.0)]);
    desk.with(|case| {
        let alarms = alarms(case);
        let terminals: Vec<(u32, bool)> = alarms.iter().map(|alarm| (alarm.terminal, alarm.block.is_some())).collect();
        assert_eq!(terminals, [(1, true), (3, true), (5, false)]);
        let places: Vec<(u32, bool)> =
            ground_places(case).iter().map(|place| (place.place, place.bar.is_some())).collect();
        assert_eq!(places[..4], [(1, true), (2, true), (3, true), (1, false)]);
    });
}

#[test]
fn an_unknown_body_leaves_lengths_unknown() {
    let mut desk = desk(vec![panel(12, 100.0)]);
    desk.conditioner(1000.0, 0);
    desk.project.build.skin = "no-such".into();
    desk.with(|case| {
        assert!(case.circuits().circuits.iter().all(|circuit| circuit.length.is_none() && circuit.drop == 0.0));
        assert!(!case.circuits().circuits.is_empty());
    });
}

/// Loads of all sorts; the load centre is device 1, plant and strip follow.
fn build(loads: &[(f64, u8)], supply: SiteSupply, hottest: f64, run: f64) -> Desk {
    let two = Electrical { two_inputs: true, ..Electrical::default() };
    let mut devices = vec![panel(24, 200.0), rectifier(6000.0), distribution(24, 300.0), strip(15.0)];
    for (watts, sort) in loads {
        devices.push(match sort {
            0 => load(*watts, Supply::V120Ac),
            1 => load(*watts, Supply::V230Ac),
            2 => load(*watts, Supply::V48Dc),
            3 => load(*watts, Supply::WideAc),
            4 => Device { electrical: two.clone(), ..load(*watts, Supply::V48Dc) },
            _ => outlet(),
        });
    }
    let mut desk = desk(devices);
    desk.project.brief.supply = supply;
    desk.project.brief.hottest = Celsius(hottest);
    desk.project.brief.power.service_run = Metres(run);
    desk
}

fn supplies() -> impl Strategy<Value = SiteSupply> {
    prop::sample::select(vec![
        SiteSupply::SplitPhase120240,
        SiteSupply::Single120,
        SiteSupply::ThreePhase208,
        SiteSupply::Single230,
        SiteSupply::ThreePhase400,
        SiteSupply::Remote48Dc,
        SiteSupply::Remote24Dc,
    ])
}

fn any_loads() -> impl Strategy<Value = Vec<(f64, u8)>> {
    prop::collection::vec((prop_oneof![0.0..3000.0, 0.0..100_000.0], 0_u8..6), 0..20)
}

proptest! {
    #[test]
    fn the_total_of_a_schedule_is_that_of_its_loads(loads in any_loads(), supply in supplies()) {
        build(&loads, supply, 40.0, 10.0).with(|case| {
            let all = case.circuits();
            for panel in &all.panels {
                let feeder = all.of_node(panel.hub).map_or(0.0, |circuit| circuit.load.total());
                let (sum, own) = (panel.load(all), case.device(panel.device).map_or(0.0, |device| device.spec.power.0));
                prop_assert!((sum + own - feeder).abs() < 1e-6 * feeder.max(1.0), "{sum} of {feeder}");
                let phases: f64 = panel.phases.iter().sum();
                let placed: f64 = sum - panel.without_place(all).map(|circuit| circuit.load.total()).sum::<f64>();
                prop_assert!((phases - placed).abs() < 1e-6 * placed.max(1.0));
            }
            // And by hand, from the devices: what hangs on the service with its power factor of 0.95.
            let given = |device: &crate::PlacedDevice<'_>| {
                let node = case.network.node_of(Fed::Device(device.fitted.id)).map(|node| &case.network.nodes[node]);
                let from = node.and_then(|node| node.feeds.first()).filter(|feed| !feed.flows.is_direct());
                match node.map(|node| node.kind) {
                    Some(NodeKind::Load) if from.is_some() => device.spec.worst_power().0 / 0.95,
                    Some(NodeKind::Outlet) if from.is_some() => 180.0,
                    _ => 0.0,
                }
            };
            let by_hand: f64 = case.devices.iter().map(given).sum();
            let plant = case.network.of_kind(NodeKind::Rectifier).filter_map(|(node, _)| all.of_node(node));
            let by_plant: f64 = plant.map(|circuit| circuit.load.total()).sum();
            if phase_count(supply) > 1 || matches!(supply, SiteSupply::Single120 | SiteSupply::Single230) {
                let expected = by_hand + by_plant;
                prop_assert!((all.demand.total() - expected).abs() < 1e-6 * expected.max(1.0), "{} of {expected}", all.demand.total());
            }
            Ok(())
        })?;
    }

    #[test]
    fn every_conductor_is_protected(loads in any_loads(), supply in supplies(), hottest in -20.0..60.0, run in 0.0..1000.0) {
        build(&loads, supply, hottest, run).with(|case| {
            let code = Code::of(CodeEdition::default());
            for circuit in &case.circuits().circuits {
                let (Some(breaker), Some(wire)) = (circuit.breaker, circuit.wire) else { continue };
                let next = code.standard_rating(wire.ampacity).map(|entry| entry.value);
                prop_assert!(next.is_some_and(|next| breaker <= next), "{breaker} over {}", wire.ampacity);
                prop_assert!(wire.ampacity >= circuit.amperes && wire.terminal_ampacity >= circuit.least_amperes);
                if let Some(limit) = code.small_conductor_limit(wire.size, circuit.metal) {
                    prop_assert!(breaker <= limit.value);
                }
                if let Some(ground) = wire.ground {
                    prop_assert!(ground <= wire.size);
                }
                prop_assert!(circuit.drop.is_finite() && circuit.drop >= 0.0);
            }
            Ok(())
        })?;
    }

    #[test]
    fn moving_a_load_never_changes_the_total(loads in any_loads(), moved in 0_usize..20, position in 0_u32..30) {
        let mut desk = build(&loads, SiteSupply::SplitPhase120240, 40.0, 10.0);
        let total = |desk: &Desk| desk.with(|case| (case.circuits().demand, case.circuits().connected));
        let before = total(&desk);
        let load = Fed::Device(ItemId(5 + moved as u32));
        desk.project.build.feeds = vec![ChosenFeed { load, from: None, position: Some(position) }];
        prop_assert_eq!(total(&desk), before);
    }

    #[test]
    fn no_two_breakers_share_a_position(loads in any_loads(), supply in supplies(), asked in prop::collection::vec(0_u32..30, 0..6)) {
        let mut desk = build(&loads, supply, 40.0, 10.0);
        let feed = |(position, id): (u32, u32)| {
            ChosenFeed { load: Fed::Device(ItemId(id)), from: None, position: Some(position) }
        };
        desk.project.build.feeds = asked.into_iter().zip(5..).map(feed).collect();
        desk.with(|case| {
            let all = case.circuits();
            for panel in &all.panels {
                let mut taken: Vec<u32> =
                    panel.circuits.iter().flat_map(|index| all.circuits[*index].positions()).collect();
                let count = taken.len();
                taken.sort_unstable();
                taken.dedup();
                prop_assert_eq!(taken.len(), count);
                prop_assert!(taken.iter().all(|position| (1..=panel.positions).contains(position)));
            }
            Ok(())
        })?;
    }

    #[test]
    fn every_check_of_power_answers_whatever_is_built(loads in any_loads(), supply in supplies(), run in prop_oneof![Just(0.0), 0.0..10_000.0]) {
        build(&loads, supply, 45.0, run).with(|case| {
            for check in crate::WIRED {
                let findings = (check.run)(check, case);
                prop_assert!(!findings.is_empty(), "{}", check.code);
                for finding in findings {
                    let reason = finding.given.is_some() || !finding.because.is_empty();
                    prop_assert!(reason, "{} says nothing", check.code);
                    prop_assert!(finding.given.is_none_or(|given| given.number.is_finite()), "{}", check.code);
                }
            }
            Ok(())
        })?;
    }
}
