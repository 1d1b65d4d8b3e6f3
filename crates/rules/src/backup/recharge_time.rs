//! **B06 `recharge-time`** – are the strings charged again in the time asked, with the load on?
//!
//! I = min((Σ P_r − P_load) / (n · v), I_max);  t = k · Q / I ≤ t_ask
//!
//! - I       current into the strings                                      [A]
//! - P_r     rating of each shelf of rectifiers                            [W]
//! - P_load  all that the bus feeds at once, at its most                   [W]
//! - n, v    cells in series, voltage of one on charge                     [–, V]
//! - I_max   most that the cells are charged with                          [A]
//! - Q       charge taken: all that may be used                            [Ah]
//! - k       charge to give back for each Ah: lead 1.15, lithium 1.02, nickel 1.4    [–]
//! - t_ask   time asked for                                                [h]
//!
//! Source:      practice of plants, from memory, to be confirmed.
//! Valid for:   the bulk of a charge: the last tenth of lead takes longer than this says.
//! Agreement:   tests/published/backup.toml, T09-10, within 1 %.
//! Not covered: frost, in which lithium takes no charge (Y10).

use project::SiteSupply;
use units::{Hours, Kind};

use super::formulas::recharge;
use super::loads::on_bus;
use super::plant::Plant;
use super::rectifier_capacity::rectifiers;
use super::words::{amperes, charge, hours, no_plant, ratio, volts, watts};
use crate::network::{charge_factor, charge_volts};
use crate::power::all_fed::CAUTION;
use crate::sources::{CATALOGUE, CELLS, PRACTICE};
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// Share of the time above which it is tight. Common practice, no source.
const RESERVE: f64 = 0.9;

/// The check.
pub static CHECK: Check = Check {
    code: "B06",
    name: "recharge-time",
    topic: Topic::Backup,
    question: "Are the strings charged again in the time asked, with the load on?",
    formula: "I = min((Σ P_r − P_load) / (n · v), I_max);  t = k · Q / I ≤ t_ask",
    symbols: &[
        Symbol { symbol: "I", meaning: "current into the strings", kind: Kind::Current },
        Symbol { symbol: "P_r", meaning: "rating of each shelf of rectifiers", kind: Kind::Power },
        Symbol { symbol: "P_load", meaning: "all that the bus feeds at once", kind: Kind::Power },
        Symbol { symbol: "v", meaning: "voltage of a cell on charge", kind: Kind::Voltage },
        Symbol { symbol: "I_max", meaning: "most that the cells are charged with", kind: Kind::Current },
        Symbol { symbol: "Q", meaning: "charge taken", kind: Kind::Charge },
        Symbol { symbol: "k", meaning: "charge to give back for each Ah", kind: Kind::Ratio },
        Symbol { symbol: "t_ask", meaning: "time asked for", kind: Kind::Time },
    ],
    sources: &[&CELLS, &CATALOGUE, &PRACTICE],
    valid: "the bulk of a charge: the last tenth of lead takes longer",
    leaves_out: "frost, in which lithium takes no charge (Y10)",
    caution: Some(CAUTION),
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    vec![case.lacking(check).unwrap_or_else(|| judge(check, case))]
}

fn judge(check: &Check, case: &Case) -> Finding {
    let subject = Subject::Supply;
    let plant = match Plant::of(case) {
        Ok(plant) => plant,
        Err(why) => return no_plant(check, why),
    };
    let (rated, _, modules) = rectifiers(case);
    if modules == 0 && matches!(case.project.brief.supply, SiteSupply::Remote48Dc) {
        return Finding::holds(check, subject, "the plant elsewhere charges them");
    }
    let asked = case.project.brief.power.recharge;
    let load = on_bus(case);
    let of_cell = charge_volts(Some(plant.chemistry));
    let left = (rated - load) / plant.volts(of_cell);
    let current = left.min(plant.charge_limit);
    let taken = plant.amp_hours * plant.figures().used;
    let factor = charge_factor(Some(plant.chemistry));
    let mut steps = vec![
        Step::input("Σ P_r", "rectifiers", watts(rated)).from_source(&CATALOGUE),
        Step::input("P_load", "all that the bus feeds at once, losses and growth included", watts(load)),
        Step::input("n · v", "voltage of the strings on charge", volts(plant.volts(of_cell))).from_source(&CELLS),
        Step::input("I_max", "most that the cells are charged with", amperes(plant.charge_limit))
            .from_source(&CATALOGUE),
        Step::input("Q", "charge taken, from full to empty", charge(taken)),
        Step::input("k", "charge to give back for each Ah", ratio(factor)).from_source(&CELLS),
    ];
    let Some(time) = recharge::hours(factor, taken, current) else {
        let why = "the load leaves the rectifiers nothing to charge with";
        return Finding::fails(check, subject, why).working(steps).help("More rectifiers would do");
    };
    let numbers = Phrase::from("min((").number(watts(rated)).text(" − ").number(watts(load)).text(") / ");
    let numbers = numbers.number(volts(plant.volts(of_cell))).text("; ").number(amperes(plant.charge_limit)).text(")");
    let meaning = "current into the strings";
    steps.push(Step::computed("I", meaning, "min((Σ P_r − P_load) / (n · v), I_max)", numbers, amperes(current)));
    let numbers =
        Phrase::new().number(ratio(factor)).text(" × ").number(charge(taken)).text(" / ").number(amperes(current));
    steps.push(Step::computed("t", "until all is given back", "k · Q / I", numbers, hours(time)));
    let finding = Finding::at_most(check, subject, Hours(time), asked, RESERVE).working(steps);
    let wanted = recharge::amperes(factor, taken, asked.0).unwrap_or(f64::INFINITY);
    if wanted > plant.charge_limit {
        return finding.help("The cells take no more: a longer time to recharge would do");
    }
    let more = (wanted - left).max(0.0) * plant.volts(of_cell);
    finding.help(Phrase::from("Rectifiers of ").value(watts(more)).text(" more would do"))
}

#[cfg(test)]
mod tests {
    use super::super::testing::{direct, lead, lithium, plant, rectifier};
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, rack, step};

    /// Rectifiers of 1 kW, 24 cells of 100 Ah, and a load.
    fn desk(load: f64) -> Desk {
        let mut desk = Desk::new();
        desk.add(rectifier(1000.0), rack(0, 1));
        desk.add(lead(24, 100.0), rack(0, 2));
        desk.add(direct(load), rack(0, 3));
        desk
    }

    #[track_caller]
    fn check(load: f64, outcome: Outcome, time: f64) {
        let found = desk(load).run(&CHECK).remove(0);
        assert_eq!(found.outcome, outcome, "{found:?}");
        assert!((step(&found, "t") - time).abs() < 0.01, "{found:?}");
    }

    #[test]
    fn what_the_load_leaves_charges_the_strings() {
        // 1.15 · 100 Ah · 54.48 V = 6265.2 Wh in 24 h: 261.05 W
        check(738.9, Outcome::Tight, 24.0);
        check(739.0, Outcome::Fails, 24.0);
        check(700.0, Outcome::Holds, 20.88);
        let found = desk(1000.0).run(&CHECK).remove(0);
        assert_eq!((found.outcome, found.given), (Outcome::Fails, None));
    }

    #[test]
    fn cells_take_no_more_than_they_may() {
        // 0.2 · 100 Ah: 115 / 20
        check(0.0, Outcome::Holds, 6.27);
        let mut strong = plant(vec![lead(24, 100.0)], vec![direct(10.0)]);
        let found = strong.run(&CHECK).remove(0);
        assert!((step(&found, "t") - 5.75).abs() < 1e-9, "{found:?}");
        strong.project.brief.power.recharge = Hours(5.0);
        assert_eq!(strong.run(&CHECK)[0].outcome, Outcome::Fails);
        // Lithium: 0.9 of 100 Ah · 1.02 at 50 A
        let found = plant(vec![lithium(15, 100.0)], vec![direct(10.0)]).run(&CHECK).remove(0);
        assert!((step(&found, "t") - 1.836).abs() < 1e-9, "{found:?}");
    }

    #[test]
    fn without_batteries_there_is_nothing_to_charge() {
        assert_eq!(plant(vec![], vec![direct(10.0)]).run(&CHECK)[0].outcome, Outcome::Holds);
    }
}
