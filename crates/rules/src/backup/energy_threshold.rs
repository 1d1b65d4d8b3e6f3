//! **B09 `energy-threshold`** – do the batteries stay below the energy from which the fire code asks for more?
//!
//! E = Σ n · V · C_r ≤ E_code
//!
//! - E       energy of all cells of a chemistry when new          [kWh]
//! - n       cells                                                [–]
//! - V       nominal voltage of a cell                            [V]
//! - C_r     rated capacity                                       [Ah]
//! - E_code  lithium 20 kWh; lead and nickel 70 kWh               [kWh]
//!
//! Source:      IFC 2021 and 2024, NFPA 855 of 2020 and 2023, as `assets/codes/fire-code.toml` holds them; the lowest counts.
//! Valid for:   stationary batteries of one fire area.
//! Agreement:   tests/published/backup.toml, T09-15 to T09-17, exact.
//! Not covered: what the code asks for above it; amendments of a state or town; other cabinets beside this one.
//!
//! Lead plants of telecommunication up to 60 V are exempt in part (from memory, to be confirmed). The reserve of a tenth is
//! common practice, no source.

use catalogue::Chemistry;
use units::Kind;

use super::LITHIUM_CAUTION;
use super::figures::figures;
use super::plant::{Gathered, unsaid_of};
use super::words::energy;
use crate::finding::worst_first;
use crate::power::code::fire_thresholds;
use crate::sources::{CATALOGUE, FIRE_CODE};
use crate::{Case, Check, Finding, Step, Subject, Symbol, Topic};

/// Share of the threshold above which it is tight.
const RESERVE: f64 = 0.9;

/// The check.
pub static CHECK: Check = Check {
    code: "B09",
    name: "energy-threshold",
    topic: Topic::Backup,
    question: "Do the batteries stay below the energy from which the fire code asks for more?",
    formula: "E = Σ n · V · C_r ≤ E_code",
    symbols: &[
        Symbol { symbol: "E", meaning: "energy of all cells of a chemistry when new", kind: Kind::Energy },
        Symbol { symbol: "n", meaning: "cells", kind: Kind::Count },
        Symbol { symbol: "V", meaning: "nominal voltage of a cell", kind: Kind::Voltage },
        Symbol { symbol: "C_r", meaning: "rated capacity", kind: Kind::Charge },
        Symbol { symbol: "E_code", meaning: "threshold of the fire code", kind: Kind::Energy },
    ],
    sources: &[&FIRE_CODE, &CATALOGUE],
    valid: "stationary batteries of one fire area",
    leaves_out: "what the code asks for above it; local amendments; other cabinets beside this one",
    caution: Some(LITHIUM_CAUTION),
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let subject = Subject::Supply;
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let gathered = Gathered::of(case);
    if let Some(&id) = gathered.unsaid.first() {
        return vec![Finding::needs_data(check, Subject::Device(id), unsaid_of(case, id))];
    }
    let mut findings = Vec::new();
    for chemistry in [Chemistry::Lithium, Chemistry::Lead, Chemistry::Nickel] {
        let held = gathered.energy(chemistry);
        if held <= 0.0 {
            continue;
        }
        let name = figures(chemistry).name;
        let Some(lowest) = fire_thresholds(chemistry).first() else {
            let why = format!("no edition of the fire code is held for {name}");
            findings.push(Finding::out_of_range(check, subject, why));
            continue;
        };
        let (allowed, source) = (lowest.value, lowest.source);
        let steps = vec![
            Step::input("E", format!("cells of {name}, when new"), energy(held)).from_source(&CATALOGUE),
            Step::input("E_code", "from here the fire code asks for more", energy(allowed)).from_source(source),
        ];
        let finding = Finding::at_most(check, subject, energy(held), energy(allowed), RESERVE);
        let help = "Fewer strings, or permits, distances and detection as the fire code asks";
        findings.push(finding.about(name).working(steps).help(help));
    }
    if findings.is_empty() {
        return vec![Finding::holds(check, subject, "no battery is fitted")];
    }
    worst_first(findings)
}

#[cfg(test)]
mod tests {
    use super::super::testing::{lead, lithium, plant};
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::Desk;

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, held: f64) {
        let found = desk.run(&CHECK).remove(0);
        assert_eq!(found.outcome, outcome, "{found:?}");
        assert!((found.given.unwrap().number - held).abs() < 1e-9, "{found:?}");
    }

    #[test]
    fn lithium_ends_at_20_and_lead_at_70() {
        // 16 · 3.2 V = 51.2 V
        check(&plant(vec![lithium(16, 351.0)], vec![]), Outcome::Holds, 17.9712);
        check(&plant(vec![lithium(16, 390.625)], vec![]), Outcome::Tight, 20.0);
        check(&plant(vec![lithium(16, 391.0)], vec![]), Outcome::Fails, 20.0192);
        check(&plant(vec![lead(24, 1312.0)], vec![]), Outcome::Holds, 62.976);
        check(&plant(vec![lead(24, 1459.0)], vec![]), Outcome::Fails, 70.032);
    }

    #[test]
    fn chemistries_are_judged_apart() {
        let both = plant(vec![lithium(16, 380.0), lead(24, 100.0)], vec![]);
        check(&both, Outcome::Tight, 19.456);
        assert_eq!(both.run(&CHECK).len(), 1);
    }

    #[test]
    fn no_battery_has_no_energy() {
        assert_eq!(Desk::new().run(&CHECK)[0].outcome, Outcome::Holds);
        let silent = catalogue::Device { chemistry: None, ..lead(24, 100.0) };
        assert_eq!(plant(vec![silent], vec![]).run(&CHECK)[0].outcome, Outcome::NeedsData);
    }
}
