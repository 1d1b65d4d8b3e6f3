//! **Y07 `energy-of-the-year`** – how much electricity do the units use in a year, and what does it cost?
//!
//! E = Σ E_i;  C = p · E
//!
//! - E_i  electricity used by each unit     [kWh]
//! - E    electricity used by all of them   [kWh]
//! - p    the brief's tariff, for each kWh  [money]
//! - C    cost of a year                    [money]
//!
//! Source:      the run over the year (`course`); the tariff is the brief's.
//! Valid for:   as Y01. What a unit uses in hours beyond its map nobody says: the hours are told.
//! Agreement:   the run is compared with computed years in tests/tests: energy within 1 %.
//! Not covered: the devices' own use, losses of what feeds the units, standing charges, tariffs that change over the day.
//!
//! Nobody sets a limit: it tells.

use units::{Kind, Value};

use super::given::judged;
use super::rests_on;
use super::words::{energy, unit_name};
use crate::course::Course;
use crate::sources::STEPPED_BALANCE;
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, count};

/// The check.
pub static CHECK: Check = Check {
    code: "Y07",
    name: "energy-of-the-year",
    topic: Topic::Year,
    question: "How much electricity do the units use in a year, and what does it cost?",
    formula: "E = Σ E_i;  C = p · E",
    symbols: &[
        Symbol { symbol: "E_i", meaning: "electricity used by a unit", kind: Kind::Energy },
        Symbol { symbol: "E", meaning: "electricity used by all of them", kind: Kind::Energy },
        Symbol { symbol: "p", meaning: "the brief's tariff, for each kWh", kind: Kind::Money },
        Symbol { symbol: "C", meaning: "cost of a year", kind: Kind::Money },
    ],
    sources: rests_on::YEAR,
    valid: "as Y01; what a unit uses in hours beyond its map nobody says: the hours are told",
    leaves_out: "the devices' own use, losses of what feeds the units, standing charges, tariffs that change over the day",
    caution: None,
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    judged(check, case, |course| Some(vec![tell(check, case, course)]))
}

fn tell(check: &Check, case: &Case, course: &Course) -> Finding {
    let mut working = Vec::new();
    let mut numbers = Phrase::new();
    for (unit, year) in course.units.iter().zip(&course.unit_years) {
        let moved = if unit.heats { " of heat given" } else { " of heat moved out" };
        let meaning = unit_name(case, unit.id).text(", for ").value(energy(year.heat)).text(moved);
        working.push(Step::input("E_i", meaning, energy(year.electricity)));
        let plus = if numbers.is_empty() { "" } else { " + " };
        numbers = numbers.text(plus).number(energy(year.electricity));
    }
    let total = course.electricity();
    let mut said = Phrase::new();
    if course.units.is_empty() {
        said = said.text("no unit is fitted");
    }
    let sum = Step::computed("E", "electricity used by all units", "Σ E_i", numbers, energy(total));
    working.push(sum.from_source(&STEPPED_BALANCE));
    let brief = &case.project.brief;
    if let (Some(tariff), Some(cost)) = (brief.tariff, brief.cost(total)) {
        let (tariff, cost) = (Value::new(tariff, Kind::Money), Value::new(cost, Kind::Money));
        working.push(Step::input("p", format!("tariff, {} for each kWh", brief.currency), tariff));
        let numbers = Phrase::new().number(tariff).text(" · ").number(energy(total));
        let meaning = format!("cost of a year, {}", brief.currency);
        working.push(Step::computed("C", meaning, "p · E", numbers, cost));
        if said.is_empty() {
            said = said.value(cost).text(" ").text(brief.currency.as_str()).text(" a year");
        }
    }
    let beyond: usize = course.unit_years.iter().map(|year| year.hours_beyond_map as usize).sum();
    if beyond > 0 {
        working.push(Step::input("n_out", "hours in which a unit was called for beyond its map", count(beyond)));
        let apart = if said.is_empty() { "not sure for " } else { "; not sure for " };
        said = said.text(apart).value(count(beyond)).text(" hours beyond a map");
    }
    Finding::tells(check, Subject::Cabinet, energy(total)).because(said).working(working)
}

#[cfg(test)]
mod tests {
    use units::System;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::step;
    use crate::year::testing::Trial;

    #[track_caller]
    fn check(trial: &Trial, outcome: Outcome, said: &str) -> Finding {
        let finding = trial.only(&CHECK, outcome);
        assert_eq!(finding.said().shown(System::Metric), said);
        finding
    }

    #[test]
    fn the_units_are_summed_up_and_priced() {
        let mut trial = Trial::new();
        let finding = check(&trial, Outcome::Holds, "holds");
        assert_eq!(finding.given, Some(energy(500.0)));
        assert!(finding.working.iter().all(|step| step.symbol != "C"), "no tariff, no cost");
        trial.desk.project.brief.tariff = Some(0.2);
        trial.desk.project.brief.currency = "EUR".to_owned();
        let finding = check(&trial, Outcome::Holds, "holds: 100 EUR a year");
        // 0.2 · (300 + 200) kWh
        assert_eq!((step(&finding, "E"), step(&finding, "C")), (500.0, 100.0));
    }

    #[test]
    fn without_units_nothing_is_used() {
        let mut trial = Trial::new();
        trial.desk.project.build.climate.clear();
        trial.course.units.clear();
        trial.course.unit_years.clear();
        trial.desk.project.brief.tariff = Some(0.2);
        assert_eq!(check(&trial, Outcome::Holds, "holds: no unit is fitted").given, Some(energy(0.0)));
    }

    #[test]
    fn hours_beyond_a_map_are_told() {
        let mut trial = Trial::new();
        trial.course.unit_years[0].hours_beyond_map = 3;
        check(&trial, Outcome::Holds, "holds: not sure for 3 hours beyond a map");
    }

    #[test]
    fn says_so_outside_its_range() {
        let mut trial = Trial::new();
        trial.course.unit_years[0].electricity = f64::INFINITY;
        check(&trial, Outcome::OutOfRange, "out of range: figures beyond any cabinet");
    }
}
