//! **P12 `outlet-protection`** – does every outlet for tools open on a fault to ground?
//!
//! n_bare = 0
//!
//! - n_out   outlets for tools                                             [–]
//! - n_bare  those that must open on a fault to ground, and do not         [–]
//!
//! Source:      NFPA 70, 210.8(B): outdoors, up to 150 V to ground and 50 A; IEC 60364-4-41, 411.3.3: outdoors, up to 32 A.
//!              Both from memory, to be confirmed.
//! Valid for:   outlets outdoors, which is where the cabinet stands; protection in the outlet itself.
//! Agreement:   T08-34; both sides of each limit below.
//! Not covered: a breaker that opens on a fault to ground; outlet strips for devices, which are not for tools.

use catalogue::Role;
use project::SiteSupply;
use units::Kind;

use super::all_fed::CAUTION;
use super::code::{Code, Entry};
use super::given::{mains, roles};
use crate::{Asked, Case, Check, Finding, Step, Subject, Symbol, Topic, count, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "P12",
    name: "outlet-protection",
    topic: Topic::Power,
    question: "Does every outlet for tools open on a fault to ground?",
    formula: "n_bare = 0",
    symbols: &[
        Symbol { symbol: "n_out", meaning: "outlets for tools", kind: Kind::Count },
        Symbol {
            symbol: "n_bare",
            meaning: "those that must open on a fault to ground, and do not",
            kind: Kind::Count,
        },
    ],
    sources: &[&sources::NFPA_70, &sources::IEC_60364_4_41],
    valid: "outlets outdoors, which is where the cabinet stands; protection in the outlet itself",
    leaves_out: "a breaker that opens on a fault to ground; outlet strips for devices, which are not for tools",
    caution: Some(CAUTION),
    asked: Some(Asked::Supply),
    run,
};

/// Largest outlet outdoors that must open on a fault to ground by IEC 60364-4-41, A. From memory, to be confirmed.
const LARGEST_GUARDED: f64 = 32.0;

/// Whether an outlet of so many amperes must open on a fault to ground at this site.
fn must_open(case: &Case, amperes: f64) -> Option<Entry<bool>> {
    let brief = &case.project.brief;
    match brief.supply {
        SiteSupply::Single230 | SiteSupply::ThreePhase400 => {
            Some(Entry { value: amperes <= LARGEST_GUARDED, source: &sources::IEC_60364_4_41 })
        }
        site => Code::of(brief.power.code).outdoor_outlet_guarded(mains(site).to_ground, amperes),
    }
}

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let mut findings = Vec::new();
    let mut rests_on = &sources::NFPA_70;
    let mut outlets = 0;
    for (device, role) in roles(case) {
        let Role::Outlet { amperes, guarded } = role else { continue };
        outlets += 1;
        let Some(must) = must_open(case, amperes.0) else {
            let why = "this edition of the electrical code has no such rule here";
            findings
                .push(Finding::out_of_range(check, Subject::Device(device.fitted.id), why).about(case.name(device)));
            continue;
        };
        rests_on = must.source;
        if must.value && !guarded {
            let finding =
                Finding::fails(check, Subject::Device(device.fitted.id), "it does not open on a fault to ground");
            findings.push(finding.about(case.name(device)).help("Take a guarded outlet"));
        }
    }
    let steps = vec![
        Step::input("n_out", "outlets for tools", count(outlets)),
        Step::input("n_bare", "those that must open on a fault to ground, and do not", count(findings.len()))
            .from_source(rests_on),
    ];
    if let Some(first) = findings.first_mut() {
        first.working = steps;
        return findings;
    }
    let why = if outlets == 0 { "there is no outlet for tools" } else { "none is left that must and does not" };
    vec![Finding::holds(check, Subject::Supply, why).working(steps)]
}

#[cfg(test)]
mod tests {
    use units::Amperes;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, rack, step};
    use crate::power::testing::with_role;

    #[track_caller]
    fn check(site: SiteSupply, amperes: f64, guarded: bool, outcome: Outcome) {
        let mut desk = Desk::new();
        desk.project.brief.supply = site;
        desk.add(with_role("Outlet", Role::Outlet { amperes: Amperes(amperes), guarded }), rack(0, 1));
        let found = desk.run(&CHECK).remove(0);
        assert_eq!(found.outcome, outcome, "{site:?} {amperes} A");
        let bare = if outcome == Outcome::Fails { 1.0 } else { 0.0 };
        assert_eq!((step(&found, "n_out"), step(&found, "n_bare")), (1.0, bare));
    }

    #[test]
    fn an_outlet_outdoors_opens_on_a_fault_to_ground() {
        check(SiteSupply::SplitPhase120240, 20.0, true, Outcome::Holds);
        check(SiteSupply::SplitPhase120240, 20.0, false, Outcome::Fails);
        check(SiteSupply::SplitPhase120240, 50.0, false, Outcome::Fails);
        check(SiteSupply::SplitPhase120240, 50.1, false, Outcome::Holds);
        check(SiteSupply::Single230, 32.0, false, Outcome::Fails);
        check(SiteSupply::Single230, 32.1, false, Outcome::Holds);
        check(SiteSupply::ThreePhase400, 16.0, true, Outcome::Holds);
    }

    #[test]
    fn a_cabinet_without_outlets_asks_for_nothing() {
        assert_eq!(Desk::new().run(&CHECK)[0].outcome, Outcome::Holds);
    }
}
