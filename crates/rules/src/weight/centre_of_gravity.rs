//! **W04 `centre-of-gravity`** – where does the weight act, and does it lie well inside eyes and base?
//!
//! r = Σ m_i · r_i / m,  e = |r − r_0|
//!
//! - r    centre of gravity: right of the middle, behind the middle, above ground   [mm]
//! - m_i  mass of each solid at its own centre                                      [kg]
//! - r_0  middle of the lifting eyes, or of the base                                [mm]
//! - e    distance from it along the worse axis                                     [mm]
//! - a    from that middle to the eyes, or to the edge of the base                  [mm]
//!
//! Source:      statics; the solids of the model.
//! Valid for:   devices and units of even density: their mass acts in their middle.
//! Agreement:   tests/reference/centre_of_gravity.json by the geometry crate.
//! Not covered: cables, what is not placed. That it is tight beyond half way is common practice, no source.

use units::Kind;

use super::sums::{CAUTION, four_eyes, mass_step, millimetres, whole};
use crate::finding::worst_first;
use crate::sources::{GEOMETRY, STATICS};
use crate::{Asked, Case, Check, Finding, Outcome, Phrase, Step, Subject, Symbol, Topic};

/// Share of the way to the eyes or the edge beyond which it is tight. Common practice, no source.
const RESERVE: f64 = 0.5;

/// The check.
pub static CHECK: Check = Check {
    code: "W04",
    name: "centre-of-gravity",
    topic: Topic::Weight,
    question: "Where does the weight act, and does it lie well inside eyes and base?",
    formula: "r = Σ m_i · r_i / m,  e ≤ a",
    symbols: &[
        Symbol { symbol: "x_g", meaning: "right of the middle", kind: Kind::Length },
        Symbol { symbol: "y_g", meaning: "behind the middle", kind: Kind::Length },
        Symbol { symbol: "z_g", meaning: "above ground", kind: Kind::Length },
        Symbol { symbol: "e", meaning: "from the middle, along the worse axis", kind: Kind::Length },
        Symbol { symbol: "a", meaning: "from the middle to the eyes or the edge", kind: Kind::Length },
    ],
    sources: &[&STATICS, &GEOMETRY],
    valid: "devices and units whose mass acts in their middle",
    leaves_out: "cables, devices that are not placed",
    caution: Some(CAUTION),
    asked: Some(Asked::Lifting),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let (model, sum) = match whole(check, case, geometry::Model::equipped_mass) {
        Ok(found) => found,
        Err(finding) => return vec![*finding],
    };
    let at = sum.centre;
    let base = model.footprint();
    let mut findings =
        vec![judge(check, Subject::Base, [at.x, at.y], [base.min.x, base.max.x], [base.min.y, base.max.y])];
    if let Some(eyes) = four_eyes(model) {
        let lifted = model.lifted_mass().centre;
        let span = |axis: usize| {
            let along = eyes.iter().map(|eye| eye[axis]);
            [along.clone().fold(f64::INFINITY, f64::min), along.fold(f64::NEG_INFINITY, f64::max)]
        };
        findings.push(judge(check, Subject::Eyes, [lifted.x, lifted.y], span(0), span(1)));
    }
    let mut findings = worst_first(findings);
    if let Some(first) = findings.first_mut() {
        let mut working = vec![
            mass_step(case, "equipped mass", sum.kg),
            Step::input("x_g", across(at.x), millimetres(at.x)).from_source(&STATICS),
            Step::input("y_g", along(at.y), millimetres(at.y)).from_source(&STATICS),
            Step::input("z_g", "above ground", millimetres(at.z)).from_source(&STATICS),
        ];
        if let (Some(given), Some(allowed)) = (first.given, first.allowed) {
            working.push(Step::input("e", "from the middle, along the worse axis", given));
            working.push(Step::input("a", "from the middle to the eyes or the edge", allowed).from_source(&GEOMETRY));
        }
        first.working = working;
    }
    findings
}

/// Nearer to the middle than this it is in the middle, mm: what rounding leaves of symmetry has no side.
const NEAR: f64 = 0.05;

/// On which side of the middle it lies, so that a sign is never read the wrong way round.
const fn across(x: f64) -> &'static str {
    if x < -NEAR { "left of the middle, rightward is positive" } else { "right of the middle" }
}

/// The same, front to rear.
const fn along(y: f64) -> &'static str {
    if y < -NEAR { "before the middle, rearward is positive" } else { "behind the middle" }
}

/// Holds a centre of gravity against a rectangle.
fn judge(check: &Check, subject: Subject, at: [f64; 2], x: [f64; 2], y: [f64; 2]) -> Finding {
    let about = if subject == Subject::Eyes { "lifting eyes" } else { "base" };
    let of_axis = |at: f64, [low, high]: [f64; 2]| ((at - (low + high) / 2.0).abs(), (high - low) / 2.0);
    let axes = [of_axis(at[0], x), of_axis(at[1], y)];
    if axes.iter().any(|(off, half)| !off.is_finite() || *half <= 0.0) {
        return Finding::out_of_range(check, subject, "there is no rectangle to stand or hang in").about(about);
    }
    let share = |(off, half): (f64, f64)| off / half;
    let (off, half) = if share(axes[1]) > share(axes[0]) { axes[1] } else { axes[0] };
    let margin = millimetres(half - off);
    let finding = Finding::on_scale(check, subject, millimetres(off), millimetres(half), margin, off / half, RESERVE);
    let finding = finding.about(about);
    if finding.outcome == Outcome::Holds {
        return finding;
    }
    let toward = match (share(axes[1]) > share(axes[0]), at) {
        (true, [_, y]) if y > 0.0 => "front",
        (true, _) => "rear",
        (false, [x, _]) if x > 0.0 => "left",
        (false, _) => "right",
    };
    finding.help(Phrase::from(format!("Heavy devices further to the {toward} would do")))
}

#[cfg(test)]
mod tests {
    use catalogue::Device;
    use project::Place;
    use proptest::prelude::*;
    use units::{Kilograms, Millimetres};

    use super::*;
    use crate::heat::testing::{Desk, device, rack, step};

    fn check(subject: Subject, at: [f64; 2], outcome: Outcome, used: f64) {
        let finding = judge(&CHECK, subject, at, [-300.0, 300.0], [-400.0, 400.0]);
        assert_eq!(finding.outcome, outcome, "{at:?}");
        assert!((finding.used.unwrap() - used).abs() < 1e-12, "{at:?}");
    }

    #[test]
    fn the_worse_axis_counts_on_both_sides_of_each_limit() {
        check(Subject::Base, [0.0, 0.0], Outcome::Holds, 0.0);
        check(Subject::Base, [150.0, -100.0], Outcome::Holds, 0.5);
        check(Subject::Base, [-151.0, 100.0], Outcome::Tight, 151.0 / 300.0);
        check(Subject::Eyes, [0.0, -400.0], Outcome::Tight, 1.0);
        check(Subject::Eyes, [0.0, 401.0], Outcome::Fails, 401.0 / 400.0);
    }

    #[test]
    fn a_heavy_device_low_on_the_front_rails_draws_it_forward_and_down() {
        let mut desk = Desk::new();
        let before = desk.run(&CHECK).remove(0);
        desk.add(Device { mass: Some(Kilograms(200.0)), ..device(2) }, rack(0, 1));
        let after = desk.run(&CHECK).remove(0);
        assert!(step(&after, "z_g") < step(&before, "z_g"));
        assert!(step(&after, "y_g") < step(&before, "y_g"));
        // Drawn forward, it is not called "behind the middle".
        let y_g = after.working.iter().find(|step| step.symbol == "y_g").unwrap();
        assert!(y_g.value.number < 0.0 && y_g.meaning.shown(units::System::Metric).starts_with("before the middle"));
    }

    #[test]
    fn it_stays_inside_the_hull() {
        let mut desk = Desk::new();
        for (kg, unit) in [(500.0, 1), (3.0, 20), (80.0, 10)] {
            desk.add(Device { mass: Some(Kilograms(kg)), ..device(1) }, rack(0, unit));
            let finding = desk.run(&CHECK).remove(0);
            assert!((0.0..=995.0).contains(&step(&finding, "z_g")));
            assert!(step(&finding, "x_g").abs() <= 303.0 && step(&finding, "y_g").abs() <= 440.0);
        }
    }

    #[test]
    fn a_battery_on_one_side_asks_for_a_counterweight() {
        let mut desk = Desk::new();
        let at = Place::Floor { bay: 0, plinth: false, across: Millimetres(5.0), along: Millimetres(300.0) };
        let battery = Device {
            mount: catalogue::Mount::Floor,
            width: Millimetres(100.0),
            mass: Some(Kilograms(900.0)),
            ..device(1)
        };
        desk.add(battery, at);
        let finding = desk.run(&CHECK).remove(0);
        assert_eq!(finding.outcome, Outcome::Tight);
        assert_eq!(finding.help[0].shown(units::System::Metric), "Heavy devices further to the right would do");
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(32))]

        #[test]
        fn a_heavier_device_adds_its_mass_and_the_centre_stays_inside_the_hull(
            kg in 0.1_f64..500.0, more in 0.0_f64..500.0, across in 0.0_f64..160.0, along in 0.0_f64..490.0,
        ) {
            let weigh = |kg: f64| {
                let mut desk = Desk::new();
                let at = Place::Floor { bay: 0, plinth: false, across: Millimetres(across), along: Millimetres(along) };
                desk.add(Device { mass: Some(Kilograms(kg)), ..device(2) }, at);
                desk.with(|case| {
                    let model = case.model.as_ref().unwrap();
                    (model.equipped_mass(), model.overall(true))
                })
            };
            let ((light, hull), (heavy, _)) = (weigh(kg), weigh(kg + more));
            prop_assert!((heavy.kg - light.kg - more).abs() < 1e-9 * heavy.kg);
            for sum in [light, heavy] {
                let (low, high) = (sum.centre - hull.min, hull.max - sum.centre);
                prop_assert!([low.x, low.y, low.z, high.x, high.y, high.z].iter().all(|inside| *inside > 0.0), "{:?}", sum);
            }
        }
    }
}
