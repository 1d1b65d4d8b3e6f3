//! **H02 `effective-surface`** – how much surface sheds heat, and by how much would the bare enclosure warm up?
//!
//! ΔT = (P + Q_sun) / (k · A_e),  A_e = Σ A_0 · b
//!
//! - ΔT     rise of the inside air over outdoor air       [K]
//! - P      heat given off inside, from H01               [W]
//! - Q_sun  heat the sun brings in, from H03              [W]
//! - k      overall coefficient, painted sheet, still air [W/(m²·K)]
//! - A_e    effective cooling surface                     [m²]
//! - A_0    face over the outside                         [m²]
//! - b      surface factor                                [–]
//!
//! Source:      IEC TR 60890 (VDE 0660-507), recalled; k = 5.5 its customary companion.
//! Valid for:   one room without insulation, divider and climate units.
//! Agreement:   tests/published/heat.toml, T05-01…05, to the last printed figure.
//! Not covered: wind.
//!
//! A method beside H04 that can be followed by hand. It decides nothing, so its figure is the surface, which is geometry;
//! the rise is given only where the method is valid.

use project::Face;
use units::{Kind, Value};

use super::formulas::effective_surface::{effective_surface, face_surface, surface_factor};
use super::hottest::Hottest;
use super::walls::{compartments, face_name};
use crate::sources::{FLAT_SUN, IEC_60890};
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// Overall coefficient of painted sheet in still air, W/(m²·K). The customary companion of the method, from memory.
pub const STILL_AIR_COEFFICIENT: f64 = 5.5;

/// The check.
pub static CHECK: Check = Check {
    code: "H02",
    name: "effective-surface",
    topic: Topic::Heat,
    question: "How much surface sheds heat, and by how much would the bare enclosure warm up?",
    formula: "ΔT = (P + Q_sun) / (k · A_e),  A_e = Σ A_0 · b",
    symbols: &[
        Symbol { symbol: "ΔT", meaning: "rise over outdoor air", kind: Kind::TemperatureDifference },
        Symbol { symbol: "P", meaning: "heat given off inside", kind: Kind::Power },
        Symbol { symbol: "Q_sun", meaning: "heat the sun brings in", kind: Kind::Power },
        Symbol { symbol: "k", meaning: "painted sheet in still air", kind: Kind::HeatTransfer },
        Symbol { symbol: "A_e", meaning: "effective cooling surface", kind: Kind::Area },
        Symbol { symbol: "A_0", meaning: "face over the outside", kind: Kind::Area },
        Symbol { symbol: "b", meaning: "surface factor", kind: Kind::Ratio },
    ],
    sources: &[&IEC_60890, &FLAT_SUN],
    valid: "one room without insulation, divider and climate units",
    leaves_out: "wind; it stands beside H04 to be followed by hand and decides nothing",
    caution: None,
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let hour = match Hottest::of(case) {
        Ok(hour) => hour,
        Err(gap) => return vec![gap.finding(check, Subject::Cabinet)],
    };
    let Some(model) = case.model.as_ref() else { return Vec::new() };
    let build = &case.project.build;
    let installation = case.project.brief.installation;
    let body = model.layout.body.size();
    let size = [body.x / 1000.0, body.z / 1000.0, body.y / 1000.0];
    let roofed = model.covered_by_shield(Face::Top);
    let area = |number: f64| Value::new(number, Kind::Area);
    let mut working = Vec::new();
    for face in Face::ALL {
        let factor = surface_factor(installation, roofed, face);
        if factor > 0.0 {
            let (a, b) = (area(face_surface(face, size)), Value::new(factor, Kind::Ratio));
            let numbers = Phrase::new().number(a).text(" × ").number(b);
            let product = area(face_surface(face, size) * factor);
            working.push(Step::computed("A_0·b", face_name(face), "A_0 × b", numbers, product).from_source(&IEC_60890));
        }
    }
    let a_e = effective_surface(installation, roofed, size);
    let surface = Step::computed("A_e", "effective cooling surface", "Σ A_0 · b", Phrase::new(), area(a_e));
    working.push(surface.from_source(&IEC_60890));

    let insulated = Face::ALL.into_iter().any(|face| build.insulation.get(face).is_some());
    let why = if insulated {
        Some("the method does not cover insulation")
    } else if compartments(case) > 1 {
        Some("the method does not cover a divider")
    } else if hour.units.is_empty() {
        None
    } else {
        Some("the method does not cover climate units")
    };
    if let Some(why) = why {
        let why = format!("no rise is given: {why}");
        return vec![Finding::tells(check, Subject::Cabinet, area(a_e)).because(why).working(working)];
    }

    let gains = hour.gains[0];
    let p = gains.devices + gains.losses + gains.fans;
    let q_sun = hour.ways.iter().map(|way| way.sun[0]).fold(0.0, f64::max);
    let watts = |number: f64| Value::new(number, Kind::Power);
    let k = Value::new(STILL_AIR_COEFFICIENT, Kind::HeatTransfer);
    // ΔT = (P + Q_sun) / (k · A_e)
    let rise = Value::new((p + q_sun) / (STILL_AIR_COEFFICIENT * a_e), Kind::TemperatureDifference);
    working.push(Step::input("P", "heat given off inside, H01", watts(p)));
    working.push(Step::input("Q_sun", "heat the sun brings in, H03", watts(q_sun)).from_source(&FLAT_SUN));
    working.push(Step::input("k", "painted sheet in still air", k).from_source(&IEC_60890));
    let numbers = Phrase::from("(").number(watts(p)).text(" + ").number(watts(q_sun)).text(") / (");
    let numbers = numbers.number(k).text(" × ").number(area(a_e)).text(")");
    working.push(Step::computed("ΔT", "rise over outdoor air", "(P + Q_sun) / (k · A_e)", numbers, rise));
    vec![Finding::tells(check, Subject::Cabinet, area(a_e)).working(working)]
}

#[cfg(test)]
mod tests {
    use catalogue::Device;
    use project::Sun;
    use units::Watts;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack, step};

    fn desk() -> Desk {
        let mut desk = Desk::new();
        desk.project.brief.sun = Sun::Shade;
        desk.add(Device { power: Watts(200.0), ..device(1) }, rack(0, 1));
        desk
    }

    #[test]
    fn the_hand_calculation_comes_out() {
        // 1.8 · H · (W + D) + 1.4 · W · D with 0.606 × 0.8 × 0.995 m
        let area = 1.8 * 0.995 * (0.606 + 0.8) + 1.4 * 0.606 * 0.8;
        let finding = &desk().run(&CHECK)[0];
        assert!((step(finding, "A_e") - area).abs() < 1e-9);
        assert!((step(finding, "ΔT") - 200.0 / (5.5 * area)).abs() < 1e-9);
        assert_eq!(finding.outcome, Outcome::Holds);
    }

    #[test]
    fn gives_no_rise_outside_its_range_and_still_shows_the_area() {
        let mut with_unit = desk();
        with_unit.exchanger(80.0, 0);
        let mut with_divider = Desk::two_bays();
        with_divider.project.brief.sun = Sun::Shade;
        for desk in [with_unit, with_divider] {
            let finding = &desk.run(&CHECK)[0];
            assert_eq!(finding.outcome, Outcome::Holds);
            assert_eq!(finding.given.unwrap().number, step(finding, "A_e"));
            assert!(finding.working.iter().all(|step| step.symbol != "ΔT"));
            assert!(finding.said().shown(units::System::Metric).contains("no rise is given"));
        }
    }
}
