//! **B04 `rectifier-capacity`** – do the rectifiers carry the load while they recharge, with a module out?
//!
//! Σ P_r − P_module ≥ P_load + P_recharge;  N = ⌈(P_load + P_recharge) / P_module⌉ + 1
//!
//! - P_r         rating of each shelf of rectifiers                          [W]
//! - P_module    rating of the largest module, where one may fail            [W]
//! - P_load      all that the bus feeds at once, at its most                 [W]
//! - P_recharge  what charges the strings from empty in the time asked       [W]
//! - N           modules that it takes                                       [–]
//!
//! Source:      the ceiling rule; charge to be given back as `network::flow`, from memory.
//! Valid for:   rectifiers that share by their ratings.
//! Agreement:   tests/published/backup.toml, T09-03, exact.
//! Not covered: derating of modules in heat.

use project::SiteSupply;
use units::Kind;

use super::formulas::modules::needed;
use super::loads::on_bus;
use super::words::watts;
use crate::network::{NodeKind, recharge_power};
use crate::power::all_fed::CAUTION;
use crate::sources::{CATALOGUE, CELLS, PRACTICE};
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, count};

/// A whole module may be out already.
const RESERVE: f64 = 0.95;

/// The check.
pub static CHECK: Check = Check {
    code: "B04",
    name: "rectifier-capacity",
    topic: Topic::Backup,
    question: "Do the rectifiers carry the load while they recharge, with a module out where one may fail?",
    formula: "Σ P_r − P_module ≥ P_load + P_recharge;  N = ⌈(P_load + P_recharge) / P_module⌉ + 1",
    symbols: &[
        Symbol { symbol: "P_r", meaning: "rating of each shelf of rectifiers", kind: Kind::Power },
        Symbol { symbol: "P_module", meaning: "rating of the largest module, where one may fail", kind: Kind::Power },
        Symbol { symbol: "P_load", meaning: "all that the bus feeds at once", kind: Kind::Power },
        Symbol { symbol: "P_recharge", meaning: "what charges the strings in the time asked", kind: Kind::Power },
        Symbol { symbol: "N", meaning: "modules that it takes", kind: Kind::Count },
    ],
    sources: &[&CATALOGUE, &CELLS, &PRACTICE],
    valid: "rectifiers that share by their ratings",
    leaves_out: "derating of modules in heat",
    caution: Some(CAUTION),
    asked: None,
    run,
};

/// What all rectifiers give, W, what the largest of their modules gives, W, and how many modules there are.
#[must_use]
pub fn rectifiers(case: &Case) -> (f64, f64, u32) {
    let mut all = (0.0, 0.0_f64, 0);
    for (_, node) in case.network.of_kind(NodeKind::Rectifier) {
        let device = node.item().and_then(|id| case.device(id));
        let Some((spec, converts)) = device.and_then(|device| Some((device.spec, device.spec.converts?))) else {
            continue;
        };
        let modules = spec.electrical.modules.unwrap_or(1).max(1);
        all.0 += converts.rating.0;
        all.1 = all.1.max(converts.rating.0 / f64::from(modules));
        all.2 += modules;
    }
    all
}

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    vec![case.lacking(check).unwrap_or_else(|| judge(check, case))]
}

fn judge(check: &Check, case: &Case) -> Finding {
    let subject = Subject::Supply;
    let brief = &case.project.brief;
    let (rated, module, modules) = rectifiers(case);
    let load = on_bus(case);
    let batteries = case.network.of_kind(NodeKind::Battery).filter_map(|(_, node)| case.device(node.item()?));
    let recharge: f64 = 0.0 + batteries.map(|device| recharge_power(case, device).0).sum::<f64>();
    if load + recharge <= 0.0 {
        return Finding::holds(check, subject, "nothing runs on the −48 V bus");
    }
    if modules == 0 && matches!(brief.supply, SiteSupply::Remote48Dc) {
        return Finding::holds(check, subject, "the plant elsewhere feeds the bus");
    }
    let out = if brief.power.redundant { module } else { 0.0 };
    let carries = rated - out;
    let mut steps = vec![
        Step::input("P_load", "all that the bus feeds at once, losses and growth included", watts(load)),
        Step::input(
            "P_recharge",
            Phrase::from("charging from empty within ").value(brief.power.recharge),
            watts(recharge),
        )
        .from_source(&CELLS),
        Step::input("n", "modules fitted", count(modules as usize)).from_source(&CATALOGUE),
        Step::input("Σ P_r", "rectifiers", watts(rated)).from_source(&CATALOGUE),
    ];
    let allowed = if brief.power.redundant { "a module that may fail" } else { "no module may fail" };
    steps.push(Step::input("P_module", allowed, watts(out)));
    let numbers = Phrase::new().number(watts(rated)).text(" − ").number(watts(out));
    steps.push(Step::computed("P", "what is carried then", "Σ P_r − P_module", numbers, watts(carries)));
    let takes = needed(load, recharge, module, brief.power.redundant);
    if let Some(takes) = takes {
        let numbers = Phrase::from("⌈(").number(watts(load)).text(" + ").number(watts(recharge)).text(") / ");
        let numbers = numbers.number(watts(module)).text(if brief.power.redundant { "⌉ + 1" } else { "⌉" });
        let formula = "⌈(P_load + P_recharge) / P_module⌉ + 1";
        steps.push(Step::computed("N", "modules of that size", formula, numbers, count(takes as usize)));
    }
    let mut finding = Finding::at_least(check, subject, watts(carries), watts(load + recharge), RESERVE).working(steps);
    finding = match takes {
        None => finding.because("no rectifier is fitted").help("Rectifiers would do"),
        Some(takes) if takes > modules => {
            let more = takes - modules;
            let word = if more == 1 { "module" } else { "modules" };
            finding.help(format!("{more} more {word} of that size would do"))
        }
        Some(_) => finding,
    };
    finding.help("A longer time to recharge would ask for less")
}

#[cfg(test)]
mod tests {
    use catalogue::Electrical;
    use project::SiteSupply;

    use super::super::testing::{direct, lead, plant, rectifier};
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, rack, step};

    fn shelf(rating: f64, modules: u32) -> catalogue::Device {
        catalogue::Device {
            electrical: Electrical { modules: Some(modules), ..Electrical::default() },
            ..rectifier(rating)
        }
    }

    /// 24 cells of 100 Ah in 24 h: 1.15 · 100 / 24 · 24 · 2.27 = 261.05 W, and a load.
    fn desk(load: f64, rating: f64, modules: u32) -> Desk {
        let mut desk = Desk::new();
        desk.add(shelf(rating, modules), rack(0, 1));
        desk.add(lead(24, 100.0), rack(0, 2));
        desk.add(direct(load), rack(0, 3));
        desk
    }

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, modules: f64) {
        let found = desk.run(&CHECK).remove(0);
        assert_eq!(found.outcome, outcome, "{found:?}");
        assert!((step(&found, "N") - modules).abs() < 1e-9, "{found:?}");
    }

    #[test]
    fn a_module_may_fail() {
        check(&desk(1000.0, 3000.0, 3), Outcome::Holds, 3.0);
        check(&desk(1700.0, 3000.0, 3), Outcome::Tight, 3.0);
        check(&desk(1738.0, 3000.0, 3), Outcome::Tight, 3.0);
        check(&desk(1740.0, 3000.0, 3), Outcome::Fails, 4.0);
    }

    #[test]
    fn where_none_may_fail_all_of_them_count() {
        let mut desk = desk(2730.0, 3000.0, 3);
        check(&desk, Outcome::Fails, 4.0);
        desk.project.brief.power.redundant = false;
        check(&desk, Outcome::Tight, 3.0);
    }

    #[test]
    fn says_so_where_nothing_feeds_or_draws() {
        let said = |desk: &Desk| {
            let found = desk.run(&CHECK).remove(0);
            (found.outcome, found.because.shown(units::System::Metric))
        };
        assert_eq!(said(&Desk::new()), (Outcome::Holds, "nothing runs on the −48 V bus".to_owned()));
        let mut bare = Desk::new();
        bare.add(lead(24, 100.0), rack(0, 1));
        bare.add(direct(10.0), rack(0, 2));
        assert_eq!(said(&bare), (Outcome::Fails, "no rectifier is fitted".to_owned()));
        bare.project.brief.supply = SiteSupply::Remote48Dc;
        assert_eq!(said(&bare), (Outcome::Holds, "the plant elsewhere feeds the bus".to_owned()));
        let mut grown = plant(vec![lead(24, 100.0)], vec![direct(1000.0)]);
        grown.project.brief.power.growth = 0.5;
        assert!((step(&grown.run(&CHECK)[0], "P_load") - 1500.0).abs() < 1e-9);
    }
}
