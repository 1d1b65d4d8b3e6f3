//! **F11 `gland-plates`** – are there knock-outs enough for growth, and do the gland plates fit the floor?
//!
//! n_left = Σ (n_plate − n_used) ≥ n_asked,  s_over ≤ 0
//!
//! - n_plate  knock-outs of a gland plate                                              [–]
//! - n_used   knock-outs of it already used                                            [–]
//! - n_asked  knock-outs asked for as growth                                           [–]
//! - s_over   how far a plate reaches past the floor of its bay or over the next one   [mm]
//!
//! Source:      [`sources::GEOMETRY`]: plates stand in rows over the floor of their bay, as drawn.
//! Valid for:   plates in the floors of bays.
//! Agreement:   hand calculation below.
//! Not covered: whether a cable fits its knock-out; plates in walls; floor left over round the plates.

use geometry::{Box3, Model, SLACK};
use units::Kind;

use super::room::length;
use super::subjects::needs_model;
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, bay_letter, count, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "F11",
    name: "gland-plates",
    topic: Topic::Fit,
    question: "Are there knock-outs enough for growth, and do the gland plates fit the floor?",
    formula: "n_left = Σ (n_plate − n_used) ≥ n_asked;  s_over ≤ 0",
    symbols: &[
        Symbol { symbol: "n_plate", meaning: "knock-outs of a gland plate", kind: Kind::Count },
        Symbol { symbol: "n_used", meaning: "knock-outs of it already used", kind: Kind::Count },
        Symbol { symbol: "n_asked", meaning: "knock-outs asked for as growth", kind: Kind::Count },
        Symbol {
            symbol: "s_over",
            meaning: "how far a plate reaches past its floor or over the next",
            kind: Kind::Length,
        },
    ],
    sources: &[&sources::CATALOGUE, &sources::GEOMETRY],
    valid: "plates in the floors of bays",
    leaves_out: "Whether a cable fits its knock-out, plates in walls, floor left over round the plates.",
    caution: None,
    asked: Some(Asked::KnockOuts),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let Some(model) = &case.model else { return needs_model(check, case) };
    let mut findings = vec![knock_outs(check, case)];
    for (bay, fitted) in case.project.build.bays.iter().enumerate() {
        for (index, plate) in fitted.gland_plates.iter().enumerate() {
            let Some(part) = case.catalogue.gland_plates.get(&plate.part) else { continue };
            if plate.used > part.knock_outs {
                let finding = Finding::at_most(
                    check,
                    Subject::GlandPlates,
                    count(plate.used as usize),
                    count(part.knock_outs as usize),
                    1.0,
                );
                let about = format!("{}, plate {} of bay {}: knock-outs used", part.name, index + 1, bay_letter(bay));
                findings.push(finding.about(about).help(format!("Add a gland plate to bay {}", bay_letter(bay))));
            }
        }
        let over = over_the_floor(case, model, bay);
        if over > SLACK {
            let finding = Finding::at_most(check, Subject::Bay(bay), length(over), length(0.0), 1.0);
            let step = Step::input("s_over", "how far a plate reaches past its floor or over the next", length(over));
            findings.push(
                finding
                    .about(format!("gland plates of bay {}", bay_letter(bay)))
                    .because("the plates do not fit the floor side by side")
                    .working(vec![step.from_source(&sources::GEOMETRY)])
                    .help("Take fewer or smaller plates, or a wider or deeper bay"),
            );
        }
    }
    findings
}

fn knock_outs(check: &Check, case: &Case) -> Finding {
    let asked = case.project.brief.spare_knock_outs as usize;
    let mut steps = Vec::new();
    let mut left = 0;
    for (bay, fitted) in case.project.build.bays.iter().enumerate() {
        for plate in &fitted.gland_plates {
            let Some(part) = case.catalogue.gland_plates.get(&plate.part) else { continue };
            let free = part.knock_outs.saturating_sub(plate.used) as usize;
            left += free;
            let meaning = format!("left in {}, bay {}", part.name, bay_letter(bay));
            let numbers =
                Phrase::new().number(count(part.knock_outs as usize)).text(" − ").number(count(plate.used as usize));
            steps.push(Step::computed("n_plate − n_used", meaning, "n_plate − n_used", numbers, count(free)));
        }
    }
    steps.push(Step::computed("n_left", "knock-outs left", "Σ (n_plate − n_used)", Phrase::new(), count(left)));
    steps.push(Step::input("n_asked", "knock-outs asked for as growth", count(asked)));
    if asked == 0 {
        let mut finding = Finding::tells(check, Subject::GlandPlates, count(left)).because("none asked for");
        finding.working = steps;
        return finding;
    }
    let finding = Finding::at_least(check, Subject::GlandPlates, count(left), count(asked), 1.0).working(steps);
    let missing = asked.saturating_sub(left);
    // The smallest plate that brings what is missing, or else the one with the most.
    let parts = || case.catalogue.gland_plates.values();
    let enough = parts().filter(|part| part.knock_outs as usize >= missing).min_by_key(|part| part.knock_outs);
    match enough.or(parts().max_by_key(|part| part.knock_outs)).filter(|part| part.knock_outs > 0) {
        Some(part) => {
            let pieces = missing.div_ceil(part.knock_outs as usize);
            let times = if pieces > 1 { format!("{pieces} × ") } else { String::new() };
            finding.help(format!("Add {times}{}: {} knock-outs more", part.name, pieces * part.knock_outs as usize))
        }
        None => finding.help(format!("Add gland plates for {missing} knock-outs more")),
    }
}

/// How far the plates of a bay reach past its floor or over each other, mm.
fn over_the_floor(case: &Case, model: &Model, bay: usize) -> f64 {
    let (layout, build) = (&model.layout, &case.project.build);
    let Some(planes) = layout.bays.get(bay) else { return 0.0 };
    let plates: Vec<Box3> = (0..build.bays.get(bay).map_or(0, |bay| bay.gland_plates.len()))
        .filter_map(|plate| layout.gland_plate(bay, plate, build, case.catalogue))
        .collect();
    let mut over = 0.0_f64;
    for (index, plate) in plates.iter().enumerate() {
        let past_x = (planes.left - plate.min.x).max(plate.max.x - planes.right);
        let past_y = (layout.inside.min.y - plate.min.y).max(plate.max.y - layout.inside.max.y);
        over = over.max(past_x).max(past_y);
        for other in &plates[index + 1..] {
            let x = plate.max.x.min(other.max.x) - plate.min.x.max(other.min.x);
            let y = plate.max.y.min(other.max.y) - plate.min.y.max(other.min.y);
            over = over.max(x.min(y));
        }
    }
    over
}

#[cfg(test)]
mod tests {
    use catalogue::{GlandPlate, Trade};
    use project::FittedGlandPlate;
    use units::Millimetres;

    use super::super::trial::words;
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, step};

    /// One bay of 600 × 794 mm of floor with these plates: width, depth, used of 8 knock-outs.
    fn desk(plates: &[(f64, f64, u32)], asked: u32) -> Desk {
        let mut desk = Desk::new();
        desk.project.brief.spare_knock_outs = asked;
        for (index, (width, depth, used)) in plates.iter().enumerate() {
            let part = catalogue::PartId(format!("plate-{index}"));
            let plate = GlandPlate {
                name: format!("Plate {index}"),
                width: Millimetres(*width),
                depth: Millimetres(*depth),
                thickness: Millimetres(3.0),
                density: 2700.0,
                knock_outs: 8,
                knock_out: Millimetres(30.0),
                trade: Trade::default(),
            };
            desk.catalogue.gland_plates.insert(part.clone(), plate);
            desk.project.build.bays[0].gland_plates.push(FittedGlandPlate { part, used: *used });
        }
        desk
    }

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, left: f64) -> Vec<Finding> {
        let findings = desk.run(&CHECK);
        assert_eq!(findings[0].outcome, outcome, "{findings:#?}");
        assert_eq!(step(&findings[0], "n_left"), left);
        findings
    }

    #[test]
    fn counts_knock_outs_left_against_growth() {
        let plates = [(200.0, 100.0, 3), (200.0, 100.0, 8)];
        assert_eq!(check(&desk(&plates, 5), Outcome::Holds, 5.0).len(), 1);
        let findings = check(&desk(&plates, 6), Outcome::Fails, 5.0);
        assert_eq!(words(&findings[0].help[0]), "Add Plate 0: 8 knock-outs more");
        check(&desk(&plates, 0), Outcome::Holds, 5.0);
        check(&desk(&[], 4), Outcome::Fails, 0.0);
    }

    #[test]
    fn more_used_than_there_are_is_told_of_the_plate() {
        let findings = check(&desk(&[(200.0, 100.0, 9)], 0), Outcome::Holds, 0.0);
        assert_eq!(findings[1].outcome, Outcome::Fails);
        assert_eq!(findings[1].margin.unwrap().number, -1.0);
    }

    #[test]
    fn plates_have_to_fit_the_floor() {
        assert_eq!(check(&desk(&[(600.0, 794.0, 0)], 0), Outcome::Holds, 8.0).len(), 1);
        let findings = check(&desk(&[(640.0, 100.0, 0)], 0), Outcome::Holds, 8.0);
        assert_eq!(findings[1].given.unwrap().number, 20.0);
        // Two of them one behind the other: each has 397 mm of depth.
        assert_eq!(check(&desk(&[(500.0, 397.0, 0), (500.0, 397.0, 0)], 0), Outcome::Holds, 16.0).len(), 1);
        let findings = check(&desk(&[(500.0, 417.0, 0), (500.0, 417.0, 0)], 0), Outcome::Holds, 16.0);
        assert_eq!(findings[1].outcome, Outcome::Fails);
        assert!((findings[1].given.unwrap().number - 20.0).abs() < 1e-9);
    }
}
