//! **B03 `lithium-energy`** – do the lithium strings hold enough energy, cold and at the end of their life?
//!
//! E = n · V · C_r · S_T · S_age · u;  E ≥ P · t_ask
//!
//! - E      energy that can be used                              [kWh]
//! - n      cells in series                                      [–]
//! - V      nominal voltage of a cell, 3.2 V                     [V]
//! - C_r    rated capacity of all strings                        [Ah]
//! - S_T    share that is left at the coldest hour               [–]
//! - S_age  share that is left at the end of life, 0.8           [–]
//! - u      share that is used, 0.9                              [–]
//! - P      all that draws from the strings at once              [W]
//! - t_ask  autonomy asked for                                   [h]
//!
//! Source:      arithmetic; shares from memory, to be confirmed: 80 to 90 % of the rated energy are usually used.
//! Valid for:   −20 to 55 °C; currents up to the rated capacity in an hour.
//! Agreement:   tests/published/backup.toml, T09-11.
//! Not covered: what the guard electronics allow.

use catalogue::Chemistry;
use units::Kind;

use super::LITHIUM_CAUTION;
use super::figures::END_OF_LIFE;
use super::formulas::temperature;
use super::plant::Plant;
use super::temperatures::cold;
use super::words::{charge, energy, no_plant, ratio, share, volts, watts};
use crate::sources::{CATALOGUE, CELLS, PRACTICE};
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// Share of what is there above which it is tight. Common practice, no source.
const RESERVE: f64 = 0.9;

/// The check.
pub static CHECK: Check = Check {
    code: "B03",
    name: "lithium-energy",
    topic: Topic::Backup,
    question: "Do the lithium strings hold enough energy, cold and at the end of their life?",
    formula: "E = n · V · C_r · S_T · S_age · u ≥ P · t_ask",
    symbols: &[
        Symbol { symbol: "E", meaning: "energy that can be used", kind: Kind::Energy },
        Symbol { symbol: "n", meaning: "cells in series", kind: Kind::Count },
        Symbol { symbol: "V", meaning: "nominal voltage of a cell", kind: Kind::Voltage },
        Symbol { symbol: "C_r", meaning: "rated capacity of all strings", kind: Kind::Charge },
        Symbol { symbol: "S_T", meaning: "share that is left in the cold", kind: Kind::Share },
        Symbol { symbol: "S_age", meaning: "share that is left at the end of life", kind: Kind::Share },
        Symbol { symbol: "u", meaning: "share that is used", kind: Kind::Share },
        Symbol { symbol: "P", meaning: "all that draws from the strings at once", kind: Kind::Power },
        Symbol { symbol: "t_ask", meaning: "autonomy asked for", kind: Kind::Time },
    ],
    sources: &[&CELLS, &CATALOGUE, &PRACTICE],
    valid: "−20 to 55 °C; currents up to the rated capacity in an hour",
    leaves_out: "what the guard electronics allow",
    caution: Some(LITHIUM_CAUTION),
    asked: Some(Asked::Autonomy),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    vec![case.lacking(check).unwrap_or_else(|| judge(check, case))]
}

fn judge(check: &Check, case: &Case) -> Finding {
    let subject = Subject::Supply;
    let asked = case.project.brief.power.autonomy.filter(|asked| asked.0 > 0.0);
    let plant = match (Plant::of(case), asked) {
        (Ok(plant), _) => plant,
        (Err(_), None) => return Finding::holds(check, subject, "nobody asks for backup"),
        (Err(why), Some(_)) => return no_plant(check, why),
    };
    if plant.chemistry != Chemistry::Lithium {
        return Finding::holds(check, subject, "the cells are not lithium; B02 judges them");
    }
    let cold = match (cold(case), asked) {
        (Ok(cold), _) => cold,
        (Err(_), None) => return Finding::holds(check, subject, "nobody asks for backup"),
        (Err(gap), Some(_)) => return gap.finding(check, subject),
    };
    let Some(left) = temperature::share(plant.chemistry, cold.cells.0) else {
        let why = Phrase::from("no share of the capacity of lithium is known at ").value(cold.cells);
        return Finding::out_of_range(check, subject, why).help("Keep the batteries warmer, or choose other cells");
    };
    let of = plant.figures();
    // E = n · V · C_r · S_T · S_age · u
    let usable = plant.energy() * left * plant.health * of.used;
    let mut steps = vec![
        Step::input("n", "cells in series", crate::count(plant.cells as usize)),
        Step::input("V", "nominal voltage of a cell", volts(of.nominal)).from_source(&CELLS),
        Step::input("C_r", format!("of {} strings", plant.strings), charge(plant.amp_hours)).from_source(&CATALOGUE),
    ];
    steps.extend(cold.steps);
    let numbers = Phrase::new()
        .number(energy(plant.energy()))
        .text(" × ")
        .number(ratio(left))
        .text(" × ")
        .number(ratio(plant.health))
        .text(" × ")
        .number(ratio(of.used));
    steps.push(Step::input("E_r", "energy when new at 25 °C", energy(plant.energy())));
    steps.push(Step::input("S_T", "share of the capacity in the cold", share(left)).from_source(&CELLS));
    steps.push(Step::input("S_age", "share at the end of life", share(END_OF_LIFE)).from_source(&CELLS));
    steps.push(Step::input("u", "share that is used", share(of.used)).from_source(&CELLS));
    steps.push(Step::computed("E", "energy that can be used", "E_r · S_T · S_age · u", numbers, energy(usable)));
    let Some(asked) = asked else {
        return Finding::tells(check, subject, energy(usable)).because("nobody asks for backup").working(steps);
    };
    let power = plant.loads.all();
    let needed = power * asked.0;
    steps.push(Step::input("P", "all that draws from the strings, losses and growth included", watts(power)));
    steps.push(Step::input("t_ask", "autonomy asked for", asked));
    let numbers = Phrase::new().number(watts(power)).text(" × ").number(asked);
    steps.push(Step::computed("E_need", "energy asked for", "P · t_ask", numbers, energy(needed)));
    let finding = Finding::at_least(check, subject, energy(usable), energy(needed), RESERVE).working(steps);
    let rated = (needed - usable).max(0.0) / (left * plant.health * of.used);
    finding.help(Phrase::from("Strings of ").value(energy(rated)).text(" more, when new, would do"))
}

#[cfg(test)]
mod tests {
    use units::{Celsius, Hours};

    use super::super::testing::{direct, lithium, plant};
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, step};

    /// 100 Ah of 15 cells, 4.8 kWh; at 25 °C and end of life 4.8 · 0.8 · 0.9 = 3.456 kWh.
    fn desk(asked: Option<f64>) -> Desk {
        let mut desk = plant(vec![lithium(15, 100.0)], vec![direct(300.0)]);
        desk.project.brief.power.autonomy = asked.map(Hours);
        desk.project.brief.coldest = Celsius(30.0);
        desk
    }

    #[track_caller]
    fn check(asked: f64, outcome: Outcome) {
        let found = desk(Some(asked)).run(&CHECK).remove(0);
        assert_eq!(found.outcome, outcome, "{found:?}");
        assert!((step(&found, "E") - 3.456).abs() < 1e-9, "{found:?}");
    }

    #[test]
    fn energy_is_held_against_what_is_asked() {
        // 3456 Wh / 300 W = 11.52 h, tight from nine tenths on.
        check(11.5, Outcome::Tight);
        check(11.53, Outcome::Fails);
        check(10.3, Outcome::Holds);
    }

    #[test]
    fn cold_leaves_less_and_below_its_range_says_nothing() {
        let mut desk = desk(Some(1.0));
        // In still air the box warms itself by 300 W; the cells stand where the balance puts them.
        desk.project.brief.coldest = Celsius(-60.0);
        let found = desk.run(&CHECK).remove(0);
        assert_eq!((found.outcome, found.given), (Outcome::OutOfRange, None), "{found:?}");
    }

    #[test]
    fn without_a_question_it_tells() {
        assert_eq!(desk(None).run(&CHECK)[0].outcome, Outcome::Holds);
    }
}
