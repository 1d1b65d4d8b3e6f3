//! Lifting against published values (`published/lifting.toml`) and against computed statics (`reference/slings.json`, the
//! tipping part of `reference/statics_anchors.json`).

use catalogue::EyeSort;
use rules::weight::formulas::GRAVITY;
use rules::weight::formulas::eye_bolt::{VERTICAL, share_of_rating};
use rules::weight::formulas::sling::{
    Point, angle_from_horizontal, elastic_tensions, hook, shared_tension, three_leg_tensions, upright_tensions,
    worst_tensions,
};
use rules::weight::formulas::tipping::safety;
use serde_json::Value;
use tests::published::{number, rows};
use toml::Table;

fn published(kind: &str) -> Vec<Table> {
    rows(include_str!("../published/lifting.toml"), kind)
}

/// A failure names the row and its source.
fn check(row: &Table, found: f64, expected: f64, within: f64) {
    let (id, source) = (&row["id"], &row["source"]);
    assert!((found - expected).abs() <= within, "{id}: {found} instead of {expected} ± {within} ({source})");
}

fn reference(text: &str, at_least: usize) -> Vec<Value> {
    let rows: Vec<Value> = serde_json::from_str(text).expect("the file is JSON");
    assert!(rows.len() >= at_least, "only {} rows", rows.len());
    rows
}

fn numbers<const N: usize>(value: &Value) -> [f64; N] {
    serde_json::from_value::<Vec<f64>>(value.clone()).expect("numbers").try_into().expect("so many numbers")
}

/// Nine figures, of the weight where the number itself is near 0.
#[track_caller]
fn near<const N: usize>(found: [f64; N], expected: [f64; N], weight: f64) {
    for (found_one, expected_one) in found.iter().zip(expected) {
        assert!((found_one - expected_one).abs() <= 1e-8 * weight, "{found:?} instead of {expected:?}");
    }
}

#[test]
fn sling_angles_give_the_published_factors() {
    for row in published("angle") {
        let load_factor = shared_tension(1.0, 1.0, number(&row, "degrees"));
        check(&row, load_factor, number(&row, "load_factor"), number(&row, "within"));
        check(&row, 1.0 / load_factor, number(&row, "capacity_factor"), number(&row, "within"));
    }
}

#[test]
fn legs_pull_as_published() {
    for row in published("tension") {
        let degrees = number(&row, "degrees");
        let tension = shared_tension(number(&row, "weight"), number(&row, "legs"), degrees);
        let expected = number(&row, "tension");
        check(&row, tension, expected, number(&row, "within") * expected);
        if row.contains_key("pull") {
            let expected = number(&row, "pull");
            check(&row, tension * libm::cos(degrees.to_radians()), expected, number(&row, "within") * expected);
        }
    }
}

#[test]
fn a_hook_gives_the_published_angle() {
    for row in published("hook") {
        let half = number(&row, "eyes_apart") / 2.0;
        let eyes = [[half, half, 2.0], [-half, half, 2.0], [-half, -half, 2.0], [half, -half, 2.0]];
        let hook = hook(&eyes, [0.0, 0.0, 1.0], number(&row, "height"));
        check(&row, angle_from_horizontal(eyes[0], hook), number(&row, "degrees"), number(&row, "within"));
    }
}

#[test]
fn eye_bolts_keep_the_published_share() {
    for row in published("shoulder") {
        let share = share_of_rating(EyeSort::ShoulderEyeBolt, number(&row, "degrees")).expect("not refused");
        check(&row, share, number(&row, "share"), 0.0);
    }
    for row in published("refused") {
        assert_eq!(share_of_rating(EyeSort::ShoulderEyeBolt, number(&row, "degrees")), None, "{}", row["id"]);
    }
    for row in published("vertical") {
        assert!(number(&row, "degrees") <= VERTICAL, "{}", row["id"]);
        assert_eq!(share_of_rating(EyeSort::PlainEyeBolt, number(&row, "degrees")), Some(1.0), "{}", row["id"]);
    }
}

#[test]
fn slings_agree_with_computed_statics() {
    for row in reference(include_str!("../reference/slings.json"), 11) {
        let (input, result) = (&row["input"], &row["result"]);
        let centre: Point = numbers(&input["cg"]);
        let eyes: Vec<Point> = serde_json::from_value(input["eyes"].clone()).expect("eyes");
        let eyes: [Point; 4] = eyes.try_into().expect("four eyes");
        let weight = input["mass"].as_f64().expect("a mass") * GRAVITY;
        near([weight], [result["weight_n"].as_f64().expect("a weight")], weight);
        let hook = hook(&eyes, centre, input["hook_height"].as_f64().expect("a height"));
        near(hook, numbers(&result["hook"]), 1.0);
        let from_vertical = eyes.map(|eye| 90.0 - angle_from_horizontal(eye, hook));
        near(from_vertical, numbers(&result["angle_from_vertical_deg"]), 1.0);
        let elastic = elastic_tensions(&eyes, hook, weight).expect("a solution");
        near(elastic, numbers(&result["elastic_tension_n"]), weight);
        let upright = upright_tensions(&eyes, centre, weight).expect("a solution");
        near(upright, numbers(&result["vertical_legs_n"]), weight);

        let found = three_leg_tensions(&eyes, hook, weight);
        let expected = result["three_leg_solutions"].as_array().expect("solutions");
        assert_eq!(found.len(), expected.len(), "{}", row["id"]);
        for solution in expected {
            let expected: [f64; 4] = numbers(&solution["tension_n"]);
            let same = |found: &&[f64; 4]| found.iter().zip(expected).all(|(a, b)| (a - b).abs() <= 1e-8 * weight);
            assert!(found.iter().any(|found| same(&found)), "{}: {expected:?} not in {found:?}", row["id"]);
        }
        let worst = worst_tensions(&eyes, hook, weight).expect("a solution").into_iter().fold(0.0, f64::max);
        near([worst], [result["three_leg_max_n"].as_f64().expect("a tension")], weight);
    }
}

#[test]
fn tipping_agrees_with_computed_statics() {
    let mut compared = 0;
    for row in reference(include_str!("../reference/statics_anchors.json"), 12) {
        let (input, result) = (&row["input"], &row["result"]);
        let value = |field: &str| input[field].as_f64().expect("a number");
        let [x, y]: [f64; 2] = numbers(&input["cg"]);
        let [_, _, height]: [f64; 3] = numbers(&input["force_point"]);
        let weight = value("mass") * GRAVITY * (1.0 - value("uplift_factor"));
        for (axis, off, base, force) in [("x", x, "base_x", "Fx_n"), ("y", y, "base_y", "Fy_n")] {
            let force = result[force].as_f64().expect("a force");
            let Some(expected) = result["tipping"][axis]["safety_factor"].as_f64() else { continue };
            let arm = value(base) / 2.0 - off * force.signum();
            let found = safety(weight, arm, force.abs(), height).expect("something tips it");
            assert!((found - expected).abs() <= 1e-8 * expected, "{} {axis}: {found} {expected}", row["id"]);
            compared += 1;
        }
    }
    assert!(compared >= 12, "only {compared} compared");
}
