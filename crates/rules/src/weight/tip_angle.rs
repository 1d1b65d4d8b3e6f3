//! **W08 `tip-angle`** – how far may it lean before it tips?
//!
//! α = atan(a / z_g)
//!
//! - α    angle at which it tips                                             [°]
//! - a    distance of the centre of gravity from the nearest edge            [mm]
//! - z_g  height of the centre of gravity                                    [mm]
//! - S    moment that holds over moment that tips, leaning by the angle asked [–]
//!
//! Source:      statics.
//! Valid for:   doors shut, standing free on level, firm ground.
//! Agreement:   tests/reference/statics_anchors.json, tipping.
//! Not covered: anchors, wind and earthquake (a later topic), open doors. The reserve of a fifth is common practice.

use units::{Degrees, Kind, Value};

use super::formulas::GRAVITY;
use super::formulas::tipping::{safety, tip_angle};
use super::sums::{CAUTION, heaviest, helped, mass_step, millimetres, whole};
use crate::sources::{GEOMETRY, STATICS};
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// Share above which it is tight. Common practice, no source.
const RESERVE: f64 = 0.8;

/// The check.
pub static CHECK: Check = Check {
    code: "W08",
    name: "tip-angle",
    topic: Topic::Weight,
    question: "How far may it lean before it tips?",
    formula: "α = atan(a / z_g)",
    symbols: &[
        Symbol { symbol: "α", meaning: "angle at which it tips", kind: Kind::Angle },
        Symbol { symbol: "a", meaning: "centre of gravity to the nearest edge", kind: Kind::Length },
        Symbol { symbol: "z_g", meaning: "centre of gravity above ground", kind: Kind::Length },
        Symbol { symbol: "S", meaning: "holding over tipping moment at the angle asked", kind: Kind::Ratio },
    ],
    sources: &[&STATICS, &GEOMETRY],
    valid: "doors shut, standing free on level, firm ground",
    leaves_out: "anchors, wind, earthquake, open doors",
    caution: Some(CAUTION),
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let (model, sum) = match whole(check, case, geometry::Model::equipped_mass) {
        Ok(found) => found,
        Err(finding) => return vec![*finding],
    };
    let (base, at) = (model.footprint(), sum.centre);
    let edges = [
        ("left", at.x - base.min.x),
        ("right", base.max.x - at.x),
        ("front", at.y - base.min.y),
        ("rear", base.max.y - at.y),
    ];
    let mut nearest = edges[0];
    for edge in edges {
        if edge.1 < nearest.1 {
            nearest = edge;
        }
    }
    let (side, arm) = nearest;
    let Some(angle) = tip_angle(arm, at.z).filter(|angle| angle.is_finite()) else {
        return vec![Finding::out_of_range(check, Subject::Base, "the centre of gravity does not lie above ground")];
    };
    let asked = case.project.brief.tip_angle;
    let numbers = Phrase::from("atan(").number(millimetres(arm)).text(" / ").number(millimetres(at.z)).text(")");
    let mut working = vec![
        mass_step(case, "equipped mass", sum.kg),
        Step::input("z_g", "centre of gravity above ground, W04", millimetres(at.z)).from_source(&STATICS),
        Step::input("a", format!("centre of gravity to the {side} edge, the nearest"), millimetres(arm))
            .from_source(&GEOMETRY),
        Step::computed("α", "angle at which it tips", "atan(a / z_g)", numbers, Degrees(angle)).from_source(&STATICS),
    ];
    let weight = sum.kg * GRAVITY;
    if let Some(safety) = safety(weight, arm, weight * libm::tan(asked.0.to_radians()), at.z) {
        let meaning = "holding over tipping moment at the angle asked";
        let formula = "a / (z_g · tan α_asked)";
        let value = Value::new(safety, Kind::Ratio);
        working.push(Step::computed("S", meaning, formula, Phrase::new(), value));
    }
    let finding = Finding::at_least(check, Subject::Base, Degrees(angle), asked, RESERVE).working(working);
    let high = case.devices.iter().filter(|device| device.space.is_some_and(|space| space.centre().z > at.z));
    let finding = helped(finding, heaviest(case, "Lower down would do: ", high));
    vec![finding.help(format!("Weight away from the {side} edge, or a wider base, would do"))]
}

#[cfg(test)]
mod tests {
    use catalogue::Device;
    use units::Kilograms;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack, step};

    #[test]
    fn the_angle_asked_holds_on_both_sides() {
        let mut desk = Desk::new();
        let finding = desk.run(&CHECK).remove(0);
        let angle = finding.given.unwrap().number;
        let by_hand = libm::atan(step(&finding, "a") / step(&finding, "z_g")).to_degrees();
        assert!((angle - by_hand).abs() < 1e-12);
        for (asked, outcome) in [
            (angle * 0.79, Outcome::Holds),
            (angle * 0.81, Outcome::Tight),
            (angle * 0.999, Outcome::Tight),
            (angle * 1.001, Outcome::Fails),
        ] {
            desk.project.brief.tip_angle = Degrees(asked);
            assert_eq!(desk.run(&CHECK)[0].outcome, outcome, "{asked}");
        }
    }

    #[test]
    fn the_heaviest_device_high_up_is_named() {
        let mut desk = Desk::new();
        desk.add(Device { mass: Some(Kilograms(100.0)), ..device(1) }, rack(0, 20));
        desk.add(Device { mass: Some(Kilograms(300.0)), ..device(1) }, rack(0, 1));
        desk.project.brief.tip_angle = Degrees(80.0);
        let help = desk.run(&CHECK)[0].help[0].shown(units::System::Metric);
        assert_eq!(help, "Lower down would do: Box, A 20, 100\u{a0}kg");
    }

    #[test]
    fn a_heavy_device_high_up_makes_it_tip_sooner() {
        let angle = |unit: u32| {
            let mut desk = Desk::new();
            desk.add(Device { mass: Some(Kilograms(100.0)), ..device(1) }, rack(0, unit));
            desk.run(&CHECK)[0].given.unwrap().number
        };
        assert!(angle(20) < angle(1));
    }
}
