//! **Y14 `grid-lost`** – when the supply fails at the hottest hour, how long does it go on, and what ends it?
//!
//! t = min(t_hot, t_bat);  t ≥ t_ask
//!
//! - t      how long it goes on                                                        [h]
//! - t_hot  until the air meets the first limit                                        [h]
//! - t_bat  until the strings are used up or taken off, at the end of their life       [h]
//! - t_ask  autonomy that the brief asks for                                           [h]
//!
//! Source:      the run from the hottest hour of the brief's hottest day on (`course::grid_lost`).
//! Valid for:   as Y02; strings within their temperatures and currents.
//! Agreement:   the strings are those of `backup::discharge`; the air is compared with computed cases in tests/tests.
//! Not covered: growth; loads that are shed one by one; uninterruptible supplies, which are taken to run on.
//!
//! Where nobody asks for a time, it tells. The reserve of a tenth is common practice, no source.

use units::{Celsius, Hours, Kind, Value};

use super::given::judged;
use super::rests_on;
use super::words::{device_name, hours, of, room_name, room_subject, told, watts};
use crate::course::{Course, GridLost};
use crate::power::all_fed::CAUTION;
use crate::sources::{CATALOGUE, CELLS, STEPPED_BALANCE};
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// Share of what is there above which it is tight.
const RESERVE: f64 = 0.9;

/// The check.
pub static CHECK: Check = Check {
    code: "Y14",
    name: "grid-lost",
    topic: Topic::Year,
    question: "When the supply fails at the hottest hour, how long does it go on, and what ends it?",
    formula: "t = min(t_hot, t_bat) ≥ t_ask",
    symbols: &[
        Symbol { symbol: "t", meaning: "how long it goes on", kind: Kind::Time },
        Symbol { symbol: "t_hot", meaning: "until the air meets the first limit", kind: Kind::Time },
        Symbol { symbol: "t_bat", meaning: "until the strings are used up or taken off", kind: Kind::Time },
        Symbol { symbol: "t_ask", meaning: "autonomy asked for", kind: Kind::Time },
    ],
    sources: rests_on::GRID_LOST,
    valid: "as Y02; strings within their temperatures and currents",
    leaves_out: "growth; loads that are shed one by one; uninterruptible supplies, which are taken to run on",
    caution: Some(CAUTION),
    asked: Some(Asked::Autonomy),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    judged(check, case, |course| Some(vec![judge(check, case, course, &course.grid_lost)?]))
}

fn judge(check: &Check, case: &Case, course: &Course, lost: &GridLost) -> Option<Finding> {
    let asked = case.project.brief.power.autonomy.filter(|asked| asked.0 > 0.0);
    // Nothing goes on: B01 says so when backup is asked for.
    if !lost.because.is_empty() && lost.minutes.is_none() {
        return Some(Finding::holds(check, Subject::Supply, lost.because.as_str()));
    }
    let air = lost.heat.air.get(lost.heat.room).filter(|air| !air.is_empty())?;
    let followed = (air.len() - 1) as f64 / 60.0;
    let (heat, strings) = (lost.heat.minutes.map(|time| time / 60.0), lost.minutes.map(|time| time / 60.0));
    let mut working = Vec::new();
    if let Some(asked) = asked {
        working.push(Step::input("t_ask", "autonomy asked for", asked));
    }
    if let Some(first) = air.at(0) {
        working
            .push(Step::input("T_0", "inside air when the supply fails", Celsius(first)).from_source(&STEPPED_BALANCE));
    }
    if let Some(power) = lost.load.at(0) {
        working.push(Step::input("P_0", "what the strings give then", watts(power)).from_source(&CATALOGUE));
    }
    let ends =
        [("V_0", "voltage of the bus then", 0), ("V_1", "voltage of the bus at the end", lost.volts.len().max(1) - 1)];
    for (symbol, meaning, minute) in ends {
        if let Some(volts) = lost.volts.at(minute) {
            let volts = Value::new(volts, Kind::Voltage);
            working.push(Step::input(symbol, meaning, volts).from_source(&CELLS));
        }
    }
    working.push(Step::input("t_end", "how long it is followed", hours(followed)));
    if let Some(time) = heat {
        let meaning = match lost.heat.device {
            Some(id) => of("until the air meets the limit of ", device_name(case, id)),
            None => "until the air meets the first limit".into(),
        };
        working.push(Step::input("t_hot", meaning, hours(time)).from_source(&STEPPED_BALANCE));
    }
    if let Some(time) = strings {
        let ends = if lost.taken_off { "until the strings are taken off" } else { "until the strings are used up" };
        working.push(Step::input("t_bat", ends, hours(time)).from_source(&CELLS));
    }
    let heat_first = heat.is_some_and(|heat| strings.is_none_or(|strings| heat < strings));
    let subject = match (heat_first, lost.heat.device) {
        (true, Some(id)) => Subject::Device(id),
        (true, None) => room_subject(course, lost.heat.room),
        (false, _) => Subject::Supply,
    };
    let about = match (heat_first, lost.heat.device) {
        (true, Some(id)) => device_name(case, id),
        (true, None) => room_name(course, lost.heat.room),
        (false, _) => Phrase::new(),
    };
    let why = if heat_first {
        "the air ends it, before the batteries do"
    } else {
        "the batteries end it, before the air does"
    };
    let working = told(working);
    let Some(first) = heat.into_iter().chain(strings).reduce(f64::min) else {
        let long = Phrase::from("neither air nor batteries end it within ").value(hours(followed));
        return Some(Finding::holds(check, subject, long).working(working));
    };
    let Some(asked) = asked else {
        return Some(Finding::tells(check, subject, Hours(first)).about(about).because(why).working(working));
    };
    let finding =
        Finding::at_least(check, subject, Hours(first), asked, RESERVE).about(about).because(why).working(working);
    Some(if heat_first {
        finding.help("Cooling that runs on the batteries, or less heat, would help")
    } else {
        finding.help("More strings, or less load on them, would help")
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::year::testing::Trial;

    #[track_caller]
    fn check(trial: &Trial, outcome: Outcome, time: Option<f64>) -> Finding {
        let [finding] = trial.run(&CHECK).try_into().unwrap();
        assert_eq!((finding.outcome, finding.given.map(|given| given.number)), (outcome, time), "{finding:?}");
        finding
    }

    fn asking(hours: f64) -> Trial {
        let mut trial = Trial::new();
        trial.desk.project.brief.power.autonomy = Some(Hours(hours));
        trial
    }

    #[test]
    fn the_sooner_of_the_two_ends_it() {
        let mut trial = Trial::new();
        assert_eq!(check(&trial, Outcome::Holds, Some(2.5)).subject, Subject::Supply);
        trial.course.grid_lost.heat.minutes = Some(90.0);
        assert_eq!(check(&trial, Outcome::Holds, Some(1.5)).subject, Subject::Device(trial.router));
        trial.course.grid_lost.minutes = None;
        check(&trial, Outcome::Holds, Some(1.5));
        trial.course.grid_lost.heat.minutes = None;
        check(&trial, Outcome::Holds, None);
    }

    #[test]
    fn it_is_held_against_what_is_asked() {
        check(&asking(2.25), Outcome::Holds, Some(2.5));
        check(&asking(2.5), Outcome::Tight, Some(2.5));
        check(&asking(2.51), Outcome::Fails, Some(2.5));
    }

    #[test]
    fn without_strings_to_follow_it_says_why() {
        let mut trial = Trial::new();
        trial.course.grid_lost.minutes = None;
        trial.course.grid_lost.because = "no battery is fitted".to_owned();
        let found = check(&trial, Outcome::Holds, None);
        assert_eq!(found.because.shown(units::System::Metric), "no battery is fitted");
    }

    #[test]
    fn another_build_asks_for_another_run() {
        let mut trial = Trial::new();
        trial.course.grid_lost.heat.device = Some(project::ItemId(999));
        check(&trial, Outcome::NeedsData, None);
        let mut trial = Trial::new();
        trial.course.grid_lost.heat.air.clear();
        check(&trial, Outcome::NeedsData, None);
    }
}
