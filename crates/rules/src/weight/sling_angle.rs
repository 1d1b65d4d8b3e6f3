//! **W05 `sling-angle`** – do the legs stand steep enough when the hook hangs over the centre of gravity?
//!
//! θ = atan(h / r)
//!
//! - θ  angle of the flattest leg from the horizontal                [°]
//! - h  height of the hook above the eyes                            [mm]
//! - r  distance of the farthest eye from the plumb line             [mm]
//!
//! Source:      geometry; at least 30°: ASME B30.9, from memory. Below 45° it is tight, common practice.
//! Valid for:   four legs to one hook. A leg within 5° of the vertical counts as vertical (29 CFR 1910.184(b)).
//! Agreement:   tests/published/lifting.toml, T03-07 within 0.05°, T03-08.
//! Not covered: spreaders.

use units::{Degrees, Kind};

use super::formulas::eye_bolt::VERTICAL;
use super::hoist::Hoist;
use super::sums::{CAUTION, millimetres};
use crate::sources::{ASME_B30_9, CFR_1910_184, GEOMETRY};
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// Least angle from the horizontal, degrees.
const LEAST: f64 = 30.0;
/// Angle below which it is tight, degrees. Common practice, no source.
const COMFORTABLE: f64 = 45.0;

/// The check.
pub static CHECK: Check = Check {
    code: "W05",
    name: "sling-angle",
    topic: Topic::Weight,
    question: "Do the legs stand steep enough when the hook hangs over the centre of gravity?",
    formula: "θ = atan(h / r) ≥ 30°",
    symbols: &[
        Symbol { symbol: "θ", meaning: "flattest leg, from the horizontal", kind: Kind::Angle },
        Symbol { symbol: "h", meaning: "hook above the eyes", kind: Kind::Length },
        Symbol { symbol: "r", meaning: "plumb line to the farthest eye", kind: Kind::Length },
    ],
    sources: &[&GEOMETRY, &ASME_B30_9, &CFR_1910_184],
    valid: "four legs to one hook",
    leaves_out: "spreaders",
    caution: Some(CAUTION),
    asked: Some(Asked::Lifting),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let hoist = match Hoist::of(check, case) {
        Ok(hoist) => hoist,
        Err(finding) => return vec![*finding],
    };
    let mut working = hoist.steps(case);
    working.push(Step::input("θ_min", "least angle", Degrees(LEAST)).from_source(&ASME_B30_9));
    let angle = hoist.flattest().1;
    if 90.0 - angle <= VERTICAL {
        let upright = Step::input("β", "within 5° of the vertical: counts as vertical", Degrees(90.0 - angle));
        working.push(upright.from_source(&CFR_1910_184));
    }
    let finding = Finding::at_least(check, Subject::Eyes, Degrees(angle), Degrees(LEAST), LEAST / COMFORTABLE);
    let higher = Phrase::from("A hook ").value(millimetres(hoist.height_for(COMFORTABLE)));
    vec![finding.working(working).help(higher.text(" above the eyes would stand the legs at 45°"))]
}

#[cfg(test)]
mod tests {
    use units::Millimetres;

    use super::*;
    use crate::Outcome;
    use crate::weight::lifting_testing::desk_with_eyes;

    fn check(height: f64, outcome: Outcome) -> Finding {
        let mut desk = desk_with_eyes(catalogue::EyeSort::SwivelHoistRing, 1000.0);
        desk.project.brief.hook_height = Millimetres(height);
        let finding = desk.run(&CHECK).remove(0);
        assert_eq!(finding.outcome, outcome, "{finding:?}");
        finding
    }

    #[test]
    fn each_limit_holds_on_both_sides() {
        let reach = {
            let finding = check(5000.0, Outcome::Holds);
            crate::heat::testing::step(&finding, "r")
        };
        let height = |degrees: f64| reach * libm::tan(degrees.to_radians());
        check(height(45.01), Outcome::Holds);
        check(height(44.99), Outcome::Tight);
        check(height(30.01), Outcome::Tight);
        assert_eq!(check(height(29.99), Outcome::Fails).help.len(), 1);
        check(0.0, Outcome::OutOfRange);
        check(f64::NAN, Outcome::OutOfRange);
    }

    #[test]
    fn a_leg_near_the_vertical_counts_as_vertical() {
        let finding = check(50_000.0, Outcome::Holds);
        assert!(finding.working.iter().any(|step| step.symbol == "β"));
    }

    #[test]
    fn without_eyes_they_are_asked_for() {
        let finding = crate::heat::testing::Desk::new().run(&CHECK).remove(0);
        assert_eq!((finding.outcome, finding.given), (Outcome::NeedsData, None));
    }
}
