//! **W09 `pad-bearing`** – how hard does the base press on the pad?
//!
//! q_max = N / (b · d) · (1 + 6 · e_x / b + 6 · e_y / d)
//!
//! - q_max  greatest pressure, at a corner                     [kPa]
//! - N      weight of the equipped cabinet                     [kN]
//! - b, d   width and depth of the base                        [mm]
//! - e      centre of gravity from the middle of the base      [mm]
//!
//! Source:      statics of a rigid base on even ground.
//! Valid for:   a base that bears over its whole outline, load inside the kern.
//! Not covered: the pad's own mass, wind, bases that bear on a rim only. The reserve of a fifth is common practice.

use units::{Kilopascals, Kind};

use super::formulas::GRAVITY;
use super::formulas::bearing::greatest_pressure;
use super::sums::{CAUTION, mass_step, millimetres, newtons, whole};
use crate::sources::{GEOMETRY, STATICS};
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// Share of the limit above which it is tight. Common practice, no source.
const RESERVE: f64 = 0.8;

/// The check.
pub static CHECK: Check = Check {
    code: "W09",
    name: "pad-bearing",
    topic: Topic::Weight,
    question: "How hard does the base press on the pad?",
    formula: "q_max = N / (b · d) · (1 + 6 · e_x / b + 6 · e_y / d)",
    symbols: &[
        Symbol { symbol: "q_max", meaning: "greatest pressure, at a corner", kind: Kind::Pressure },
        Symbol { symbol: "N", meaning: "weight", kind: Kind::Force },
        Symbol { symbol: "b", meaning: "width of the base", kind: Kind::Length },
        Symbol { symbol: "d", meaning: "depth of the base", kind: Kind::Length },
        Symbol { symbol: "e_x", meaning: "centre of gravity from the middle, across", kind: Kind::Length },
        Symbol { symbol: "e_y", meaning: "centre of gravity from the middle, along", kind: Kind::Length },
    ],
    sources: &[&STATICS, &GEOMETRY],
    valid: "a base that bears over its whole outline, load inside the kern",
    leaves_out: "the pad's own mass, wind, bases that bear on a rim only",
    caution: Some(CAUTION),
    asked: Some(Asked::Bearing),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let (model, sum) = match whole(check, case, geometry::Model::equipped_mass) {
        Ok(found) => found,
        Err(finding) => return vec![*finding],
    };
    let base = model.footprint();
    let (size, middle) = (base.size(), base.centre());
    let off = [sum.centre.x - middle.x, sum.centre.y - middle.y];
    let weight = sum.kg * GRAVITY;
    let mut working = vec![
        mass_step(case, "equipped mass", sum.kg),
        Step::input("N", "weight", newtons(weight)).from_source(&STATICS),
        Step::input("b", "width of the base", millimetres(size.x)).from_source(&GEOMETRY),
        Step::input("d", "depth of the base", millimetres(size.y)).from_source(&GEOMETRY),
        Step::input("e_x", "centre of gravity from the middle, across", millimetres(off[0].abs())),
        Step::input("e_y", "centre of gravity from the middle, along", millimetres(off[1].abs())),
    ];
    let metres = |length: f64| length / 1000.0;
    let pressure = greatest_pressure(weight, [metres(size.x), metres(size.y)], off.map(metres));
    let Some(pressure) = pressure.filter(|pressure| pressure.is_finite()) else {
        let why = "the weight acts outside the kern: a corner would lift";
        return vec![Finding::out_of_range(check, Subject::Base, why).working(working)];
    };
    let pressure = Kilopascals(pressure / 1000.0);
    let numbers = Phrase::new().number(newtons(weight)).text(" / (").number(millimetres(size.x)).text(" × ");
    let numbers = numbers.number(millimetres(size.y)).text(") × (1 + 6 × ").number(millimetres(off[0].abs()));
    let numbers = numbers.text(" / ").number(millimetres(size.x)).text(" + 6 × ").number(millimetres(off[1].abs()));
    let numbers = numbers.text(" / ").number(millimetres(size.y)).text(")");
    let formula = "N / (b · d) · (1 + 6 · e_x / b + 6 · e_y / d)";
    working.push(
        Step::computed("q_max", "greatest pressure, at a corner", formula, numbers, pressure).from_source(&STATICS),
    );
    let finding = match case.project.brief.bearing_limit {
        None => Finding::tells(check, Subject::Base, pressure).because("no limit is set"),
        Some(limit) => Finding::at_most(check, Subject::Base, pressure, limit, RESERVE)
            .help("A wider pad under a wider base, or heavy devices nearer to the middle, would do"),
    };
    vec![finding.working(working)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, step};

    #[test]
    fn the_hand_calculation_comes_out() {
        let finding = Desk::new().run(&CHECK).remove(0);
        let (b, d) = (step(&finding, "b") / 1000.0, step(&finding, "d") / 1000.0);
        let (x, y) = (step(&finding, "e_x") / 1000.0, step(&finding, "e_y") / 1000.0);
        let by_hand = step(&finding, "N") / (b * d) * (1.0 + 6.0 * x / b + 6.0 * y / d);
        assert!((finding.given.unwrap().number - by_hand).abs() < 1e-9);
        assert_eq!(finding.outcome, Outcome::Holds);
    }

    #[test]
    fn the_limit_holds_on_both_sides() {
        let mut desk = Desk::new();
        let pressure = desk.run(&CHECK)[0].given.unwrap().number;
        for (share, outcome) in [(0.79, Outcome::Holds), (0.81, Outcome::Tight), (1.001, Outcome::Fails)] {
            desk.project.brief.bearing_limit = Some(Kilopascals(pressure / share));
            assert_eq!(desk.run(&CHECK)[0].outcome, outcome, "{share}");
        }
    }
}
