//! **Y06 `unit-duty`** – how long do the units run in a year, and how often do they start?
//!
//! n_most ≤ 10 in one hour, of a compressor
//!
//! - t_run   hours run in the year, of each unit                    [h]
//! - n_year  starts in the year                                     [–]
//! - n_most  most starts in one hour                                [–]
//! - t_mean  mean run: t_run / n_year                               [h]
//! - n_out   hours called for beyond the unit's map                 [–]
//!
//! Source:      the run over the year (`course`). The limit is common practice, no source: a compressor bears six to ten
//!              starts in an hour; tight above six, fails above ten. Fans, exchangers and heaters bear any number.
//! Valid for:   as Y01, within the units' maps. A unit that was called for beyond its map is out of range: with outdoor air
//!              beyond it the run has it stand still, with warmer inside air it goes on as at the map's end; fans and
//!              exchangers go on by their law.
//! Agreement:   the run is compared with computed years in tests/tests: starts within 1 %.
//! Not covered: makers who state another number of starts, wear, defrosting.

use catalogue::UnitSort;
use units::Kind;

use super::given::judged;
use super::rests_on;
use super::words::{hours, of, unit_name};
use crate::course::{Unit, UnitYear};
use crate::finding::worst_first;
use crate::sources::PRACTICE;
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, count};

/// Starts in one hour that a compressor bears. Common practice, no source.
const MOST_STARTS: usize = 10;
/// Share of them above which it is tight: six of ten. Common practice, no source.
const RESERVE: f64 = 0.6;

/// The check.
pub static CHECK: Check = Check {
    code: "Y06",
    name: "unit-duty",
    topic: Topic::Year,
    question: "How long do the units run in a year, and how often do they start?",
    formula: "n_most ≤ 10 in one hour, of a compressor",
    symbols: &[
        Symbol { symbol: "n_most", meaning: "most starts in one hour", kind: Kind::Count },
        Symbol { symbol: "n_year", meaning: "starts in the year", kind: Kind::Count },
        Symbol { symbol: "t_run", meaning: "hours run in the year", kind: Kind::Time },
        Symbol { symbol: "t_mean", meaning: "mean run", kind: Kind::Time },
        Symbol { symbol: "n_out", meaning: "hours called for beyond the map", kind: Kind::Count },
    ],
    sources: rests_on::YEAR,
    valid: "as Y01, within the units' maps",
    leaves_out: "makers who state another number of starts, wear, defrosting",
    caution: None,
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    judged(check, case, |course| {
        let pairs: Vec<_> = course.units.iter().zip(&course.unit_years).collect();
        let mut findings = worst_first(pairs.iter().map(|(unit, year)| judge(check, case, unit, year)).collect());
        let Some(lead) = findings.first_mut() else {
            return Some(vec![Finding::holds(check, Subject::Cabinet, "no unit is fitted")]);
        };
        // What the others ran stands with the worst, whose steps come first.
        let others = pairs.iter().filter(|(unit, _)| Subject::Unit(unit.id) != lead.subject);
        lead.working.extend(
            others.map(|(unit, year)| {
                Step::input("t_run", of("hours run: ", unit_name(case, unit.id)), hours(year.hours))
            }),
        );
        Some(findings)
    })
}

fn judge(check: &Check, case: &Case, unit: &Unit, year: &UnitYear) -> Finding {
    let subject = Subject::Unit(unit.id);
    let (starts, most) = (count(year.starts as usize), count(year.most_starts as usize));
    let mut working = vec![
        Step::input("t_run", "hours run in the year", hours(year.hours)),
        Step::input("n_year", "starts in the year", starts),
        Step::input("n_most", "most starts in one hour", most),
    ];
    if year.starts > 0 {
        let mean = hours(year.hours / f64::from(year.starts));
        let numbers = Phrase::new().number(hours(year.hours)).text(" / ").number(starts);
        working.push(Step::computed("t_mean", "mean run", "t_run / n_year", numbers, mean));
    }
    let finding = if year.hours_beyond_map > 0 {
        let beyond = count(year.hours_beyond_map as usize);
        working.push(Step::input("n_out", "hours called for beyond its map", beyond));
        let hours = if year.hours_beyond_map == 1 { " hour" } else { " hours" };
        let why = Phrase::from("called for beyond its map in ").value(beyond).text(hours).text(" of the year");
        Finding::out_of_range(check, subject, why)
    } else if has_compressor(case, unit) {
        let practice = Step::input("n_max", "starts in one hour that a compressor bears", count(MOST_STARTS));
        working.push(practice.from_source(&PRACTICE));
        Finding::at_most(check, subject, most, count(MOST_STARTS), RESERVE)
            .help("A wider step between on and off, a longer time off, or a smaller unit starts less often")
    } else {
        Finding::tells(check, subject, hours(year.hours))
    };
    finding.about(unit_name(case, unit.id)).working(working)
}

/// Whether a unit is known to have a compressor.
fn has_compressor(case: &Case, unit: &Unit) -> bool {
    case.units.iter().any(|(fitted, spec)| fitted.id == unit.id && spec.sort == UnitSort::AirConditioner)
}

#[cfg(test)]
mod tests {
    use units::{System, Value};

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::step;
    use crate::year::testing::Trial;

    fn starting(most: u32) -> Trial {
        let mut trial = Trial::new();
        trial.course.unit_years[0].most_starts = most;
        trial
    }

    #[track_caller]
    fn check(trial: &Trial, outcome: Outcome) -> Finding {
        trial.lead(&CHECK, outcome)
    }

    #[test]
    fn a_compressor_bears_six_to_ten_starts_an_hour() {
        let trial = starting(6);
        let finding = check(&trial, Outcome::Holds);
        assert_eq!(finding.subject, Subject::Unit(trial.conditioner));
        assert_eq!((step(&finding, "t_mean"), step(&finding, "n_year")), (0.5, 2000.0));
        check(&starting(7), Outcome::Tight);
        check(&starting(10), Outcome::Tight);
        assert_eq!(check(&starting(11), Outcome::Fails).margin, Some(Value::new(-1.0, Kind::Count)));
    }

    #[test]
    fn a_heater_may_start_as_often_as_it_likes() {
        let mut trial = Trial::new();
        trial.course.unit_years[1].most_starts = 60;
        let finding = check(&trial, Outcome::Holds);
        // The heater's hours stand beside the conditioner's.
        assert_eq!(finding.working.iter().filter(|step| step.symbol == "t_run").count(), 2);
        trial.desk.project.build.climate.remove(0);
        trial.course.units.remove(0);
        trial.course.unit_years.remove(0);
        assert_eq!(check(&trial, Outcome::Holds).given, Some(hours(1000.0)));
    }

    #[test]
    fn without_a_start_there_is_no_mean_run() {
        let mut trial = Trial::new();
        trial.course.unit_years[0].starts = 0;
        let finding = check(&trial, Outcome::Holds);
        assert!(finding.working.iter().all(|step| step.symbol != "t_mean"));
    }

    #[test]
    fn says_so_beyond_a_map_and_counts_the_hours() {
        let mut trial = Trial::new();
        trial.course.unit_years[1].hours_beyond_map = 12;
        let finding = check(&trial, Outcome::OutOfRange);
        assert_eq!((finding.given, finding.subject), (None, Subject::Unit(trial.heater)));
        assert!(finding.because.shown(System::Metric).contains("12 hours"));
    }

    #[test]
    fn without_units_it_holds() {
        let mut trial = Trial::new();
        trial.desk.project.build.climate.clear();
        trial.course.units.clear();
        trial.course.unit_years.clear();
        check(&trial, Outcome::Holds);
    }
}
