//! **Y12 `cooling-lost`** – how long does it stay cool enough on the hottest day when the supply fails and the devices run on?
//!
//! t = min t where T_inlet(t) ≥ T_max
//!
//! - t        from when the supply fails until the first limit is met   [min]
//! - T_0      inside air when it fails                                  [°C]
//! - T_inlet  air at the inlet of a device                              [°C]
//! - T_max    highest inlet air it allows                               [°C]
//!
//! Source:      the run from the hottest hour of the brief's hottest day on (`course`): units that no battery feeds stop.
//! Valid for:   as Y02, from its hottest hour on.
//! Agreement:   the run is compared with computed cases in tests/tests; the check itself only compares.
//! Not covered: how long the battery lasts, what discharging it heats, devices that save power or switch themselves off.
//!
//! The brief asks for no time: it tells.

use units::Kind;

use super::given::judged;
use super::rests_on;
use super::until_limit::tell;
use crate::{Case, Check, Finding, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "Y12",
    name: "cooling-lost",
    topic: Topic::Year,
    question: "How long does it stay cool enough on the hottest day when the supply fails and the devices run on?",
    formula: "t = min t [T_inlet(t) ≥ T_max]",
    symbols: &[
        Symbol { symbol: "t", meaning: "from when the supply fails until the first limit is met", kind: Kind::Minutes },
        Symbol { symbol: "T_0", meaning: "inside air when it fails", kind: Kind::Temperature },
        Symbol { symbol: "T_inlet", meaning: "air at the inlet of a device", kind: Kind::Temperature },
        Symbol { symbol: "T_max", meaning: "highest inlet air it allows", kind: Kind::Temperature },
    ],
    sources: rests_on::DAY,
    valid: "as Y02, from its hottest hour on; units that no battery feeds stop at once",
    leaves_out: "how long the battery lasts, what discharging it heats, devices that save power or switch themselves off",
    caution: Some(
        "An alarm for high temperature has to leave somebody the time to act; a battery must not be charged above what \
         its maker allows. Preliminary, for a qualified person to verify.",
    ),
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    judged(check, case, |course| Some(vec![tell(check, case, course, &course.cooling_lost, "the supply fails")]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::year::testing::Trial;
    use crate::year::words::minutes;
    use crate::{Outcome, Subject};

    #[track_caller]
    fn check(trial: &Trial, outcome: Outcome) -> Finding {
        trial.only(&CHECK, outcome)
    }

    #[test]
    fn tells_its_own_run_and_not_that_of_the_door() {
        let trial = Trial::new();
        let finding = check(&trial, Outcome::Holds);
        assert_eq!((finding.given, finding.subject), (Some(minutes(20.0)), Subject::Device(trial.router)));
    }

    #[test]
    fn a_device_that_is_gone_makes_it_another_run() {
        let mut trial = Trial::new();
        trial.course.cooling_lost.device = Some(project::ItemId(999));
        check(&trial, Outcome::NeedsData);
    }

    #[test]
    fn says_so_outside_its_range() {
        let mut trial = Trial::new();
        trial.desk.project.brief.elevation = units::Metres(3001.0);
        check(&trial, Outcome::OutOfRange);
    }
}
