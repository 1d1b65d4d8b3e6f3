//! **F09 `fibre-ports`** – are there fibre ports enough?
//!
//! n_fitted = Σ ports ≥ n_asked
//!
//! - ports    fibre ports a placed device offers  [–]
//! - n_asked  fibre ports asked for               [–]
//!
//! Source:      [`sources::CATALOGUE`](crate::sources::CATALOGUE): it only adds up.
//! Valid for:   placed devices; ports of panels and of powered devices alike, both told in the working.
//! Agreement:   hand calculation below.
//! Not covered: which of the ports are in use; connector types.

use units::Kind;

use super::counted::{self, Counted};
use crate::{Asked, Case, Check, Finding, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "F09",
    name: "fibre-ports",
    topic: Topic::Fit,
    question: "Are there fibre ports enough?",
    formula: "n_fitted = Σ ports ≥ n_asked",
    symbols: &[
        Symbol { symbol: "n_fitted", meaning: "fibre ports of the placed devices", kind: Kind::Count },
        Symbol { symbol: "n_asked", meaning: "fibre ports asked for", kind: Kind::Count },
    ],
    sources: counted::SOURCES,
    valid: "placed devices; ports of panels and of powered devices alike",
    leaves_out: "Which of the ports are in use; connector types.",
    caution: None,
    asked: Some(Asked::FibrePorts),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let asked = case.project.brief.fibre_ports;
    counted::judge(check, case, &Counted { what: "fibre ports", asked, offers: |device| device.fibre_ports })
}

#[cfg(test)]
mod tests {
    use project::Place;

    use super::super::trial::words;
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack, step};

    /// A panel of 48 and a switch of 4 ports, and a panel that is not placed.
    fn desk(asked: u32) -> Desk {
        let mut desk = Desk::new();
        let (mut panel, mut switch) = (device(1), device(1));
        (panel.kind, panel.fibre_ports) = (catalogue::DeviceKind::Fibre, 48);
        switch.fibre_ports = 4;
        desk.catalogue
            .devices
            .insert("panel".into(), catalogue::Device { name: "Panel 48".to_owned(), ..panel.clone() });
        desk.add(panel.clone(), rack(0, 5));
        desk.add(switch, rack(0, 6));
        desk.add(panel, Place::Unplaced);
        desk.project.brief.fibre_ports = asked;
        desk
    }

    #[track_caller]
    fn check(asked: u32, outcome: Outcome) -> Finding {
        let [finding] = desk(asked).run(&CHECK).try_into().unwrap();
        assert_eq!(finding.outcome, outcome, "{finding:?}");
        assert_eq!(finding.given.unwrap().number, 52.0);
        finding
    }

    #[test]
    fn counts_placed_ports_against_what_is_asked_for() {
        let finding = check(52, Outcome::Holds);
        assert_eq!((step(&finding, "n_panels"), step(&finding, "n_others")), (48.0, 4.0));
        let finding = check(53, Outcome::Fails);
        assert_eq!(words(&finding.help[0]), "Add Panel 48: 48 fibre ports more");
        assert_eq!(words(&check(101, Outcome::Fails).help[0]), "Add 2 × Panel 48: 96 fibre ports more");
    }

    #[test]
    fn holds_and_says_so_when_none_are_asked_for() {
        assert_eq!(words(&check(0, Outcome::Holds).said()), "holds: none asked for");
    }
}
