//! **B07 `ups-runtime`** – does every uninterruptible supply carry its load, and long enough?
//!
//! P ≤ P_r;  t = E · S_age · η / P ≥ t_ask
//!
//! - P      all that it feeds at once, at its most            [W]
//! - P_r    its rating                                        [W]
//! - E      energy that it holds when new                     [Wh]
//! - S_age  share that is left at the end of life, 0.8        [–]
//! - η      share of it that comes out                        [–]
//! - t_ask  autonomy asked for                                [h]
//!
//! Source:      energy balance with the catalogue's figures; the end of life is practice, from memory.
//! Valid for:   a quarter of an hour or longer: below, cells give less than they hold, and the maker's curve decides.
//! Agreement:   tests/published/backup.toml, T09-11, by its formula.
//! Not covered: cold, in which its cells give less. A supply that a plant feeds lasts as long as that (B01).
//!
//! The reserve of a tenth is common practice, no source.

use project::ItemId;
use units::{Hours, Kind};

use super::figures::END_OF_LIFE;
use super::formulas::{peukert, runtime};
use super::words::{energy, hours, ratio, share, watts};
use crate::finding::worst_first;
use crate::heat::heat_sources::Draw;
use crate::network::{Flow, NodeKind};
use crate::power::all_fed::CAUTION;
use crate::sources::{CATALOGUE, CELLS};
use crate::{Asked, Case, Check, Finding, Outcome, Phrase, Step, Subject, Symbol, Topic};

/// Share of what is there above which it is tight.
const RESERVE: f64 = 0.9;

/// The check.
pub static CHECK: Check = Check {
    code: "B07",
    name: "ups-runtime",
    topic: Topic::Backup,
    question: "Does every uninterruptible supply carry its load, and long enough?",
    formula: "P ≤ P_r;  t = E · S_age · η / P ≥ t_ask",
    symbols: &[
        Symbol { symbol: "P", meaning: "all that it feeds at once", kind: Kind::Power },
        Symbol { symbol: "P_r", meaning: "its rating", kind: Kind::Power },
        Symbol { symbol: "E", meaning: "energy that it holds when new", kind: Kind::Energy },
        Symbol { symbol: "S_age", meaning: "share that is left at the end of life", kind: Kind::Share },
        Symbol { symbol: "η", meaning: "share of it that comes out", kind: Kind::Share },
        Symbol { symbol: "t_ask", meaning: "autonomy asked for", kind: Kind::Time },
    ],
    sources: &[&CATALOGUE, &CELLS],
    valid: "a quarter of an hour or longer",
    leaves_out: "cold; a supply that a plant feeds lasts as long as that (B01)",
    caution: Some(CAUTION),
    asked: Some(Asked::Autonomy),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let flow = Flow::of(case, Draw::Most, &[], false);
    let supplies = case.network.of_kind(NodeKind::Ups).filter_map(|(node, of)| Some((node, of.item()?)));
    let findings: Vec<Finding> = supplies.map(|(node, id)| judge(check, case, &flow, node, id)).collect();
    if findings.is_empty() {
        return vec![Finding::holds(check, Subject::Supply, "no uninterruptible supply is fitted")];
    }
    worst_first(findings)
}

fn judge(check: &Check, case: &Case, flow: &Flow, node: usize, id: ItemId) -> Finding {
    let subject = Subject::Device(id);
    let Some((device, converts)) = case.device(id).and_then(|device| Some((device, device.spec.converts?))) else {
        return Finding::needs_data(check, subject, "rating of an uninterruptible supply");
    };
    let about = case.name(device);
    let growth = 1.0 + case.project.brief.power.growth.max(0.0);
    let power = (0.0 + case.network.fed_by(node).map(|(fed, _)| flow.taken[fed]).sum::<f64>()) * growth;
    if power <= 0.0 {
        return Finding::holds(check, subject, "it feeds nothing").about(about);
    }
    let mut steps = vec![
        Step::input("P", "all that it feeds at once, growth included", watts(power)),
        Step::input("P_r", "its rating", converts.rating).from_source(&CATALOGUE),
    ];
    let rated = Finding::at_most(check, subject, watts(power), converts.rating, RESERVE).about(about.clone());
    let rated = rated.help("A larger one, or less load on it, would do");
    if rated.outcome == Outcome::Fails {
        return rated.because("it is overloaded").working(steps);
    }
    let asked = case.project.brief.power.autonomy.filter(|asked| asked.0 > 0.0);
    let plant_behind = case.network.nodes[node].feeds.iter().any(|feed| case.network.outlasts(case, feed.from));
    let Some(asked) = asked.filter(|_| !plant_behind) else {
        return rated.working(steps);
    };
    let Some(holds) = device.spec.electrical.holds else {
        return Finding::needs_data(check, subject, Phrase::from("energy that it holds: ").then(about.clone()))
            .about(about);
    };
    let Some(time) = runtime::hours(holds, END_OF_LIFE, converts.efficiency, power) else {
        return rated.working(steps);
    };
    steps.push(Step::input("E", "energy that it holds when new", energy(holds)).from_source(&CATALOGUE));
    steps.push(Step::input("S_age", "share at the end of life", share(END_OF_LIFE)).from_source(&CELLS));
    steps.push(Step::input("η", "share of it that comes out", share(converts.efficiency)).from_source(&CATALOGUE));
    if time < peukert::SHORTEST {
        let why = "it lasts less than a quarter of an hour, where the energy that it holds says little";
        if asked.0 < peukert::SHORTEST {
            return Finding::out_of_range(check, subject, why).about(about).working(steps);
        }
        return Finding::fails(check, subject, why).about(about).working(steps).help("A larger one would help");
    }
    let numbers = Phrase::new().number(energy(holds)).text(" × ").number(ratio(END_OF_LIFE)).text(" × ");
    let numbers = numbers.number(ratio(converts.efficiency)).text(" / ").number(watts(power));
    steps.push(Step::computed("t", "how long it lasts", "E · S_age · η / P", numbers, hours(time)));
    let lasts = Finding::at_least(check, subject, Hours(time), asked, RESERVE).about(about).working(steps);
    lasts.help("A larger one, less load, or a plant with an inverter would help")
}

#[cfg(test)]
mod tests {
    use catalogue::{Device, DeviceKind, Electrical, Supply};
    use units::Watts;

    use super::super::testing::converter;
    use super::*;
    use crate::heat::testing::{Desk, device, rack, step};

    /// A supply of 1000 W and 90 % that holds 500 Wh, and a computer on it.
    fn desk(load: f64, asked: Option<f64>, holds: Option<f64>) -> Desk {
        let mut desk = Desk::new();
        let ups = converter(Supply::V120Ac, Supply::V120Ac, 1000.0, 0.9);
        let electrical = Electrical { holds, ..Electrical::default() };
        desk.add(Device { electrical, ..ups }, rack(0, 1));
        let load = Device { kind: DeviceKind::Compute, power: Watts(load), supply: Supply::V120Ac, ..device(1) };
        desk.add(load, rack(0, 2));
        desk.project.brief.power.autonomy = asked.map(Hours);
        desk
    }

    #[track_caller]
    fn check(load: f64, asked: Option<f64>, outcome: Outcome) -> Finding {
        let found = desk(load, asked, Some(500.0)).run(&CHECK).remove(0);
        assert_eq!(found.outcome, outcome, "{found:?}");
        found
    }

    #[test]
    fn rating_and_runtime_are_held_against_the_load() {
        check(900.0, None, Outcome::Holds);
        check(901.0, None, Outcome::Tight);
        check(1001.0, None, Outcome::Fails);
        // 500 Wh · 0.8 · 0.9 / 360 W = 1 h
        let found = check(360.0, Some(1.0), Outcome::Tight);
        assert!((step(&found, "t") - 1.0).abs() < 1e-12);
        check(360.0, Some(0.9), Outcome::Holds);
        check(361.0, Some(1.0), Outcome::Fails);
    }

    #[test]
    fn below_a_quarter_of_an_hour_it_gives_no_figure() {
        // 360 Wh / 1440 W, but the rating ends at 1000 W: 500 Wh are too many; 300 Wh at 900 W last 0.24 h.
        let short = |asked| desk(900.0, Some(asked), Some(300.0)).run(&CHECK).remove(0);
        assert_eq!((short(0.1).outcome, short(0.1).given), (Outcome::OutOfRange, None));
        assert_eq!((short(1.0).outcome, short(1.0).given), (Outcome::Fails, None));
    }

    #[test]
    fn asks_for_its_energy_only_where_that_matters() {
        assert_eq!(desk(360.0, Some(1.0), None).run(&CHECK)[0].outcome, Outcome::NeedsData);
        assert_eq!(desk(360.0, None, None).run(&CHECK)[0].outcome, Outcome::Holds);
        assert_eq!(Desk::new().run(&CHECK)[0].outcome, Outcome::Holds);
    }
}
