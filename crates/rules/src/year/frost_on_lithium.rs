//! **Y10 `frost-on-lithium`** – for how many hours of the year is a lithium battery too cold to be charged?
//!
//! t_frost = Σ Δt where T(t) < 0 °C;  t_frost ≤ 0
//!
//! - t_frost  hours of the year below freezing, of each lithium battery   [h]
//! - T        temperature of the battery                                  [°C]
//! - T_low    its lowest in the year                                      [°C]
//!
//! Source:      iron phosphate is not charged below 0 °C: makers, from memory, to be confirmed.
//! Valid for:   as Y01; iron phosphate without a heater of its own.
//! Agreement:   by definition; the hours are counted by the run (`course`).
//! Not covered: batteries that warm themselves, makers who allow a small current below freezing, the cold start (Y05).

use catalogue::Chemistry;
use units::{Celsius, Kind};

use super::battery_life::{chemistry_of, unknown};
use super::given::judged;
use super::rests_on;
use super::words::{device_name, hours};
use crate::course::BatteryYear;
use crate::finding::worst_first;
use crate::sources::{LITHIUM_FROST, STEPPED_BALANCE};
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "Y10",
    name: "frost-on-lithium",
    topic: Topic::Year,
    question: "For how many hours of the year is a lithium battery too cold to be charged?",
    formula: "t_frost = Σ Δt [T(t) < 0 °C] ≤ 0",
    symbols: &[
        Symbol { symbol: "t_frost", meaning: "hours of the year below freezing", kind: Kind::Time },
        Symbol { symbol: "T", meaning: "temperature of the battery", kind: Kind::Temperature },
        Symbol { symbol: "T_low", meaning: "its lowest in the year", kind: Kind::Temperature },
    ],
    sources: rests_on::LITHIUM,
    valid: "as Y01; iron phosphate without a heater of its own",
    leaves_out: "batteries that warm themselves, makers who allow a small current below freezing, the cold start (Y05)",
    caution: Some(
        "Charging lithium cells below freezing plates metal inside them and may lead to a fire: the battery's own guard \
         electronics have to inhibit it, as its maker says. Preliminary, for a qualified person to verify.",
    ),
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    judged(check, case, |course| {
        // Where none freezes the coldest leads.
        let mut batteries: Vec<_> = course.batteries.iter().collect();
        batteries.sort_by(|one, other| one.lowest.total_cmp(&other.lowest));
        let judged = batteries.into_iter().filter_map(|battery| match chemistry_of(case, battery) {
            Some(Chemistry::Lithium) => Some(judge(check, case, battery)),
            Some(Chemistry::Lead | Chemistry::Nickel) => None,
            None => Some(unknown(check, case, battery)),
        });
        let findings = worst_first(judged.collect());
        if findings.is_empty() {
            return Some(vec![Finding::holds(check, Subject::Cabinet, "no lithium battery is fitted")]);
        }
        Some(findings)
    })
}

fn judge(check: &Check, case: &Case, battery: &BatteryYear) -> Finding {
    let frost = hours(battery.hours_below_freezing);
    let working = vec![
        Step::input("T_low", "lowest of the year", Celsius(battery.lowest)),
        Step::input("T_min", "coldest it may be charged at", Celsius(0.0)).from_source(&LITHIUM_FROST),
        Step::computed("t_frost", "hours below freezing", "Σ Δt [T(t) < 0 °C]", Phrase::new(), frost)
            .from_source(&STEPPED_BALANCE),
    ];
    let subject = Subject::Device(battery.id);
    let finding = if frost.number > 0.0 {
        Finding::at_most(check, subject, frost, hours(0.0), 1.0).because("charging is inhibited below freezing")
    } else {
        Finding::tells(check, subject, frost).because("no hour of the year is below freezing")
    };
    finding
        .about(device_name(case, battery.id))
        .working(working)
        .help("A heater beside it that starts above freezing, or a battery that may be charged in the cold")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::step;
    use crate::year::testing::Trial;

    fn at(frost: f64, chemistry: Option<Chemistry>) -> Trial {
        let mut trial = Trial::new();
        let battery = trial.battery;
        trial.change(battery, |device| device.chemistry = chemistry);
        trial.course.batteries[0].hours_below_freezing = frost;
        trial
    }

    #[track_caller]
    fn check(trial: &Trial, outcome: Outcome) -> Finding {
        trial.only(&CHECK, outcome)
    }

    #[test]
    fn no_hour_of_frost_is_allowed_for_lithium() {
        check(&at(0.0, Some(Chemistry::Lithium)), Outcome::Holds);
        let finding = check(&at(0.5, Some(Chemistry::Lithium)), Outcome::Fails);
        assert_eq!((finding.margin, step(&finding, "T_low")), (Some(hours(-0.5)), 6.0));
        assert!(CHECK.caution.is_some_and(|caution| caution.contains("guard")));
    }

    #[test]
    fn other_batteries_bear_frost_and_an_unknown_one_is_asked() {
        check(&at(500.0, Some(Chemistry::Lead)), Outcome::Holds);
        check(&at(500.0, Some(Chemistry::Nickel)), Outcome::Holds);
        check(&at(500.0, None), Outcome::NeedsData);
    }

    #[test]
    fn says_so_outside_its_range() {
        check(&at(f64::NAN, Some(Chemistry::Lithium)), Outcome::OutOfRange);
    }
}
