//! **F05 `air-space`** – has every device free air enough before its inlet and behind its outlet?
//!
//! s_needed = max(s_min, q / (w · v_max)),  s_free ≥ s_needed,  v = q / (w · s_free)
//!
//! - q       air the device moves by itself                                                     [m³/h]
//! - w       width of the opening along which the air comes in: of the face, or of the side     [mm]
//! - v_max   fastest air that still reaches the inlet with little loss: 2.0                      [m/s]
//! - s_min   least free distance for moving air: 25                                              [mm]
//! - s_free  free distance before the inlet or behind the outlet                                 [mm]
//!
//! Source:      [`sources::PRACTICE`] for v_max and s_min.
//! Valid for:   devices with their own fans; air comes along the face from above or below.
//! Agreement:   hand calculation below.
//! Not covered: what rails, cables and cable management take of the way; short-circuit of warm air; devices without fans.

use catalogue::AirDirection;
use project::Place;
use units::{Kind, Value};

use super::names::part_name;
use super::room::{SideOf, helps, length, room};
use super::subjects::{needs_model, worst_and_unfit};
use crate::{Case, Check, Finding, Phrase, PlacedDevice, Step, Subject, Symbol, Topic, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "F05",
    name: "air-space",
    topic: Topic::Fit,
    question: "Has every device free air enough before its inlet and behind its outlet?",
    formula: "s_free ≥ max(s_min, q / (w · v_max))",
    symbols: &[
        Symbol { symbol: "q", meaning: "air the device moves by itself", kind: Kind::AirFlow },
        Symbol { symbol: "w", meaning: "width along which the air comes in", kind: Kind::Length },
        Symbol { symbol: "v_max", meaning: "fastest air before an inlet", kind: Kind::Speed },
        Symbol { symbol: "s_min", meaning: "least free distance for moving air", kind: Kind::Length },
        Symbol { symbol: "s_free", meaning: "free distance", kind: Kind::Length },
    ],
    sources: &[&sources::PRACTICE, &sources::GEOMETRY],
    valid: "devices with their own fans; air comes along the face from above or below",
    leaves_out: "What rails, cables and cable management take of the way; short-circuit of warm air; devices without fans.",
    caution: None,
    asked: None,
    run,
};

/// Fastest air before an inlet, m/s: common practice, no source.
const FASTEST: f64 = 2.0;
/// Least free distance for moving air, mm: common practice, no source.
const LEAST: f64 = 25.0;
/// Above this share of the free distance it is tight: common practice, no source.
const RESERVE: f64 = 0.9;

/// Where air goes in or out of a device.
#[derive(Clone, Copy, PartialEq)]
enum Opening {
    Of(SideOf),
    /// Left and right: the narrower of the two.
    Beside,
}

/// One opening of a device that moves air.
struct Airway<'a> {
    device: &'a PlacedDevice<'a>,
    opening: Opening,
    inlet: bool,
    /// Free distance, mm.
    free: f64,
    to: Phrase,
}

impl Airway<'_> {
    /// Width along which air comes in, mm.
    fn width(&self) -> f64 {
        if self.opening == Opening::Beside { self.device.spec.depth.0 } else { self.device.spec.width.0 }
    }

    /// m³/h and mm to mm: q / 3600 / (w / 1000 · v) · 1000.
    fn needed_by_flow(&self) -> f64 {
        self.device.spec.airflow.0 / 3600.0 * 1e6 / (self.width() * FASTEST)
    }

    fn lacks_data(&self) -> bool {
        self.device.spec.airflow.0 <= 0.0 || self.width() <= 0.0
    }
}

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let Some(model) = &case.model else { return needs_model(check, case) };
    let mut airways = Vec::new();
    for device in &case.devices {
        if !matches!(device.fitted.at, Place::Rack { .. } | Place::Shelf { .. }) {
            continue;
        }
        let both = match device.spec.air {
            AirDirection::Still => continue,
            AirDirection::FrontToBack => [(SideOf::Face, true), (SideOf::Back, false)],
            AirDirection::BackToFront => [(SideOf::Back, true), (SideOf::Face, false)],
            AirDirection::SideToSide => {
                airways.extend(beside(case, device));
                continue;
            }
        };
        for (side, inlet) in both {
            let Some(room) = room(model, device, side) else { continue };
            let to = part_name(case, room.to);
            airways.push(Airway { device, opening: Opening::Of(side), inlet, free: room.mm, to });
        }
    }
    let findings =
        worst_and_unfit(&airways, |airway| judge(check, airway), |airway, finding| tell(case, airway, finding));
    if findings.is_empty() {
        return vec![Finding::holds(check, Subject::Cabinet, "no placed device moves air of its own")];
    }
    findings
}

/// The narrower of the spaces left and right of a device, up to its bay's walls.
fn beside<'a>(case: &'a Case, device: &'a PlacedDevice<'a>) -> Option<Airway<'a>> {
    let model = case.model.as_ref()?;
    let (body, layout) = (device.space?, &model.layout);
    let bay = layout.bays.get(model.device(device.fitted.id)?.bay)?;
    let left = body.min.x - bay.left.max(layout.inside.min.x + layout.insulation.left);
    let right = bay.right.min(layout.inside.max.x - layout.insulation.right) - body.max.x;
    Some(Airway {
        device,
        opening: Opening::Beside,
        inlet: true,
        free: left.min(right),
        to: "the side of its bay".into(),
    })
}

fn judge(check: &Check, airway: &Airway<'_>) -> Finding {
    let subject = Subject::Device(airway.device.fitted.id);
    if airway.lacks_data() {
        let what = if airway.device.spec.airflow.0 <= 0.0 { "air flow" } else { "size" };
        return Finding::needs_data(check, subject, format!("{what} of {}", airway.device.spec.name));
    }
    Finding::at_least(check, subject, length(airway.free), length(airway.needed_by_flow().max(LEAST)), RESERVE)
}

fn tell(case: &Case, airway: &Airway<'_>, finding: Finding) -> Finding {
    let words = match (airway.opening, airway.inlet) {
        (Opening::Beside, _) => "beside it",
        (_, true) => "before its inlet",
        (_, false) => "behind its outlet",
    };
    let finding = finding.about(case.name(airway.device).text(format!(": {words}")));
    if airway.lacks_data() {
        return finding;
    }
    let (flow, width) = (airway.device.spec.airflow, airway.width());
    let (by_flow, speed) = (airway.needed_by_flow(), Value::new(FASTEST, Kind::Speed));
    let needed = by_flow.max(LEAST);
    let mut steps = vec![
        Step::input("q", "air the device moves by itself", flow),
        Step::input("w", "width along which the air comes in", length(width)),
        Step::input("v_max", "fastest air before an inlet", speed).from_source(&sources::PRACTICE),
        Step::input("s_min", "least free distance for moving air", length(LEAST)).from_source(&sources::PRACTICE),
        Step::computed(
            "s_needed",
            "free distance it needs",
            "max(s_min, q / (w · v_max))",
            Phrase::from("max(")
                .number(length(LEAST))
                .text(", ")
                .value(flow)
                .text(" / (")
                .value(length(width))
                .text(" · ")
                .value(speed)
                .text("))"),
            length(needed),
        ),
        Step::input(
            "s_free",
            Phrase::from(format!("free distance {words}, to ")).then(airway.to.clone()),
            length(airway.free),
        )
        .from_source(&sources::GEOMETRY),
    ];
    if airway.free > 0.0 {
        let real = FASTEST * by_flow / airway.free;
        let numbers = Phrase::new()
            .value(flow)
            .text(" / (")
            .value(length(width))
            .text(" · ")
            .value(length(airway.free))
            .text(")");
        steps.push(Step::computed(
            "v",
            "speed of the air there",
            "q / (w · s_free)",
            numbers,
            Value::new(real, Kind::Speed),
        ));
    }
    let mut finding = finding.working(steps);
    let short = needed - airway.free;
    if short > 0.0 {
        let helps = match airway.opening {
            Opening::Of(side) => helps(case, airway.device, side, short, 0.0),
            Opening::Beside => vec![Phrase::from("Make the bay ").value(length(2.0 * short)).text(" wider")],
        };
        for help in helps {
            finding = finding.help(help);
        }
    }
    finding
}

#[cfg(test)]
mod tests {
    use project::End;
    use units::{CubicMetresPerHour, Millimetres};

    use super::super::trial::words;
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack, step};

    /// A device of 440 mm width and 300 mm depth: 80 mm are free before it, 374 mm behind it, 80 mm beside it.
    fn desk(air: AirDirection, airflow: f64) -> Desk {
        let mut desk = Desk::new();
        let mut one = device(2);
        (one.air, one.airflow) = (air, CubicMetresPerHour(airflow));
        desk.add(one, rack(0, 5));
        desk
    }

    /// The worst finding: outcome, free and needed distance.
    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, free: f64, needed: f64) -> Finding {
        let finding = desk.run(&CHECK).remove(0);
        assert_eq!(finding.outcome, outcome, "{finding:?}");
        assert!((finding.given.unwrap().number - free).abs() < 1e-9, "{:?} for {free}", finding.given);
        assert!((finding.allowed.unwrap().number - needed).abs() < 1e-6, "{:?} for {needed}", finding.allowed);
        finding
    }

    #[test]
    fn needs_the_distance_at_which_the_air_keeps_below_two_metres_a_second() {
        // 220 m³/h through 440 mm at 2 m/s: 220 / 3600 / (0.44 · 2) = 69.4 mm.
        let finding = check(&desk(AirDirection::FrontToBack, 220.0), Outcome::Holds, 80.0, 69.444_444_444);
        assert!((step(&finding, "v") - 220.0 / 3600.0 / (0.44 * 0.08)).abs() < 1e-9);
        assert!(words(&finding.about).contains("before its inlet"));
        check(&desk(AirDirection::FrontToBack, 250.0), Outcome::Tight, 80.0, 78.914_141_414);
        let finding = check(&desk(AirDirection::FrontToBack, 260.0), Outcome::Fails, 80.0, 82.070_707_070);
        assert!(words(&finding.help[0]).starts_with("Set the front rails of bay A"));
    }

    #[test]
    fn the_outlet_needs_it_too() {
        let finding = check(&desk(AirDirection::BackToFront, 260.0), Outcome::Fails, 80.0, 82.070_707_070);
        assert!(words(&finding.about).contains("behind its outlet"));
    }

    #[test]
    fn little_air_still_needs_25_mm() {
        let mut desk = desk(AirDirection::FrontToBack, 5.0);
        let at = |forward| Place::Rack {
            bay: 0,
            rails: End::Front,
            unit: 5,
            facing: End::Front,
            forward: Millimetres(forward),
        };
        desk.project.build.devices[0].at = at(50.0);
        check(&desk, Outcome::Holds, 30.0, 25.0);
        desk.project.build.devices[0].at = at(56.0);
        check(&desk, Outcome::Fails, 24.0, 25.0);
    }

    #[test]
    fn air_from_side_to_side_needs_room_beside_the_device() {
        // 160 m³/h along 300 mm at 2 m/s: 74.1 mm, tight in 80 mm.
        check(&desk(AirDirection::SideToSide, 160.0), Outcome::Tight, 80.0, 74.074_074_074);
        let finding = check(&desk(AirDirection::SideToSide, 216.0), Outcome::Fails, 80.0, 100.0);
        assert_eq!(words(&finding.help[0]), "Make the bay 40 mm wider");
    }

    #[test]
    fn says_so_when_nobody_has_said_how_much_air_it_moves() {
        let finding = desk(AirDirection::FrontToBack, 0.0).run(&CHECK).remove(0);
        assert_eq!(finding.outcome, Outcome::NeedsData);
        assert_eq!(words(&finding.because), "air flow of Box");
        assert_eq!(desk(AirDirection::Still, 0.0).run(&CHECK)[0].outcome, Outcome::Holds);
    }
}
