//! **Y11 `open-door`** – how long may a door stand open on the hottest day, with the units stopped by its switch?
//!
//! t = min t where T_inlet(t) ≥ T_max
//!
//! - t        from when the door opens until the first limit is met   [min]
//! - T_0      inside air when it opens                                [°C]
//! - T_inlet  air at the inlet of a device                            [°C]
//! - T_max    highest inlet air it allows                             [°C]
//!
//! Source:      the run from the hottest hour of the brief's hottest day on (`course`); limits from the catalogue.
//! Valid for:   as Y02; the units stop at once, outdoor air comes in through the door.
//! Agreement:   the run is compared with computed cases in tests/tests; the check itself only compares.
//! Not covered: wind and sun through the doorway, units that start again, layers of warmer air.
//!
//! The brief asks for no time: it tells.

use units::Kind;

use super::given::judged;
use super::rests_on;
use super::until_limit::tell;
use crate::{Case, Check, Finding, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "Y11",
    name: "open-door",
    topic: Topic::Year,
    question: "How long may a door stand open on the hottest day, with the units stopped?",
    formula: "t = min t [T_inlet(t) ≥ T_max]",
    symbols: &[
        Symbol { symbol: "t", meaning: "from when the door opens until the first limit is met", kind: Kind::Minutes },
        Symbol { symbol: "T_0", meaning: "inside air when it opens", kind: Kind::Temperature },
        Symbol { symbol: "T_inlet", meaning: "air at the inlet of a device", kind: Kind::Temperature },
        Symbol { symbol: "T_max", meaning: "highest inlet air it allows", kind: Kind::Temperature },
    ],
    sources: rests_on::OPEN_DOOR,
    valid: "as Y02, from its hottest hour on; the units stop at once",
    leaves_out: "wind and sun through the doorway, layers of warmer air",
    caution: Some("Work at an open cabinet with live parts is for qualified persons; local code prevails."),
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    judged(check, case, |course| Some(vec![tell(check, case, course, &course.door_open, "the door opens")]))
}

#[cfg(test)]
mod tests {
    use units::System;

    use super::*;
    use crate::heat::testing::step;
    use crate::year::testing::Trial;
    use crate::year::words::minutes;
    use crate::{Outcome, Subject};

    #[track_caller]
    fn check(trial: &Trial, outcome: Outcome, said: &str) -> Finding {
        let finding = trial.only(&CHECK, outcome);
        let found = finding.said().shown(System::Metric).replace('\u{a0}', " ");
        assert!(found.contains(said), "{found}");
        finding
    }

    #[test]
    fn tells_the_minutes_and_the_first_device() {
        let trial = Trial::new();
        let finding = check(&trial, Outcome::Holds, "holds");
        assert_eq!((finding.given, finding.subject), (Some(minutes(12.0)), Subject::Device(trial.router)));
        assert_eq!((step(&finding, "T_0"), step(&finding, "T_max"), step(&finding, "t")), (45.0, 55.0, 12.0));
    }

    #[test]
    fn says_how_long_was_reckoned_where_no_limit_is_met() {
        let mut trial = Trial::new();
        (trial.course.door_open.minutes, trial.course.door_open.device) = (None, None);
        assert_eq!(check(&trial, Outcome::Holds, "no limit is met within 2 h").given, None);
    }

    #[test]
    fn a_limit_that_is_met_already_is_told() {
        let mut trial = Trial::new();
        trial.course.door_open.minutes = Some(0.0);
        check(&trial, Outcome::Holds, "met before the door opens");
    }

    #[test]
    fn without_a_limit_the_silent_devices_are_asked() {
        let mut trial = Trial::new();
        trial.course.door_open.because = "no limit is set".to_owned();
        check(&trial, Outcome::Holds, "no limit is set");
        let router = trial.router;
        trial.change(router, |device| device.inlet_max = None);
        check(&trial, Outcome::Holds, "no limit is set");
        trial.course.rooms[0].hot_limit = None;
        check(&trial, Outcome::NeedsData, "Router");
        let mut empty = Trial::new();
        empty.course.door_open.air.clear();
        check(&empty, Outcome::NeedsData, "another build");
    }

    #[test]
    fn says_so_outside_its_range() {
        let mut trial = Trial::new();
        trial.course.door_open.minutes = Some(f64::NAN);
        check(&trial, Outcome::OutOfRange, "beyond");
    }
}
