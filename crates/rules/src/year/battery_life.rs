//! **Y09 `battery-life`** – what does the temperature of a year leave of a battery's life?
//!
//! lead: L = 1 / max(a, 1), a = mean of 2^((T − 25 °C) / 10 K);  lithium: T_mean ≤ 35 °C
//!
//! - L       life left, as a share of that rated at 25 °C      [%]
//! - a       how much faster than at 25 °C it ages             [–]
//! - T       temperature of the battery                        [°C]
//! - T_mean  its mean over the year                            [°C]
//!
//! Source:      lead: life halves for every 10 K above 25 °C, from memory, to be confirmed; some makers take 8 K. Lithium:
//!              common practice, no source: iron phosphate is kept at 25 °C on the mean of the year, at most 35 °C; tight
//!              above 30 °C. Nickel: no rule is kept here, it tells the mean.
//! Valid for:   batteries up to 60 °C at any hour.
//! Agreement:   by definition; the ageing factor is formed by the run (`course`).
//! Not covered: cycling, depth of discharge, charging voltage, age at fitting. No years are given: no catalogue says the
//!              rated life. Hours below 25 °C make up for hotter ones, but cold never gives more than the rated life.

use catalogue::Chemistry;
use units::{Celsius, Kelvins, Kind, Value};

use super::given::judged;
use super::rests_on;
use super::words::device_name;
use crate::course::BatteryYear;
use crate::finding::worst_first;
use crate::sources::{HALVED_LIFE, PRACTICE, STEPPED_BALANCE};
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// Temperature at which makers rate the life, °C.
const RATED_AT: f64 = 25.0;
/// Hottest battery that the rules cover, °C.
const HOTTEST: f64 = 60.0;
/// Highest mean of the year for iron phosphate, °C. Common practice, no source.
const LITHIUM_MEAN: f64 = 35.0;
/// Length of the scale below it, K: 25 °C is at its foot.
const LITHIUM_SCALE: f64 = 10.0;
/// Where it is tight: above 30 °C. Common practice, no source.
const LITHIUM_RESERVE: f64 = 0.5;

/// The check.
pub static CHECK: Check = Check {
    code: "Y09",
    name: "battery-life",
    topic: Topic::Year,
    question: "What does the temperature of a year leave of a battery's life?",
    formula: "lead: L = 1 / max(a, 1), a = mean of 2^((T − 25) / 10);  lithium: T_mean ≤ 35 °C",
    symbols: &[
        Symbol { symbol: "L", meaning: "life left, as a share of that rated at 25 °C", kind: Kind::Share },
        Symbol { symbol: "a", meaning: "how much faster than at 25 °C it ages", kind: Kind::Ratio },
        Symbol { symbol: "T", meaning: "temperature of the battery", kind: Kind::Temperature },
        Symbol { symbol: "T_mean", meaning: "its mean over the year", kind: Kind::Temperature },
    ],
    sources: rests_on::BATTERIES,
    valid: "batteries up to 60 °C at any hour",
    leaves_out: "cycling, depth of discharge, charging voltage, age at fitting; no years are given, as no catalogue says the \
        rated life; cold never gives more than it; of nickel the mean is told without a rule",
    caution: Some(
        "A lead battery that is charged while hot may run away thermally: charging has to follow its temperature as its \
         maker says. Preliminary, for a qualified person to verify.",
    ),
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    judged(check, case, |course| {
        // The fastest ageing first, so that it leads among equals.
        let mut batteries: Vec<_> = course.batteries.iter().collect();
        batteries.sort_by(|one, other| other.ageing.total_cmp(&one.ageing));
        let mut findings = Vec::new();
        for chemistry in [Some(Chemistry::Lead), Some(Chemistry::Lithium), Some(Chemistry::Nickel), None] {
            let own = batteries.iter().filter(|battery| chemistry_of(case, battery) == chemistry);
            findings.extend(worst_first(own.map(|battery| judge(check, case, battery, chemistry)).collect()));
        }
        if findings.is_empty() {
            findings.push(Finding::holds(check, Subject::Cabinet, "no battery is fitted"));
        }
        Some(findings)
    })
}

/// What the cells of a battery are made of, as far as the catalogue says.
pub(super) fn chemistry_of(case: &Case, battery: &BatteryYear) -> Option<Chemistry> {
    case.device(battery.id)?.spec.chemistry
}

/// What is said of a battery whose chemistry nobody has said.
pub(super) fn unknown(check: &Check, case: &Case, battery: &BatteryYear) -> Finding {
    let what = Phrase::from("what its cells are made of: lead, lithium or nickel");
    Finding::needs_data(check, Subject::Device(battery.id), what).about(device_name(case, battery.id))
}

fn judge(check: &Check, case: &Case, battery: &BatteryYear, chemistry: Option<Chemistry>) -> Finding {
    let subject = Subject::Device(battery.id);
    let mean = Celsius(battery.mean);
    let mut working = vec![
        Step::input("T_mean", "mean of the year", mean).from_source(&STEPPED_BALANCE),
        Step::input("T_high", "highest of the year", Celsius(battery.highest)).from_source(&STEPPED_BALANCE),
    ];
    let finding = match chemistry {
        None => return unknown(check, case, battery),
        Some(_) if battery.highest > HOTTEST => {
            Finding::out_of_range(check, subject, Phrase::from("the battery gets above ").value(Celsius(HOTTEST)))
        }
        Some(Chemistry::Lead) => {
            let ageing = Value::new(battery.ageing, Kind::Ratio);
            working.push(Step::input("a", "how much faster than at 25 °C it ages", ageing).from_source(&HALVED_LIFE));
            // L = 1 / max(a, 1)
            let life = Value::new(1.0 / battery.ageing.max(1.0), Kind::Share);
            let numbers = Phrase::from("1 / max(").number(ageing).text(", 1)");
            let meaning = "life left, as a share of that rated at 25 °C";
            working.push(Step::computed("L", meaning, "1 / max(a, 1)", numbers, life).from_source(&HALVED_LIFE));
            let rated = Phrase::new().value(life).text(" of the life rated at ").value(Celsius(RATED_AT));
            Finding::tells(check, subject, life).because(rated)
        }
        Some(Chemistry::Lithium) => {
            let limit = Celsius(LITHIUM_MEAN);
            working.push(
                Step::input("T_max", "highest mean of the year for iron phosphate", limit).from_source(&PRACTICE),
            );
            // used = 1 − (35 °C − T_mean) / 10 K
            let used = (1.0 - (LITHIUM_MEAN - battery.mean) / LITHIUM_SCALE).max(0.0);
            let margin = Kelvins(LITHIUM_MEAN - battery.mean);
            Finding::on_scale(check, subject, mean, limit, margin, used, LITHIUM_RESERVE)
                .help("A cooler place, such as a room of its own below the devices, makes it last longer")
        }
        Some(Chemistry::Nickel) => Finding::tells(check, subject, mean)
            .because("no rule for nickel is kept here, so the mean of the year is told"),
    };
    finding.about(device_name(case, battery.id)).working(working)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::step;
    use crate::year::testing::Trial;

    fn of(chemistry: Option<Chemistry>, change: impl FnOnce(&mut BatteryYear)) -> Trial {
        let mut trial = Trial::new();
        let battery = trial.battery;
        trial.change(battery, |device| device.chemistry = chemistry);
        change(&mut trial.course.batteries[0]);
        trial
    }

    #[track_caller]
    fn check(trial: &Trial, outcome: Outcome) -> Finding {
        trial.lead(&CHECK, outcome)
    }

    #[test]
    fn life_of_lead_halves_for_ten_kelvins() {
        // At 35 °C all year it ages twice as fast; in the cold it does not last longer than rated.
        for (ageing, life) in [(2.0, 0.5), (4.0, 0.25), (1.0, 1.0), (0.5, 1.0)] {
            let finding = check(&of(Some(Chemistry::Lead), |battery| battery.ageing = ageing), Outcome::Holds);
            assert_eq!(finding.given, Some(Value::new(life, Kind::Share)), "{ageing}");
            assert_eq!((step(&finding, "a"), step(&finding, "L")), (ageing, life));
        }
    }

    #[test]
    fn the_mean_of_lithium_has_two_sides() {
        let at = |mean| of(Some(Chemistry::Lithium), |battery| battery.mean = mean);
        check(&at(29.9), Outcome::Holds);
        check(&at(30.1), Outcome::Tight);
        check(&at(35.0), Outcome::Tight);
        assert_eq!(check(&at(36.0), Outcome::Fails).margin, Some(Kelvins(-1.0).into()));
    }

    #[test]
    fn nickel_has_no_rule_and_an_unknown_battery_is_asked() {
        assert_eq!(check(&of(Some(Chemistry::Nickel), |_| ()), Outcome::Holds).given, Some(Celsius(26.0).into()));
        check(&of(None, |_| ()), Outcome::NeedsData);
    }

    #[test]
    fn the_fastest_ageing_battery_leads_and_each_chemistry_is_told() {
        let mut trial = of(Some(Chemistry::Lead), |_| ());
        let other = trial.desk.project.build.devices[1].clone();
        let id = trial.desk.add(crate::heat::testing::device(1), crate::heat::testing::rack(0, 9));
        trial.desk.project.build.devices[2].what = other.what.clone();
        let hotter = BatteryYear { id, ageing: 3.0, ..trial.course.batteries[0].clone() };
        trial.course.batteries.push(hotter);
        let findings = trial.run(&CHECK);
        assert_eq!((findings.len(), findings[0].subject), (1, Subject::Device(id)));
        trial.change(id, |device| device.chemistry = Some(Chemistry::Lithium));
        assert_eq!(trial.run(&CHECK).len(), 2);
    }

    #[test]
    fn without_batteries_it_holds() {
        let mut trial = Trial::new();
        trial.course.batteries.clear();
        check(&trial, Outcome::Holds);
    }

    #[test]
    fn says_so_outside_its_range() {
        let hot = |chemistry| of(Some(chemistry), |battery| battery.highest = 60.5);
        assert_eq!(check(&hot(Chemistry::Lead), Outcome::OutOfRange).given, None);
        check(&hot(Chemistry::Lithium), Outcome::OutOfRange);
    }
}
