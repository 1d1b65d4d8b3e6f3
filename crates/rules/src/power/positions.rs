//! **P05 `positions`** – is there a place for every breaker, and does the bus bear them?
//!
//! n_taken ≤ n,  I ≤ I_bus
//!
//! - n_taken  positions that breakers take, or ways     [–]
//! - n        positions of the load centre, or ways     [–]
//! - n_spare  what is left                              [–]
//! - I        what its bus carries                      [A]
//! - I_bus    rated current of its bus                  [A]
//!
//! Source:      the loaded catalogue.
//! Valid for:   breakers of one position for each pole.
//! Not covered: breakers of half a position; which makes of breakers fit.

use units::{Amperes, Kind};

use super::all_fed::CAUTION;
use super::circuits::names::subject;
use super::circuits::{Circuit, Circuits, Misplaced, PanelSchedule, Run, is_line};
use crate::finding::worst_first;
use crate::network::NodeKind;
use crate::sources::{CATALOGUE, CODE_LOADS};
use crate::{Asked, Case, Check, Finding, Step, Subject, Symbol, Topic, count};

/// The check.
pub static CHECK: Check = Check {
    code: "P05",
    name: "positions",
    topic: Topic::Power,
    question: "Is there a place for every breaker, and does the bus bear them?",
    formula: "n_taken ≤ n; I ≤ I_bus",
    symbols: &[
        Symbol { symbol: "n_taken", meaning: "positions that breakers take, or ways", kind: Kind::Count },
        Symbol { symbol: "n", meaning: "positions of the load centre, or ways", kind: Kind::Count },
        Symbol { symbol: "n_spare", meaning: "what is left", kind: Kind::Count },
        Symbol { symbol: "I", meaning: "what its bus carries", kind: Kind::Current },
        Symbol { symbol: "I_bus", meaning: "rated current of its bus", kind: Kind::Current },
    ],
    sources: &[&CATALOGUE, &CODE_LOADS],
    valid: "breakers of one position for each pole; positions counted as load centres have it, odd on the left",
    leaves_out: "breakers of half a position; which makes of breakers fit",
    caution: Some(CAUTION),
    asked: Some(Asked::Supply),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let all = case.circuits();
    let mut findings = Vec::new();
    for panel in &all.panels {
        let about = super::circuits::names::node_name(case, panel.hub);
        findings.extend(places(check, all, panel).into_iter().map(|finding| finding.about(about.clone())));
        for conflict in &panel.conflicts {
            let circuit = &all.circuits[conflict.circuit];
            let why = match conflict.why {
                Misplaced::Beyond => format!("position {} and those its poles need are not there", conflict.position),
                Misplaced::Taken => format!("position {} is taken by another breaker", conflict.position),
            };
            let finding = Finding::fails(check, subject(case, circuit.node), why).about(super::about(case, circuit));
            findings.push(finding.help("Another position, or none at all, would do"));
        }
    }
    findings.extend((0..case.network.nodes.len()).filter_map(|hub| without_place(check, case, all, hub)));
    if findings.is_empty() {
        return vec![Finding::holds(check, Subject::Supply, "there is no breaker to place")];
    }
    worst_first(findings)
}

/// The circuits of a node whose breakers have no place; none when all have one.
fn without_place(check: &Check, case: &Case, all: &Circuits, hub: usize) -> Option<Finding> {
    let kind = case.network.nodes[hub].kind;
    let lacks = |circuit: &&Circuit| circuit.from == hub && circuit.run == Run::Branch && circuit.position.is_none();
    let mut lacking = all.circuits.iter().filter(lacks);
    let first = lacking.next()?;
    let more = lacking.count();
    let help = match kind {
        NodeKind::Panel | NodeKind::Distribution => "A larger one, or a second one, would do",
        NodeKind::Bus => "A direct-current distribution would do",
        kind if is_line(kind) && first.flows.is_direct() => "A direct-current distribution would do",
        kind if is_line(kind) => "A load centre would do",
        // What converts brings the breaker of its output along.
        _ => return None,
    };
    let why = match more {
        0 => "its breaker has no place".to_owned(),
        more => format!("its breaker and {more} more have no place"),
    };
    let finding = Finding::fails(check, subject(case, first.node), why).about(super::about(case, first));
    Some(finding.help(help))
}

/// Positions and bus of a load centre or a distribution.
fn places(check: &Check, all: &Circuits, panel: &PanelSchedule) -> [Finding; 2] {
    let lacking: u32 = panel.without_place(all).map(|circuit| circuit.poles).sum();
    let taken = panel.taken(all) + lacking;
    let spare = panel.positions.saturating_sub(taken);
    let subject = Subject::Device(panel.device);
    let of = |number: u32| count(number as usize);
    let positions = Finding::at_most(check, subject, of(taken), of(panel.positions), 1.0).working(vec![
        Step::input("n_taken", "positions that breakers take", of(taken)),
        Step::input("n", "positions there are", of(panel.positions)).from_source(&CATALOGUE),
        Step::input("n_spare", "what is left", of(spare)),
    ]);
    let carried = all.of_node(panel.hub).map_or(0.0, |feeder| feeder.least_amperes);
    let bus = Finding::at_most(check, subject, Amperes(carried), Amperes(panel.bus), 1.0).working(vec![
        Step::input("I", "what its bus carries, what is continuous by 125 %", Amperes(carried))
            .from_source(&CODE_LOADS),
        Step::input("I_bus", "rated current of its bus", Amperes(panel.bus)).from_source(&CATALOGUE),
    ]);
    let help = "A larger one, or a second one, would do";
    [positions.help(help), bus.help(help)]
}

#[cfg(test)]
mod tests {
    use catalogue::{Device, Supply};
    use project::{ChosenFeed, Fed, ItemId, SiteSupply};

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::Desk;
    use crate::power::testing::{desk, distribution, load, near, panel, rectifier};

    fn with(first: Device, watts: f64, supply: Supply, loads: usize) -> Desk {
        desk(std::iter::once(first).chain(std::iter::repeat_n(load(watts, supply), loads)).collect())
    }

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, findings: usize) -> Finding {
        let mut found = desk.run(&CHECK);
        assert_eq!((found[0].outcome, found.len()), (outcome, findings), "{:?}", found[0].because);
        found.remove(0)
    }

    #[test]
    fn as_many_breakers_as_positions_fit() {
        check(&with(panel(12, 100.0), 60.0, Supply::V120Ac, 12), Outcome::Holds, 1);
        // One more: the load centre, and the load whose breaker has no place.
        check(&with(panel(12, 100.0), 60.0, Supply::V120Ac, 13), Outcome::Fails, 2);
        check(&with(panel(12, 100.0), 60.0, Supply::V230Ac, 6), Outcome::Holds, 1);
        check(&with(panel(12, 100.0), 60.0, Supply::V230Ac, 7), Outcome::Fails, 2);
    }

    #[test]
    fn the_bus_bears_its_rating() {
        let carrying = |va: f64| with(panel(12, 100.0), 0.95 * va, Supply::V230Ac, 1);
        let found = check(&carrying(19_200.0), Outcome::Holds, 1);
        near(found.given.unwrap().number, 100.0);
        check(&carrying(19_300.0), Outcome::Fails, 1);
    }

    #[test]
    fn ways_of_a_distribution_are_counted_too() {
        let devices = |ways: u32| {
            let mut desk = with(distribution(ways, 100.0), 48.0, Supply::V48Dc, 4);
            desk.add(rectifier(4000.0), crate::heat::testing::rack(0, 12));
            desk.add(panel(12, 100.0), crate::heat::testing::rack(0, 13));
            desk
        };
        assert_eq!(devices(4).run(&CHECK)[0].outcome, Outcome::Holds);
        assert_eq!(devices(3).run(&CHECK)[0].outcome, Outcome::Fails);
    }

    #[test]
    fn a_position_is_given_once_and_must_exist() {
        let asked = |positions: [u32; 2], supply: Supply| {
            let mut desk = with(panel(12, 100.0), 60.0, supply, 2);
            let feed =
                |(position, id)| ChosenFeed { load: Fed::Device(ItemId(id)), from: None, position: Some(position) };
            desk.project.build.feeds = positions.into_iter().zip(2..).map(feed).collect();
            desk
        };
        check(&asked([5, 7], Supply::V120Ac), Outcome::Holds, 1);
        let found = check(&asked([5, 5], Supply::V120Ac), Outcome::Fails, 1);
        assert_eq!(found.because.shown(units::System::Metric), "position 5 is taken by another breaker");
        check(&asked([12, 13], Supply::V120Ac), Outcome::Fails, 1);
        check(&asked([12, 0], Supply::V120Ac), Outcome::Fails, 1);
        // Two poles at 10 take 12 as well; at 11 they would need 13.
        check(&asked([9, 10], Supply::V230Ac), Outcome::Holds, 1);
        check(&asked([9, 11], Supply::V230Ac), Outcome::Fails, 1);
    }

    #[test]
    fn breakers_need_something_that_holds_them() {
        let lone = desk(vec![load(60.0, Supply::V120Ac)]);
        let found = check(&lone, Outcome::Fails, 1);
        assert_eq!(found.help[0].shown(units::System::Metric), "A load centre would do");
        let mut direct = desk(vec![load(60.0, Supply::V48Dc)]);
        direct.project.brief.supply = SiteSupply::Remote48Dc;
        let found = check(&direct, Outcome::Fails, 1);
        assert_eq!(found.help[0].shown(units::System::Metric), "A direct-current distribution would do");
        let two = check(&desk(vec![load(60.0, Supply::V120Ac), load(60.0, Supply::V120Ac)]), Outcome::Fails, 1);
        assert_eq!(two.because.shown(units::System::Metric), "its breaker and 1 more have no place");
        check(&Desk::new(), Outcome::Holds, 1);
    }
}
