//! **Y03 `hours-above`** – for how many hours of the year is the air at a device's inlet warmer than it allows?
//!
//! t_hot = Σ Δt where T_inlet(t) > T_max;  t_hot ≤ 0
//!
//! - t_hot    hours of the year above the limit, of each device   [h]
//! - T_inlet  air at its inlet                                    [°C]
//! - T_max    highest inlet air it allows                         [°C]
//!
//! Source:      the run over the year (`course`); limits from the catalogue.
//! Valid for:   as Y01.
//! Agreement:   the run is compared with computed years in tests/tests; the check itself only compares.
//! Not covered: as Y01; devices that allow a short excursion: every hour above the limit counts.

use units::{Celsius, Kind};

use super::given::judged;
use super::rests_on;
use super::words::{device_name, hours};
use crate::course::{Course, DeviceYear};
use crate::finding::worst_first;
use crate::heat::hottest_inside_air::unsaid;
use crate::sources::{CATALOGUE, STEPPED_BALANCE};
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, count};

/// The check.
pub static CHECK: Check = Check {
    code: "Y03",
    name: "hours-above",
    topic: Topic::Year,
    question: "For how many hours of the year is the air at a device's inlet warmer than it allows?",
    formula: "t_hot = Σ Δt [T_inlet(t) > T_max] ≤ 0",
    symbols: &[
        Symbol { symbol: "t_hot", meaning: "hours of the year above the limit", kind: Kind::Time },
        Symbol { symbol: "T_inlet", meaning: "air at the inlet of a device", kind: Kind::Temperature },
        Symbol { symbol: "T_max", meaning: "highest inlet air it allows", kind: Kind::Temperature },
    ],
    sources: rests_on::YEAR,
    valid: "as Y01",
    leaves_out: "as Y01; devices that allow a short excursion: every hour above the limit counts",
    caution: None,
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    judged(check, case, |course| {
        let mut limited: Vec<_> = devices(course).filter(|device| device.hours_above.is_some()).collect();
        // Where no limit is met the device nearest to its own leads.
        let left = |device: &DeviceYear| limit(case, device).map_or(f64::INFINITY, |limit| limit.0 - device.highest);
        limited.sort_by(|one, other| left(one).total_cmp(&left(other)));
        let found = limited.iter().map(|device| judge(check, case, device, limited.len())).collect();
        let mut findings = worst_first(found);
        match unsaid(check, case) {
            Some(unsaid) => findings.push(unsaid),
            None if findings.is_empty() => {
                findings.push(Finding::holds(check, Subject::Cabinet, "no device sets a limit"));
            }
            None => {}
        }
        Some(findings)
    })
}

fn devices(course: &Course) -> impl Iterator<Item = &DeviceYear> {
    course.room_years.iter().flat_map(|room| &room.devices)
}

/// The highest inlet air of a device.
fn limit(case: &Case, device: &DeviceYear) -> Option<Celsius> {
    case.device(device.id)?.spec.inlet_max
}

fn judge(check: &Check, case: &Case, device: &DeviceYear, judged: usize) -> Finding {
    let above = device.hours_above.unwrap_or_default();
    let mut working = vec![
        Step::input("n", "devices that set a limit", count(judged)),
        Step::input("T_high", "highest air at the inlet in the year", Celsius(device.highest)),
    ];
    if let Some(limit) = limit(case, device) {
        working.push(Step::input("T_max", "highest inlet air it allows", limit).from_source(&CATALOGUE));
    }
    let formula = "Σ Δt [T_inlet(t) > T_max]";
    let step = Step::computed("t_hot", "hours of the year above the limit", formula, Phrase::new(), hours(above));
    working.push(step.from_source(&STEPPED_BALANCE));
    let subject = Subject::Device(device.id);
    let finding = if above > 0.0 {
        Finding::at_most(check, subject, hours(above), hours(0.0), 1.0)
    } else {
        Finding::tells(check, subject, hours(above)).because("no hour of the year is above a limit")
    };
    finding.about(device_name(case, device.id)).working(working)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::step;
    use crate::year::testing::Trial;

    #[track_caller]
    fn check(trial: &Trial, outcomes: &[Outcome]) -> Vec<Finding> {
        let findings = trial.run(&CHECK);
        assert_eq!(findings.iter().map(|finding| finding.outcome).collect::<Vec<_>>(), outcomes, "{findings:?}");
        findings
    }

    #[test]
    fn no_hour_above_is_allowed() {
        let mut trial = Trial::new();
        let findings = check(&trial, &[Outcome::Holds]);
        assert_eq!(findings[0].given, Some(hours(0.0)));
        trial.course.room_years[0].devices[0].hours_above = Some(0.25);
        let findings = check(&trial, &[Outcome::Fails]);
        assert_eq!(findings[0].margin, Some(hours(-0.25)));
        assert_eq!((step(&findings[0], "T_high"), step(&findings[0], "T_max")), (48.0, 55.0));
    }

    #[test]
    fn the_device_with_most_hours_leads_and_each_other_follows() {
        let mut trial = Trial::new();
        trial.course.room_years[0].devices[0].hours_above = Some(3.0);
        trial.course.room_years[0].devices[1].hours_above = Some(7.5);
        let findings = check(&trial, &[Outcome::Fails, Outcome::Fails]);
        assert_eq!(findings[0].subject, Subject::Device(trial.battery));
        assert_eq!(findings[0].given, Some(hours(7.5)));
    }

    #[test]
    fn the_device_nearest_to_its_limit_leads_where_none_meets_it() {
        let mut trial = Trial::new();
        let battery = trial.battery;
        trial.change(battery, |device| device.inlet_max = Some(Celsius(50.0)));
        assert_eq!(check(&trial, &[Outcome::Holds])[0].subject, Subject::Device(battery));
    }

    #[test]
    fn a_device_that_says_no_limit_is_asked_for_it() {
        let mut trial = Trial::new();
        let router = trial.router;
        trial.change(router, |device| device.inlet_max = None);
        trial.course.room_years[0].devices[0].hours_above = None;
        check(&trial, &[Outcome::Holds, Outcome::NeedsData]);
        trial.course.room_years[0].devices.clear();
        check(&trial, &[Outcome::NeedsData]);
        trial.change(router, |device| device.power = units::Watts(0.0));
        check(&trial, &[Outcome::Holds]);
    }

    #[test]
    fn says_so_outside_its_range() {
        let mut trial = Trial::new();
        trial.desk.project.brief.hottest = Celsius(60.5);
        check(&trial, &[Outcome::OutOfRange]);
    }
}
