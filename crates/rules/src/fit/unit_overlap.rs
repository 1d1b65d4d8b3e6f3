//! **F02 `unit-overlap`** – does every rack device have its units to itself?
//!
//! n_shared = min(u_a + n_a, u_b + n_b) − max(u_a, u_b) ≤ 0,  s = y_rear − y_front ≥ 0
//!
//! - u, n      lowest unit and units of a device                                                  [–, U]
//! - n_shared  units two devices on the same rails share, or by which one reaches past the rails  [U]
//! - y_front   back of a device on the front rails                                                [mm]
//! - y_rear    back of a device on the rear rails at the same height                              [mm]
//! - s         distance between the two                                                           [mm]
//!
//! Source:      [`sources::GEOMETRY`].
//! Valid for:   devices on rails; the panels of the same rails cannot share a unit, however shallow the devices.
//! Agreement:   hand calculation below.
//! Not covered: room for cables between two devices, which is F03; half-width devices side by side.

use geometry::Model;
use project::{End, Place};
use units::{Kind, Value};

use super::height_units::taken_units;
use super::room::length;
use super::subjects::{needs_model, worst_and_unfit};
use crate::{Case, Check, Finding, Phrase, PlacedDevice, Step, Subject, Symbol, Topic, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "F02",
    name: "unit-overlap",
    topic: Topic::Fit,
    question: "Does every rack device have its units to itself?",
    formula: "min(u_a + n_a, u_b + n_b) − max(u_a, u_b) ≤ 0;  y_rear − y_front ≥ 0",
    symbols: &[
        Symbol { symbol: "u", meaning: "lowest unit of a device", kind: Kind::Count },
        Symbol { symbol: "n", meaning: "units of a device", kind: Kind::RackUnits },
        Symbol {
            symbol: "y_front",
            meaning: "back of the device on the front rails, from the middle of the body",
            kind: Kind::Length,
        },
        Symbol {
            symbol: "y_rear",
            meaning: "back of the device on the rear rails, from the middle of the body",
            kind: Kind::Length,
        },
    ],
    sources: &[&sources::GEOMETRY],
    valid: "devices on rails",
    leaves_out: "Room for cables between two devices, which F03 answers; half-width devices side by side.",
    caution: None,
    asked: None,
    run,
};

/// Contact up to this is no overlap.
const SLACK: f64 = geometry::SLACK;

/// What two devices, or one and its rails, have to do with each other.
enum Touch<'a> {
    /// On the same rails, sharing units.
    Shared(&'a PlacedDevice<'a>, &'a PlacedDevice<'a>, f64),
    /// Reaching past the rails' ends by so many units.
    Past(&'a PlacedDevice<'a>, f64),
    /// One on the front, one on the rear rails, at the same height.
    BackToBack(&'a PlacedDevice<'a>, &'a PlacedDevice<'a>, Backs),
}

/// The planes of the backs of a device on the front rails and of one on the rear rails.
struct Backs {
    front: f64,
    rear: f64,
}

/// A rack device and where it is.
struct Racked<'a> {
    device: &'a PlacedDevice<'a>,
    bay: usize,
    rails: End,
    /// The lowest unit, and the one above the highest.
    units: (u32, u32),
}

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let Some(model) = &case.model else { return needs_model(check, case) };
    let touches = touches(&racked(case), model);
    let taken = taken_units(case, model);
    let findings =
        worst_and_unfit(&touches, |touch| judge(check, touch), |touch, finding| tell(case, &taken, touch, finding));
    if findings.is_empty() {
        return vec![Finding::holds(check, Subject::Cabinet, "no two devices share a unit")];
    }
    findings
}

fn racked<'a>(case: &'a Case) -> Vec<Racked<'a>> {
    let mut racked: Vec<_> = case
        .devices
        .iter()
        .filter_map(|device| {
            let Place::Rack { bay, rails, unit, .. } = device.fitted.at else { return None };
            device.space?;
            Some(Racked { device, bay, rails, units: (unit, unit.saturating_add(project::units_needed(device.spec))) })
        })
        .collect();
    racked.sort_unstable_by_key(|one| (one.bay, one.units.0, one.device.fitted.id));
    racked
}

fn touches<'a>(racked: &[Racked<'a>], model: &Model) -> Vec<Touch<'a>> {
    let above_all = model.layout.units + 1;
    let mut touches = Vec::new();
    // A device that shares room with many is told once for each sort, so that a heap does not fill the report.
    let mut told = vec![(false, false); racked.len()];
    for (index, one) in racked.iter().enumerate() {
        let past = f64::from(one.units.1.saturating_sub(above_all)) + f64::from(1_u32.saturating_sub(one.units.0));
        if past > 0.0 {
            touches.push(Touch::Past(one.device, past));
        }
        for (other, (told_shared, told_backs)) in racked[index + 1..].iter().zip(&mut told[index + 1..]) {
            // They rise by their lowest unit.
            if other.bay != one.bay || other.units.0 >= one.units.1 {
                break;
            }
            if other.rails == one.rails {
                if !std::mem::replace(told_shared, true) {
                    let shared = one.units.1.min(other.units.1) - other.units.0;
                    touches.push(Touch::Shared(one.device, other.device, f64::from(shared)));
                }
                continue;
            }
            let (front, rear) = if one.rails == End::Front { (one, other) } else { (other, one) };
            let (Some(a), Some(b)) = (front.device.space, rear.device.space) else { continue };
            let backs = Backs { front: a.max.y, rear: b.min.y };
            if backs.rear < backs.front && std::mem::replace(told_backs, true) {
                continue;
            }
            touches.push(Touch::BackToBack(front.device, rear.device, backs));
        }
    }
    touches
}

fn judge(check: &Check, touch: &Touch<'_>) -> Finding {
    match touch {
        Touch::Shared(_, device, units) | Touch::Past(device, units) => Finding::at_most(
            check,
            Subject::Device(device.fitted.id),
            Value::new(*units, Kind::RackUnits),
            Value::new(0.0, Kind::RackUnits),
            1.0,
        ),
        Touch::BackToBack(_, device, backs) => {
            let apart = backs.rear - backs.front;
            let apart = if (-SLACK..0.0).contains(&apart) { 0.0 } else { apart };
            Finding::at_least(check, Subject::Device(device.fitted.id), length(apart), length(0.0), 1.0)
        }
    }
}

fn tell(case: &Case, taken: &[Vec<bool>], touch: &Touch<'_>, finding: Finding) -> Finding {
    let both = |a, b| case.name(a).text(" and ").then(case.name(b));
    match touch {
        Touch::Shared(a, b, _) => finding.about(both(a, b)).working(unit_steps(&[a, b])).help(place_help(taken, b)),
        Touch::Past(device, _) => {
            let rails = Step::input(
                "n_bay",
                "units of the bay",
                Value::new(f64::from(case.project.build.units), Kind::RackUnits),
            );
            let mut steps = unit_steps(&[device]);
            steps.push(rails);
            finding
                .about(case.name(device))
                .because("reaches past the rails")
                .working(steps)
                .help(place_help(taken, device))
        }
        Touch::BackToBack(front, rear, backs) => {
            let short = (backs.front - backs.rear).max(0.0);
            finding
                .about(both(front, rear))
                .working(vec![
                    Step::input("y_front", Phrase::from("back of ").then(case.name(front)), length(backs.front)),
                    Step::input("y_rear", Phrase::from("back of ").then(case.name(rear)), length(backs.rear)),
                    Step::computed(
                        "s",
                        "distance between the two backs",
                        "y_rear − y_front",
                        Phrase::new().number(length(backs.rear)).text(" − (").number(length(backs.front)).text(")"),
                        length(backs.rear - backs.front),
                    )
                    .from_source(&sources::GEOMETRY),
                ])
                .help(place_help(taken, rear))
                .help(Phrase::from("Or make the body ").value(length(short)).text(" deeper"))
        }
    }
}

fn unit_steps(devices: &[&PlacedDevice<'_>]) -> Vec<Step> {
    let mut steps = Vec::new();
    for device in devices {
        let Place::Rack { unit, .. } = device.fitted.at else { continue };
        let name = device.spec.name.as_str();
        steps.push(Step::input("u", format!("lowest unit of {name}"), crate::count(unit as usize)));
        let units = Value::new(f64::from(project::units_needed(device.spec)), Kind::RackUnits);
        steps.push(Step::input("n", format!("units of {name}"), units));
    }
    steps
}

/// "Move Recorder to B 19": the nearest place on the same rails where nothing stands, in its own bay first.
fn place_help(taken: &[Vec<bool>], device: &PlacedDevice<'_>) -> Phrase {
    let Place::Rack { bay, rails, unit, .. } = device.fitted.at else { return Phrase::new() };
    let needed = project::units_needed(device.spec).max(1) as usize;
    let own = (unit as usize).saturating_sub(1);
    let mut bays = [true, false].into_iter().flat_map(|own| (0..taken.len()).filter(move |at| (*at == bay) == own));
    let found = bays.find_map(|bay| {
        let runs = taken[bay].windows(needed).enumerate().filter(|(_, run)| run.iter().all(|taken| !taken));
        runs.map(|(first, _)| (bay, first)).min_by_key(|(_, first)| first.abs_diff(own))
    });
    let name = device.spec.name.as_str();
    match found {
        Some((bay, first)) => {
            let rear = if rails == End::Rear { "rear " } else { "" };
            format!("Move {name} to {} {rear}{}", crate::bay_letter(bay), first + 1).into()
        }
        None => format!("No other place is free for {name}: take it out or take a higher cabinet").into(),
    }
}

#[cfg(test)]
mod tests {
    use units::Millimetres;

    use super::super::trial::words;
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack};

    fn rear(unit: u32) -> Place {
        Place::Rack { bay: 0, rails: End::Rear, unit, facing: End::Rear, forward: Millimetres(0.0) }
    }

    /// A front and a rear device of these depths at the same unit.
    fn back_to_back(front: f64, behind: f64) -> Desk {
        let mut desk = Desk::new();
        let (mut one, mut other) = (device(2), device(2));
        (one.depth, other.depth) = (Millimetres(front), Millimetres(behind));
        desk.add(one, rack(0, 5));
        desk.add(other, rear(6));
        desk
    }

    /// The outcome and the leading figure of the worst finding.
    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, given: Option<f64>) -> Finding {
        let finding = desk.run(&CHECK).remove(0);
        assert_eq!(finding.outcome, outcome, "{finding:?}");
        match (finding.given, given) {
            (Some(found), Some(given)) => assert!((found.number - given).abs() < 1e-9, "{} for {given}", found.number),
            (found, given) => assert_eq!(found.is_some(), given.is_some()),
        }
        finding
    }

    #[test]
    fn holds_side_by_side_and_fails_on_a_shared_unit() {
        let mut desk = Desk::new();
        desk.add(device(3), rack(0, 4));
        desk.add(device(2), rack(0, 7));
        check(&desk, Outcome::Holds, None);
        desk.add(device(3), rack(0, 5));
        let finding = check(&desk, Outcome::Fails, Some(2.0));
        assert_eq!(words(&finding.about), "Box, A 4 and Box, A 5");
        // Units 1 to 3 and 9 to 20 are free: 1 and 9 lie as near to 5, and the lower one is offered.
        assert_eq!(words(&finding.help[0]), "Move Box to A 1");
    }

    #[test]
    fn fails_beyond_the_top_and_below_unit_one() {
        let mut desk = Desk::new();
        desk.add(device(3), rack(0, 18));
        check(&desk, Outcome::Holds, None);
        desk.add(device(3), rack(0, 19));
        let findings = desk.run(&CHECK);
        assert_eq!(findings.iter().filter(|finding| finding.outcome == Outcome::Fails).count(), 2);
        let mut desk = Desk::new();
        desk.add(device(3), rack(0, 19));
        check(&desk, Outcome::Fails, Some(1.0));
        let mut desk = Desk::new();
        desk.add(device(3), rack(0, 0));
        check(&desk, Outcome::Fails, Some(1.0));
    }

    #[test]
    fn measures_what_is_left_between_two_backs() {
        // Rails 594 mm apart: 800 less two skins of 3 and two set-backs of 100.
        check(&back_to_back(300.0, 290.0), Outcome::Holds, Some(4.0));
        check(&back_to_back(300.0, 294.0), Outcome::Holds, Some(0.0));
        check(&back_to_back(300.0, 294.4), Outcome::Holds, Some(0.0));
        let finding = check(&back_to_back(300.0, 310.0), Outcome::Fails, Some(-16.0));
        assert!(finding.help.iter().any(|help| words(help).contains("16 mm")));
    }

    #[test]
    fn tells_a_device_in_a_heap_once() {
        let mut desk = Desk::new();
        for _ in 0..40 {
            desk.add(device(1), rack(0, 3));
        }
        assert_eq!(desk.run(&CHECK).len(), 39);
    }
}
