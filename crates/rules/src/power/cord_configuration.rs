//! **P17 `cord-configuration`** – do the contacts of each generator inlet suit the service?
//!
//! n_pole = n_mains,  V_mains ≤ V_rated,  I_inlet ≤ I_rated
//!
//! - n_pole   live and neutral contacts of the inlet                            [–]
//! - n_mains  live conductors and neutral of the service                        [–]
//! - V_mains  voltage to neutral and between phases of the service              [V]
//! - V_rated  those of the published configuration; V_mains is at least 0.9 of them   [V]
//! - I_inlet  rated current of the inlet                                        [A]
//! - I_rated  rated current of the published configuration                      [A]
//!
//! Source:      NEMA WD 6, IEC 60309-2 and locking connectors of the trade, all from memory, to be confirmed.
//! Valid for:   configurations that assets/codes/connectors.toml knows.
//! Agreement:   T08-35, T08-36; each mismatch below.
//! Not covered: whether the inlet is large enough for what it carries (P13); its enclosure type; the cord's length.

use catalogue::Role;
use units::{Kind, Value};

use super::all_fed::CAUTION;
use super::code::{Configuration, configuration};
use super::given::{Mains, mains, roles};
use crate::finding::worst_first;
use crate::{Asked, Case, Check, Finding, Step, Subject, Symbol, Topic, count, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "P17",
    name: "cord-configuration",
    topic: Topic::Power,
    question: "Do the contacts of each generator inlet suit the service?",
    formula: "n_pole = n_mains;  V_mains ≤ V_rated;  I_inlet ≤ I_rated",
    symbols: &[
        Symbol { symbol: "n_pole", meaning: "live and neutral contacts of the inlet", kind: Kind::Count },
        Symbol { symbol: "n_mains", meaning: "live conductors and neutral of the service", kind: Kind::Count },
        Symbol { symbol: "V_mains", meaning: "to neutral and between phases of the service", kind: Kind::Voltage },
        Symbol { symbol: "V_rated", meaning: "those of the published configuration", kind: Kind::Voltage },
        Symbol { symbol: "I_inlet", meaning: "rated current of the inlet", kind: Kind::Current },
        Symbol { symbol: "I_rated", meaning: "that of the published configuration", kind: Kind::Current },
    ],
    sources: &[&sources::CONFIGURATIONS, &sources::CATALOGUE],
    valid: "configurations that assets/codes/connectors.toml knows",
    leaves_out: "whether the inlet is large enough for what it carries (P13); its enclosure type; the cord's length",
    caution: Some(CAUTION),
    asked: Some(Asked::Generator),
    run,
};

/// A configuration is for a service of at least this share of its rated voltage: 120 V of 125, 240 of 250. Common practice.
const LEAST_OF_RATED: f64 = 0.9;

/// Whether contacts are made for these conductors.
fn suits(contacts: &Configuration, mains: &Mains) -> bool {
    let near = |(volts, rated): (&f64, &f64)| *volts <= *rated && *volts >= LEAST_OF_RATED * rated;
    contacts.poles == mains.poles
        && contacts.volts.len() == mains.volts.len()
        && mains.volts.iter().zip(contacts.volts).all(near)
}

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let mains = mains(case.project.brief.supply);
    let mut findings = Vec::new();
    for (device, role) in roles(case) {
        let Role::GeneratorInlet { amperes, configuration: name } = role else { continue };
        let subject = Subject::Device(device.fitted.id);
        let about = case.name(device);
        if mains.volts.is_empty() {
            let finding = Finding::fails(check, subject, format!("the service is {}, and no cord's", mains.name));
            findings.push(finding.about(about).help("Take the inlet out"));
            continue;
        }
        let Some(found) = configuration(name) else {
            let why = format!("a published configuration of its contacts; “{name}” is none that is known here");
            findings.push(Finding::needs_data(check, subject, why).about(about));
            continue;
        };
        let contacts = found.value;
        let (inlet, rated) = (Value::new(amperes.0, Kind::Current), Value::new(contacts.amperes, Kind::Current));
        let mut steps = vec![
            Step::input(
                "n_pole",
                format!("live and neutral contacts of {}", contacts.name),
                count(contacts.poles as usize),
            )
            .from_source(found.source),
            Step::input("n_mains", "live conductors and neutral of the service", count(mains.poles as usize)),
        ];
        let volts = |of: f64| Value::new(of, Kind::Voltage);
        steps.extend(mains.volts.iter().map(|of| Step::input("V_mains", mains.name, volts(*of))));
        steps.extend(
            contacts.volts.iter().map(|of| {
                Step::input("V_rated", "of the published configuration", volts(*of)).from_source(found.source)
            }),
        );
        steps.push(Step::input("I_inlet", "rated current of the inlet", inlet));
        steps.push(Step::input("I_rated", "of the published configuration", rated).from_source(found.source));
        let finding = if suits(&contacts, &mains) {
            Finding::at_most(check, subject, inlet, rated, 1.0)
                .help("Take an inlet whose contacts bear its rated current")
        } else {
            let why = format!("{} is not made for a service of {}", contacts.name, mains.name);
            Finding::fails(check, subject, why).help("Take an inlet whose contacts match the service")
        };
        findings.push(finding.about(about).working(steps));
    }
    if findings.is_empty() {
        return vec![Finding::holds(check, Subject::Supply, "there is no generator inlet")];
    }
    worst_first(findings)
}

#[cfg(test)]
mod tests {
    use project::SiteSupply::{self, Remote48Dc, Single120, Single230, SplitPhase120240, ThreePhase208, ThreePhase400};

    use super::*;
    use crate::Outcome::{self, Fails, Holds, NeedsData};
    use crate::heat::testing::{Desk, rack};
    use crate::power::testing::inlet_of;

    #[track_caller]
    fn check(site: SiteSupply, amperes: f64, name: &str, outcome: Outcome) {
        let mut desk = Desk::new();
        desk.project.brief.supply = site;
        desk.add(inlet_of(amperes, name), rack(0, 1));
        assert_eq!(desk.run(&CHECK)[0].outcome, outcome, "{name} at {site:?}");
    }

    #[test]
    fn the_contacts_match_the_service() {
        check(SplitPhase120240, 30.0, "L14-30", Holds);
        check(SplitPhase120240, 30.0, "l14-30", Holds);
        check(SplitPhase120240, 50.0, "CS6365", Holds);
        check(SplitPhase120240, 30.0, "L5-30", Fails);
        check(SplitPhase120240, 30.0, "L6-30", Fails);
        check(Single120, 30.0, "L5-30", Holds);
        check(Single120, 30.0, "L14-30", Fails);
        check(ThreePhase208, 30.0, "L21-30", Holds);
        check(ThreePhase208, 30.0, "L14-30", Fails);
        check(Single230, 32.0, "IEC 60309 32 A 230 V 2P+E", Holds);
        check(Single230, 30.0, "L6-30", Holds);
        check(ThreePhase400, 32.0, "IEC 60309 32 A 400 V 3P+N+E", Holds);
        check(ThreePhase400, 32.0, "IEC 60309 32 A 230 V 2P+E", Fails);
        check(Remote48Dc, 30.0, "L14-30", Fails);
    }

    #[test]
    fn the_contacts_bear_the_rated_current() {
        check(SplitPhase120240, 30.1, "L14-30", Fails);
        check(SplitPhase120240, 20.0, "L14-30", Holds);
    }

    #[test]
    fn contacts_that_nobody_knows_are_asked_for() {
        check(SplitPhase120240, 30.0, "my own", NeedsData);
        assert_eq!(Desk::new().run(&CHECK)[0].outcome, Holds);
    }
}
