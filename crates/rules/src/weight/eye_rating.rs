//! **W07 `eye-rating`** – do the lifting eyes carry the pull of the legs at their angles?
//!
//! T_i / g ≤ c(β_i) · R,  β = 90° − θ
//!
//! - T_i  greatest tension of leg i, from W06                     [N]
//! - β_i  angle of leg i from the bolt's axis                     [°]
//! - c    share of the rating left at that angle                  [–]
//! - R    rating of one eye along its axis                        [kg]
//!
//! Source:      rigging trade tables, from memory (`formulas/eye_bolt.rs`); ratings of the catalogue.
//! Valid for:   eyes upright on the roof, pull in the plane of the eye.
//! Agreement:   tests/published/lifting.toml, T03-09…11.
//! Not covered: the roof under the eye, eyes turned away from the pull, snatching. The reserve of a fifth is common
//!              practice, no source.

use catalogue::{EyeSort, LiftingEye};
use units::{Degrees, Kind, Value};

use super::formulas::GRAVITY;
use super::formulas::eye_bolt::{VERTICAL, share_of_rating};
use super::formulas::sling::worst_tensions;
use super::hoist::{EYE_NAMES, Hoist};
use super::sums::{CAUTION, helped, kilograms, millimetres, newtons};
use crate::sources::{CATALOGUE, RIGGING_TABLES, STATICS};
use crate::{Asked, Case, Check, Finding, Outcome, Phrase, Step, Subject, Symbol, Topic};

/// Share of the rating above which it is tight. Common practice, no source.
const RESERVE: f64 = 0.8;
/// Steepest angle from the axis at which a shoulder eye bolt is still taken, degrees.
const SHOULDER_LIMIT: f64 = 45.0;

/// The check.
pub static CHECK: Check = Check {
    code: "W07",
    name: "eye-rating",
    topic: Topic::Weight,
    question: "Do the lifting eyes carry the pull of the legs at their angles?",
    formula: "T_i / g ≤ c(β_i) · R",
    symbols: &[
        Symbol { symbol: "T", meaning: "tension of the leg", kind: Kind::Force },
        Symbol { symbol: "β", meaning: "angle of the leg from the bolt's axis", kind: Kind::Angle },
        Symbol { symbol: "c", meaning: "share of the rating left", kind: Kind::Share },
        Symbol { symbol: "R", meaning: "rating of one eye along its axis", kind: Kind::Mass },
    ],
    sources: &[&STATICS, &RIGGING_TABLES, &CATALOGUE],
    valid: "eyes upright on the roof, pull in the plane of the eye",
    leaves_out: "the roof under the eye, eyes turned away from the pull, snatching",
    caution: Some(CAUTION),
    asked: Some(Asked::Lifting),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let hoist = match Hoist::of(check, case) {
        Ok(hoist) => hoist,
        Err(finding) => return vec![*finding],
    };
    let part = case.project.build.lifting_eyes.as_ref().and_then(|part| case.catalogue.lifting_eyes.get(part));
    let Some(eye) = part else {
        return vec![Finding::needs_data(check, Subject::Eyes, case.missing_parts())];
    };
    let Some(tensions) = worst_tensions(&hoist.eyes, hoist.hook, hoist.weight) else {
        let why = "the centre of gravity lies outside the lifting eyes: it cannot hang level";
        return vec![Finding::fails(check, Subject::Eyes, why).working(hoist.steps(case))];
    };
    let from_axis = hoist.angles.map(|angle| 90.0 - angle);
    let other = other_eye(case, tensions.map(|tension| tension / GRAVITY), from_axis);
    let mut working = hoist.steps(case);
    let (flattest, angle) = hoist.flattest();
    if share_of_rating(eye.sort, 90.0 - angle).is_none() {
        let why = Phrase::from("the ").text(EYE_NAMES[flattest]).text(" leg pulls ").value(Degrees(90.0 - angle));
        let why = why.text(" from the bolt's axis, where such eyes are refused");
        working
            .push(Step::input("β", "angle from the bolt's axis", Degrees(90.0 - angle)).from_source(&RIGGING_TABLES));
        let finding = Finding::fails(check, Subject::Eyes, why).working(working);
        let steepest = if eye.sort == EyeSort::ShoulderEyeBolt { SHOULDER_LIMIT } else { VERTICAL };
        let higher = Phrase::from("A hook ").value(millimetres(hoist.height_for(90.0 - steepest)));
        let higher = higher.text(" above the eyes would bring the legs within their angle");
        let rings = if other.is_empty() { "Swivel hoist rings take such a pull".into() } else { other };
        return vec![finding.help(rings).help(higher)];
    }
    // The leg that uses most of what its angle leaves.
    let mut worst = (0, 0.0, 1.0);
    for (leg, tension) in tensions.into_iter().enumerate() {
        let share = share_of_rating(eye.sort, 90.0 - hoist.angles[leg]).unwrap_or(0.0);
        if tension / share > worst.1 {
            worst = (leg, tension / share, share);
        }
    }
    let (leg, _, share) = worst;
    let (pull, allowed) = (tensions[leg] / GRAVITY, share * eye.rating.0);
    let numbers = Phrase::new().number(Value::new(share, Kind::Ratio)).text(" × ").number(eye.rating);
    let share = Value::new(share, Kind::Share);
    working.extend([
        Step::input("T", format!("tension of the {} leg, W06", EYE_NAMES[leg]), newtons(tensions[leg]))
            .from_source(&STATICS),
        Step::input("β", "its angle from the bolt's axis", Degrees(90.0 - hoist.angles[leg])),
        Step::input("c", "share of the rating left", share).from_source(&RIGGING_TABLES),
        Step::input("R", eye.name.as_str(), eye.rating).from_source(&CATALOGUE),
        Step::computed("c·R", "what the eye carries at that angle", "c × R", numbers, kilograms(allowed)),
    ]);
    let finding = Finding::at_most(check, Subject::Eyes, kilograms(pull), kilograms(allowed), RESERVE);
    let finding = finding.working(working);
    if !other.is_empty() || finding.outcome != Outcome::Fails {
        return vec![helped(finding, other)];
    }
    let stronger = Phrase::from("Eyes rated ").value(kilograms(pull * eye.rating.0 / allowed));
    vec![finding.help(stronger.text(" or more, or a higher hook, would do"))]
}

/// The weakest eye of the catalogue that takes these pulls (kg) at these angles from its axis (degrees).
fn other_eye(case: &Case, pulls: [f64; 4], angles: [f64; 4]) -> Phrase {
    let takes = |eye: &&LiftingEye| {
        pulls.iter().zip(angles).all(|(pull, angle)| {
            share_of_rating(eye.sort, angle).is_some_and(|share| *pull <= RESERVE * share * eye.rating.0)
        })
    };
    let others = case.catalogue.lifting_eyes.values().filter(takes);
    match others.reduce(|least, one| if one.rating.0 < least.rating.0 { one } else { least }) {
        Some(eye) => Phrase::from(eye.name.as_str()).text(", rated ").value(eye.rating).text(", would do"),
        None => Phrase::new(),
    }
}

#[cfg(test)]
mod tests {
    use units::Millimetres;

    use super::*;
    use crate::heat::testing::step;
    use crate::weight::lifting_testing::desk_with_eyes;

    fn find(sort: EyeSort, rating: f64, height: f64) -> Finding {
        let mut desk = desk_with_eyes(sort, rating);
        desk.project.brief.hook_height = Millimetres(height);
        desk.run(&CHECK).remove(0)
    }

    fn check(sort: EyeSort, rating: f64, height: f64, outcome: Outcome) {
        let finding = find(sort, rating, height);
        assert_eq!(finding.outcome, outcome, "{finding:?}");
    }

    #[test]
    fn a_swivel_ring_holds_on_both_sides_of_its_rating() {
        let pull = find(EyeSort::SwivelHoistRing, 1000.0, 1200.0).given.unwrap().number;
        check(EyeSort::SwivelHoistRing, pull / 0.79, 1200.0, Outcome::Holds);
        check(EyeSort::SwivelHoistRing, pull / 0.81, 1200.0, Outcome::Tight);
        check(EyeSort::SwivelHoistRing, pull * 1.001, 1200.0, Outcome::Tight);
        check(EyeSort::SwivelHoistRing, pull * 0.999, 1200.0, Outcome::Fails);
    }

    #[test]
    fn the_weakest_eye_of_the_catalogue_that_would_do_is_named() {
        let mut desk = desk_with_eyes(EyeSort::SwivelHoistRing, 1.0);
        for (name, rating) in [("Strong", 9000.0), ("Enough", 2000.0), ("Weak", 2.0)] {
            let mut eye = desk.catalogue.lifting_eyes[&"eye".into()].clone();
            (eye.name, eye.rating) = (name.to_owned(), units::Kilograms(rating));
            desk.catalogue.lifting_eyes.insert(name.into(), eye);
        }
        let help = desk.run(&CHECK)[0].help[0].shown(units::System::Metric);
        assert!(help.starts_with("Enough, rated"), "{help}");
    }

    #[test]
    fn a_shoulder_eye_loses_with_the_angle() {
        let finding = find(EyeSort::ShoulderEyeBolt, 1000.0, 1200.0);
        let angle = step(&finding, "β");
        assert!((15.0..=30.0).contains(&angle), "{angle}");
        assert_eq!(step(&finding, "c"), 0.65);
    }

    #[test]
    fn an_eye_bolt_is_refused_beyond_its_angle() {
        check(EyeSort::ShoulderEyeBolt, 1e6, 100.0, Outcome::Fails);
        check(EyeSort::SwivelHoistRing, 1e6, 100.0, Outcome::Holds);
        let plain = find(EyeSort::PlainEyeBolt, 1e6, 1200.0);
        assert_eq!((plain.outcome, plain.given, plain.help.len()), (Outcome::Fails, None, 2));
        check(EyeSort::PlainEyeBolt, 1e6, 50_000.0, Outcome::Holds);
    }
}
