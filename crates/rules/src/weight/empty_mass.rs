//! **W02 `empty-mass`** – what does the cabinet weigh without devices?
//!
//! m_0 = Σ ρ · V + Σ m_parts, without devices
//!
//! - m_0  mass with options, climate units and lifting eyes as fitted   [kg]
//!
//! Source:      the solids of the model; densities and masses of the catalogue.
//! Valid for:   as W01.
//! Not covered: as W01.

use units::Kind;

use super::sums::{kilograms, whole};
use crate::sources::{CATALOGUE, GEOMETRY};
use crate::{Case, Check, Finding, Step, Subject, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "W02",
    name: "empty-mass",
    topic: Topic::Weight,
    question: "What does the cabinet weigh without devices?",
    formula: "m_0 = Σ ρ · V + Σ m_parts",
    symbols: &[Symbol { symbol: "m_0", meaning: "mass without devices", kind: Kind::Mass }],
    sources: &[&GEOMETRY, &CATALOGUE],
    valid: "sheet by density and volume",
    leaves_out: "cables, paint, welds",
    caution: None,
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    match whole(check, case, geometry::Model::empty_mass) {
        Err(finding) => vec![*finding],
        Ok((_, sum)) => {
            let mass = kilograms(sum.kg);
            let step = Step::input("m_0", "cabinet with options and climate units", mass).from_source(&GEOMETRY);
            vec![Finding::tells(check, Subject::Cabinet, mass).working(vec![step])]
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack};

    #[test]
    fn devices_do_not_count() {
        let mut desk = Desk::new();
        let empty = desk.run(&CHECK).remove(0);
        desk.add(device(2), rack(0, 1));
        assert_eq!(desk.run(&CHECK)[0], empty);
        assert_eq!(empty.outcome, Outcome::Holds);
    }

    #[test]
    fn a_missing_door_is_asked_for() {
        let mut desk = Desk::new();
        desk.catalogue.doors.clear();
        assert_eq!(desk.run(&CHECK)[0].outcome, Outcome::NeedsData);
    }
}
