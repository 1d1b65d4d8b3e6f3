//! **W06 `leg-tension`** – how hard does the hardest-pulled leg pull?
//!
//! Σ T_i · n_i = W with one leg slack in turn;  T = max T_i
//!
//! - T_i  tension of leg i                       [kN]
//! - n_i  unit vector from eye i to the hook     [–]
//! - W    weight                                 [kN]
//! - T    greatest of all solutions              [kN]
//!
//! Source:      statics. A rigid box on four legs hangs on fewer: ASME B30.9, from memory.
//! Valid for:   hook straight above the centre of gravity, the cabinet hanging level.
//! Agreement:   tests/reference/slings.json, to nine figures; T03-04…06 within 0.1 %.
//! Not covered: snatching, wind, the sling's own rating.

use units::{Kind, Value};

use super::formulas::sling::{elastic_tensions, shared_tension, worst_tensions};
use super::hoist::{EYE_NAMES, Hoist};
use super::sums::{CAUTION, newtons};
use crate::sources::{ASME_B30_9, STATICS};
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "W06",
    name: "leg-tension",
    topic: Topic::Weight,
    question: "How hard does the hardest-pulled leg pull?",
    formula: "Σ T_i · n_i = W with one leg slack in turn;  T = max T_i",
    symbols: &[
        Symbol { symbol: "T", meaning: "greatest tension of a leg", kind: Kind::Force },
        Symbol { symbol: "T_2", meaning: "two legs share alike", kind: Kind::Force },
        Symbol { symbol: "T_e", meaning: "greatest tension if all four legs were elastic alike", kind: Kind::Force },
        Symbol { symbol: "W", meaning: "weight", kind: Kind::Force },
        Symbol { symbol: "θ", meaning: "flattest leg, from the horizontal", kind: Kind::Angle },
    ],
    sources: &[&STATICS, &ASME_B30_9],
    valid: "hook straight above the centre of gravity, the cabinet hanging level",
    leaves_out: "snatching, wind, the sling's own rating",
    caution: Some(CAUTION),
    asked: Some(Asked::Lifting),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let hoist = match Hoist::of(check, case) {
        Ok(hoist) => hoist,
        Err(finding) => return vec![*finding],
    };
    let Some(tensions) = worst_tensions(&hoist.eyes, hoist.hook, hoist.weight) else {
        let why = "the centre of gravity lies outside the lifting eyes: it cannot hang level";
        return vec![Finding::fails(check, Subject::Eyes, why).working(hoist.steps(case))];
    };
    let mut hardest = 0;
    for (leg, tension) in tensions.into_iter().enumerate() {
        if tension > tensions[hardest] {
            hardest = leg;
        }
    }
    let mut working = hoist.steps(case);
    let angle = hoist.flattest().1;
    let numbers = Phrase::new().number(newtons(hoist.weight)).text(" / (2 × sin ");
    let numbers = numbers.value(Value::new(angle, Kind::Angle)).text(")");
    let two = newtons(shared_tension(hoist.weight, 2.0, angle));
    working.push(
        Step::computed("T_2", "two legs share alike, by hand", "W / (2 · sin θ)", numbers, two)
            .from_source(&ASME_B30_9),
    );
    if let Some(elastic) = elastic_tensions(&hoist.eyes, hoist.hook, hoist.weight) {
        let most = elastic.into_iter().fold(0.0, f64::max);
        working.push(Step::input("T_e", "if all four legs were elastic alike", newtons(most)).from_source(&STATICS));
    }
    let meaning = format!("worst of the solutions with one leg slack: {} leg", EYE_NAMES[hardest]);
    let value = newtons(tensions[hardest]);
    working.push(Step::computed("T", meaning, "Σ T_i · n_i = W", Phrase::new(), value).from_source(&STATICS));
    vec![Finding::tells(check, Subject::Eyes, value).working(working)]
}

#[cfg(test)]
mod tests {
    use catalogue::{Device, EyeSort};
    use units::{Kilograms, Millimetres};

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{device, rack, step};
    use crate::weight::lifting_testing::desk_with_eyes;

    #[test]
    fn an_off_centre_load_pulls_harder_than_two_legs_alike_would_on_its_side() {
        let mut desk = desk_with_eyes(EyeSort::SwivelHoistRing, 1000.0);
        let before = desk.run(&CHECK).remove(0);
        desk.add(Device { mass: Some(Kilograms(300.0)), ..device(2) }, rack(0, 1));
        let after = desk.run(&CHECK).remove(0);
        assert_eq!(after.outcome, Outcome::Holds);
        assert!(step(&after, "T") > step(&before, "T"));
        assert!(step(&after, "T") > step(&after, "T_e"));
    }

    #[test]
    fn a_lower_hook_pulls_harder() {
        let tension = |height: f64| {
            let mut desk = desk_with_eyes(EyeSort::SwivelHoistRing, 1000.0);
            desk.project.brief.hook_height = Millimetres(height);
            step(&desk.run(&CHECK)[0], "T")
        };
        assert!(tension(400.0) > tension(800.0) && tension(800.0) > tension(3000.0));
    }

    #[test]
    fn a_device_without_a_mass_is_asked_for() {
        let mut desk = desk_with_eyes(EyeSort::SwivelHoistRing, 1000.0);
        desk.add(Device { mass: None, ..device(1) }, rack(0, 3));
        assert_eq!(desk.run(&CHECK)[0].outcome, Outcome::NeedsData);
    }
}
