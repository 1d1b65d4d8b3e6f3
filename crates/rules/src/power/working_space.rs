//! **P15 `working-space`** – how much room is asked for before the doors?
//!
//! d_clear by V_g
//!
//! - V_g      voltage to ground                                         [V]
//! - d_clear  clear depth before what may be worked on while live       [mm]
//!
//! Source:      NFPA 70, Table 110.26(A)(1) of the edition in the brief.
//! Valid for:   up to 1000 V to ground.
//! Agreement:   T08-27; the edges of the rows, beside the table.
//! Not covered: whether the site has that room; its width, 30 in or that of the equipment, and its height, 6½ ft (from
//!              memory); sides that nobody works at.

use units::{Kind, Value};

use super::all_fed::CAUTION;
use super::code::{Code, Opposite};
use super::given::mains;
use crate::{Asked, Case, Check, Finding, Step, Subject, Symbol, Topic, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "P15",
    name: "working-space",
    topic: Topic::Power,
    question: "How much room is asked for before the doors?",
    formula: "d_clear by V_g",
    symbols: &[
        Symbol { symbol: "V_g", meaning: "voltage to ground", kind: Kind::Voltage },
        Symbol {
            symbol: "d_clear",
            meaning: "clear depth before what may be worked on while live",
            kind: Kind::Length,
        },
    ],
    sources: &[&sources::NFPA_70],
    valid: "up to 1000 V to ground",
    leaves_out: "whether the site has that room; its width, 30 in or that of the equipment, and its height, 6½ ft (from \
                 memory); sides that nobody works at",
    caution: Some(CAUTION),
    asked: Some(Asked::Supply),
    run,
};

/// What may stand opposite, and in words.
const OPPOSITE: [(Opposite, &str); 3] = [
    (Opposite::Insulated, "clear depth with nothing live or grounded opposite"),
    (Opposite::Grounded, "clear depth with brick, concrete or metal opposite"),
    (Opposite::Live, "clear depth with something live opposite"),
];

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let brief = &case.project.brief;
    let volts = mains(brief.supply).to_ground;
    let code = Code::of(brief.power.code);
    let mut steps = vec![Step::input("V_g", "voltage to ground", Value::new(volts, Kind::Voltage))];
    let mut most: Option<f64> = None;
    for (opposite, meaning) in OPPOSITE {
        let Some(depth) = code.working_depth(volts, opposite) else { continue };
        most = Some(most.map_or(depth.value, |most| most.max(depth.value)));
        steps.push(Step::input("d_clear", meaning, Value::new(depth.value, Kind::Length)).from_source(depth.source));
    }
    let Some(most) = most else {
        let why = "the table of this edition does not go so far";
        return vec![Finding::out_of_range(check, Subject::Supply, why).working(steps)];
    };
    let why = "clear depth before the doors, whatever stands opposite";
    let finding = Finding::tells(check, Subject::Supply, Value::new(most, Kind::Length));
    vec![finding.because(why).working(steps)]
}

#[cfg(test)]
mod tests {
    use project::SiteSupply;

    use super::*;
    use crate::heat::testing::Desk;
    use crate::{Outcome, Standing};

    #[track_caller]
    fn check(site: SiteSupply, feet: f64, standing: Standing) {
        let mut desk = Desk::new();
        desk.project.brief.supply = site;
        let found = desk.run(&CHECK).remove(0);
        assert_eq!(found.outcome, Outcome::Holds);
        assert!(found.given.is_some_and(|depth| (depth.number / 304.8 - feet).abs() < 1e-12), "{:?}", found.given);
        assert_eq!(found.working[3].source.map(|source| source.standing), Some(standing));
    }

    #[test]
    fn the_depth_follows_from_the_volts_to_ground() {
        check(SiteSupply::SplitPhase120240, 3.0, Standing::Read);
        check(SiteSupply::ThreePhase208, 3.0, Standing::Read);
        check(SiteSupply::Single230, 4.0, Standing::FromMemory);
        check(SiteSupply::Remote48Dc, 3.0, Standing::Read);
    }
}
