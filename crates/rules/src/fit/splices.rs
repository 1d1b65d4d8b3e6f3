//! **F10 `splices`** – is there room for all splices?
//!
//! n_fitted = Σ splices ≥ n_asked
//!
//! - splices  splices a placed device takes  [–]
//! - n_asked  splices asked for              [–]
//!
//! Source:      [`sources::CATALOGUE`](crate::sources::CATALOGUE): it only adds up.
//! Valid for:   placed devices.
//! Agreement:   hand calculation below.
//! Not covered: ribbon splices, which take a tray otherwise.

use units::Kind;

use super::counted::{self, Counted};
use crate::{Asked, Case, Check, Finding, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "F10",
    name: "splices",
    topic: Topic::Fit,
    question: "Is there room for all splices?",
    formula: "n_fitted = Σ splices ≥ n_asked",
    symbols: &[
        Symbol { symbol: "n_fitted", meaning: "splices the placed devices take", kind: Kind::Count },
        Symbol { symbol: "n_asked", meaning: "splices asked for", kind: Kind::Count },
    ],
    sources: counted::SOURCES,
    valid: "placed devices",
    leaves_out: "Ribbon splices, which take a tray otherwise.",
    caution: None,
    asked: Some(Asked::Splices),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let asked = case.project.brief.splices;
    counted::judge(check, case, &Counted { what: "splices", asked, offers: |device| device.splices })
}

#[cfg(test)]
mod tests {
    use super::super::trial::words;
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack};

    /// Two shelves of 24 splices.
    #[track_caller]
    fn check(asked: u32, outcome: Outcome) -> Finding {
        let mut desk = Desk::new();
        let mut shelf = device(1);
        shelf.splices = 24;
        desk.add(shelf.clone(), rack(0, 5));
        desk.add(shelf, rack(0, 6));
        desk.project.brief.splices = asked;
        let [finding] = desk.run(&CHECK).try_into().unwrap();
        assert_eq!(finding.outcome, outcome, "{finding:?}");
        finding
    }

    #[test]
    fn counts_splices_against_what_is_asked_for() {
        check(48, Outcome::Holds);
        let finding = check(50, Outcome::Fails);
        assert_eq!(finding.margin.unwrap().number, -2.0);
        assert_eq!(words(&finding.help[0]), "Add devices for 2 splices more");
        check(0, Outcome::Holds);
    }
}
