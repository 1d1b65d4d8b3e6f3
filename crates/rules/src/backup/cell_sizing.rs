//! **B02 `cell-sizing`** – are the cells of lead or nickel large enough by the worksheet of IEEE 485?
//!
//! C ≥ max_s Σ (A_p − A_{p−1}) · K_t(t_p) · F_T · F_age · F_margin
//!
//! - C         rated capacity of all strings                       [Ah]
//! - A_p       current of period p at the lowest voltage           [A]
//! - t_p       from its start to the end of section s              [h]
//! - K_t       rated Ah for each ampere, by Peukert's law          [h]
//! - F_T       cell size correction at the coldest hour            [–]
//! - F_age     1.25                                                [–]
//! - F_margin  1.10                                                [–]
//!
//! Source:      IEEE 485, general form, from memory; K_t = H · (t/H)^(1/k) by Peukert, as no maker's table is at hand.
//! Valid for:   a quarter of an hour or longer; lead −3.9 to 51.7 °C, nickel −40 to 55 °C.
//! Agreement:   tests/published/backup.toml: T09-06, T09-07, and a public worked example by sections.
//! Not covered: lithium (B03); a maker's own K_t.
//!
//! The duty cycle has two periods: what lasts, and with it in the last hour what is on for less than three hours, as when a
//! crew comes. Amperes are taken at the lowest voltage of the bus. That, and the margin of 1.10, are common practice.

use units::Kind;

use super::figures::END_OF_LIFE;
use super::formulas::worksheet::{Period, corrected, sections, uncorrected};
use super::formulas::{peukert, temperature};
use super::plant::Plant;
use super::temperatures::cold;
use super::words::{amperes, charge, hours, no_plant, ratio, volts, watts};
use crate::power::all_fed::CAUTION;
use crate::sources::{CATALOGUE, IEEE_485, PEUKERT, PRACTICE};
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// Design margin. Common practice, 1.10 to 1.15.
pub const MARGIN: f64 = 1.10;

/// How long before the end what is on for a short time comes on, h. Common practice, no source.
const LAST: f64 = 1.0;

/// The corrections hold a margin already.
const RESERVE: f64 = 1.0;

/// The check.
pub static CHECK: Check = Check {
    code: "B02",
    name: "cell-sizing",
    topic: Topic::Backup,
    question: "Are the cells of lead or nickel large enough by the worksheet of IEEE 485?",
    formula: "C ≥ max_s Σ (A_p − A_{p−1}) · K_t(t_p) · F_T · F_age · F_margin",
    symbols: &[
        Symbol { symbol: "C", meaning: "rated capacity of all strings", kind: Kind::Charge },
        Symbol { symbol: "A_p", meaning: "current of period p at the lowest voltage", kind: Kind::Current },
        Symbol { symbol: "t_p", meaning: "from its start to the end of the section", kind: Kind::Time },
        Symbol { symbol: "K_t", meaning: "rated Ah for each ampere drawn so long", kind: Kind::Time },
        Symbol { symbol: "F_T", meaning: "cell size correction at the coldest hour", kind: Kind::Ratio },
        Symbol { symbol: "F_age", meaning: "ageing factor", kind: Kind::Ratio },
        Symbol { symbol: "F_margin", meaning: "design margin", kind: Kind::Ratio },
    ],
    sources: &[&IEEE_485, &PEUKERT, &CATALOGUE, &PRACTICE],
    valid: "a quarter of an hour or longer; lead −3.9 to 51.7 °C, nickel −40 to 55 °C",
    leaves_out: "lithium (B03); a maker's own K_t",
    caution: Some(CAUTION),
    asked: Some(Asked::Autonomy),
    run,
};

/// The duty cycle of a plant over a time, at the lowest voltage of its bus.
#[must_use]
pub fn duty_cycle(plant: &Plant, autonomy: f64) -> Vec<Period> {
    let at = |watts: f64| watts / plant.cut_off;
    let (lasting, all) = (at(plant.loads.lasting), at(plant.loads.all()));
    if autonomy <= LAST || plant.loads.momentary <= 0.0 {
        return vec![Period { amperes: all, hours: autonomy }];
    }
    vec![Period { amperes: lasting, hours: autonomy - LAST }, Period { amperes: all, hours: LAST }]
}

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    vec![case.lacking(check).unwrap_or_else(|| judge(check, case))]
}

fn judge(check: &Check, case: &Case) -> Finding {
    let subject = Subject::Supply;
    let Some(asked) = case.project.brief.power.autonomy.filter(|asked| asked.0 > 0.0) else {
        return Finding::holds(check, subject, "nobody asks for backup");
    };
    let plant = match Plant::of(case) {
        Ok(plant) => plant,
        Err(why) => return no_plant(check, why),
    };
    let Some(exponent) = plant.figures().exponent else {
        return Finding::holds(check, subject, "the cells are lithium; B03 judges them");
    };
    if plant.loads.all() <= 0.0 {
        return Finding::holds(check, subject, "nothing draws from the batteries");
    }
    let cold = match cold(case) {
        Ok(cold) => cold,
        Err(gap) => return gap.finding(check, subject),
    };
    let Some(left) = temperature::share(plant.chemistry, cold.cells.0) else {
        let why = Phrase::from(format!("no cell size correction of {} at ", plant.figures().name)).value(cold.cells);
        return Finding::out_of_range(check, subject, why);
    };
    let periods = duty_cycle(&plant, asked.0);
    let rate = |time: f64| peukert::capacity_rate(time, plant.rate_hours, exponent);
    let Some(sizes) = sections(&periods, rate) else {
        let why = "shorter than a quarter of an hour, where Peukert's law gives no K_t";
        return Finding::out_of_range(check, subject, why);
    };
    let (correction, ageing) = (1.0 / left, 1.0 / END_OF_LIFE);
    let bare = uncorrected(&sizes, 0.0);
    let needed = corrected(bare, correction, ageing, MARGIN);

    let mut steps = vec![
        Step::input("t_ask", "autonomy asked for", asked),
        Step::input("P", "what lasts, losses and growth included", watts(plant.loads.lasting)),
        Step::input("V_end", "lowest voltage of the bus", volts(plant.cut_off)),
    ];
    let mut begins = 0.0;
    for period in &periods {
        let to_end = asked.0 - begins;
        begins += period.hours;
        let all = if begins >= asked.0 { "current of the last period" } else { "current of the first period" };
        steps.push(Step::input("A_p", all, amperes(period.amperes)));
        let numbers = Phrase::new().number(hours(plant.rate_hours)).text(" × (").number(hours(to_end)).text(" / ");
        let numbers = numbers.number(hours(plant.rate_hours)).text(") ^ (1 / ").number(ratio(exponent)).text(")");
        let k = hours(rate(to_end).unwrap_or(0.0));
        steps.push(Step::input("t_p", "from its start to the end", hours(to_end)));
        let meaning = "rated Ah for each ampere; beyond the rated time the time itself";
        steps.push(Step::computed("K_t", meaning, "H · (t / H)^(1/k)", numbers, k).from_source(&PEUKERT));
    }
    for size in &sizes {
        let step = Step::computed("S_s", "size of a section", "Σ (A_p − A_{p−1}) · K_t", Phrase::new(), charge(*size));
        steps.push(step.from_source(&IEEE_485));
    }
    steps.extend(cold.steps);
    steps.push(
        Step::input("F_T", "cell size correction, nothing credited above 25 °C", ratio(correction))
            .from_source(&IEEE_485),
    );
    steps.push(Step::input("F_age", "replaced at 80 % of the rated capacity", ratio(ageing)).from_source(&IEEE_485));
    steps.push(Step::input("F_margin", "design margin", ratio(MARGIN)).from_source(&PRACTICE));
    let numbers = Phrase::new()
        .number(charge(bare))
        .text(" × ")
        .number(ratio(correction))
        .text(" × ")
        .number(ratio(ageing))
        .text(" × ")
        .number(ratio(MARGIN));
    let step = Step::computed("C_need", "size to install", "max S_s · F_T · F_age · F_margin", numbers, charge(needed));
    steps.push(step.from_source(&IEEE_485));
    let strings = format!("{} of {} cells", plant.strings, plant.cells);
    steps.push(Step::input("C", strings, charge(plant.amp_hours)).from_source(&CATALOGUE));

    let finding = Finding::at_least(check, subject, charge(plant.amp_hours), charge(needed), RESERVE).working(steps);
    let more = Phrase::from("Strings of ").value(charge((needed - plant.amp_hours).max(0.0))).text(" more would do");
    finding.help(more)
}

#[cfg(test)]
mod tests;
