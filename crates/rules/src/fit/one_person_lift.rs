//! **F12 `one-person-lift`** – can one person lift each device?
//!
//! m ≤ m_one
//!
//! - m      mass of a device                                                                      [kg]
//! - m_one  most one person lifts here; 23 kg unless the brief says otherwise                     [kg]
//!
//! A heavier device does not make the cabinet unsuitable: it is lifted by two people or with a table, which is planned
//! for. The result is then *tight*, never *fails*.
//!
//! Source:      [`sources::NIOSH_94_110`], the load constant of 23 kg, as the brief's usual value.
//! Valid for:   the mass alone.
//! Agreement:   tests/published/fit.toml, T15-05.
//! Not covered: reach, height, turning, grip and repetition, which lower what one person may lift; parts of a device that
//!              are lifted one by one, such as the blocks of a battery string.

use units::Kind;

use super::subjects::worst_and_unfit;
use crate::{Asked, Case, Check, Finding, Outcome, PlacedDevice, Step, Subject, Symbol, Topic, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "F12",
    name: "one-person-lift",
    topic: Topic::Fit,
    question: "Can one person lift each device?",
    formula: "m ≤ m_one",
    symbols: &[
        Symbol { symbol: "m", meaning: "mass of a device", kind: Kind::Mass },
        Symbol { symbol: "m_one", meaning: "most one person lifts here", kind: Kind::Mass },
    ],
    sources: &[&sources::NIOSH_94_110],
    valid: "the mass alone; heavier devices are tight, because two people or a lifting table take them",
    leaves_out: "Reach, height, turning, grip and repetition, which lower what one person may lift; parts lifted one by one.",
    caution: Some(
        "A guide for planning: reach and height lower what one person may lift. The lift is planned by a qualified person.",
    ),
    asked: Some(Asked::Devices),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let findings = worst_and_unfit(
        &case.devices,
        |device| judge(check, case, device),
        |device, finding| tell(case, device, finding),
    );
    if findings.is_empty() {
        return vec![Finding::holds(check, Subject::Cabinet, "no device to lift")];
    }
    findings
}

fn judge(check: &Check, case: &Case, device: &PlacedDevice<'_>) -> Finding {
    let subject = Subject::Device(device.fitted.id);
    let limit = case.project.brief.one_person_lift;
    let Some(mass) = device.spec.mass else {
        return Finding::needs_data(check, subject, format!("mass of {}", device.spec.name));
    };
    if mass.0 <= limit.0 {
        return Finding::at_most(check, subject, mass, limit, 1.0);
    }
    // Heavier than one person lifts, which is to be planned for and breaks nothing.
    let mut finding = Finding::tells(check, subject, mass).because("two people or a lifting table");
    finding.outcome = Outcome::Tight;
    finding.allowed = Some(limit.into());
    finding
}

/// The load constant of the lifting equation, kg: the source of the limit as long as the brief keeps to it.
const LOAD_CONSTANT: f64 = 23.0;

fn tell(case: &Case, device: &PlacedDevice<'_>, finding: Finding) -> Finding {
    let finding = finding.about(case.name(device));
    let Some(mass) = device.spec.mass else {
        return finding.help(format!("Say what {} weighs", device.spec.name));
    };
    let limit = case.project.brief.one_person_lift;
    let mut most = Step::input("m_one", "most one person lifts here, by the brief", limit);
    if limit.0 == LOAD_CONSTANT {
        most = most.from_source(&sources::NIOSH_94_110);
    }
    finding
        .working(vec![Step::input("m", "mass of the device", mass), most])
        .help("Plan for two people or a lifting table")
}

#[cfg(test)]
mod tests {
    use units::Kilograms;

    use super::super::trial::words;
    use super::*;
    use crate::heat::testing::{Desk, device, rack};

    #[track_caller]
    fn check(masses: &[Option<f64>], outcomes: &[Outcome]) -> Vec<Finding> {
        let mut desk = Desk::new();
        for (unit, mass) in (1..).zip(masses) {
            let mut one = device(1);
            one.mass = mass.map(Kilograms);
            desk.add(one, rack(0, unit));
        }
        let findings = desk.run(&CHECK);
        let found: Vec<Outcome> = findings.iter().map(|finding| finding.outcome).collect();
        assert_eq!(found, outcomes, "{findings:#?}");
        findings
    }

    #[test]
    fn one_person_lifts_up_to_the_limit_of_the_brief() {
        let findings = check(&[Some(5.0), Some(23.0)], &[Outcome::Holds]);
        assert_eq!(findings[0].given.unwrap().number, 23.0);
    }

    #[test]
    fn a_heavier_device_is_tight_and_names_who_lifts_it() {
        let findings = check(&[Some(23.5), Some(5.0), Some(142.0)], &[Outcome::Tight, Outcome::Tight]);
        assert_eq!(words(&findings[0].said()), "tight: two people or a lifting table");
        // Nothing is used of a limit it does not break.
        assert!(findings[0].used.is_none());
    }

    #[test]
    fn the_load_constant_is_the_source_of_no_other_limit() {
        let source = |limit| {
            let mut desk = Desk::new();
            desk.project.brief.one_person_lift = Kilograms(limit);
            desk.add(device(1), rack(0, 1));
            desk.run(&CHECK)[0].working[1].source
        };
        assert_eq!(source(23.0), Some(&sources::NIOSH_94_110));
        assert_eq!(source(25.0), None);
    }

    #[test]
    fn says_so_when_nobody_has_weighed_it() {
        let findings = check(&[Some(30.0), None], &[Outcome::NeedsData, Outcome::Tight]);
        assert_eq!(words(&findings[0].said()), "needs data: mass of Box");
        check(&[], &[Outcome::Holds]);
    }
}
