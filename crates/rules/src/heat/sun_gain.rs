//! **H03 `sun-gain`** – how much heat does the sun bring in?
//!
//! Q_sun = Σ s_f · α · G · A_f · U_f / h_o,f
//!
//! - Q_sun  heat the sun brings in                                  [W]
//! - s      share let through: 1, or behind a shield less           [–]
//! - α      share of sunlight the paint takes up                    [–]
//! - G      flat sun figure                                         [W/m²]
//! - A_f    projected face                                          [m²]
//! - U_f    overall coefficient of the face, from H05               [W/(m²·K)]
//! - h_o,f  film outside the face                                   [W/(m²·K)]
//!
//! Source:      outside-plant practice, 753 W/m² on each sunlit face, from memory; the rest first principles.
//! Valid for:   roof, one of front and rear, and one side sunlit at once; a shield's gap of 20 mm or more; sites up to
//!              3 000 m, above which the films would be too strong.
//! Not covered: the sun's course, sun thrown back by the ground. Never to be added to 1120 W/m² on level ground.

use project::Sun;
use units::{Kind, Value};

use super::cooling::site_in_range;
use super::exposure::{exposures, surface};
use super::walls::{Hour, compartments, face_name, walls};
use crate::sources::{CATALOGUE, FILMS, FLAT_SUN, HEAT_BALANCE};
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, bay_letter};

/// The check.
pub static CHECK: Check = Check {
    code: "H03",
    name: "sun-gain",
    topic: Topic::Heat,
    question: "How much heat does the sun bring in?",
    formula: "Q_sun = Σ s · α · G · A · U / h_o",
    symbols: &[
        Symbol { symbol: "Q_sun", meaning: "heat the sun brings in", kind: Kind::Power },
        Symbol { symbol: "s", meaning: "share a shield lets through", kind: Kind::Share },
        Symbol { symbol: "α", meaning: "share of sunlight the paint takes up", kind: Kind::Share },
        Symbol { symbol: "G", meaning: "flat sun figure", kind: Kind::HeatFlux },
        Symbol { symbol: "A", meaning: "projected face", kind: Kind::Area },
        Symbol { symbol: "U", meaning: "overall coefficient of the face", kind: Kind::HeatTransfer },
        Symbol { symbol: "h_o", meaning: "film outside", kind: Kind::HeatTransfer },
    ],
    sources: &[&FLAT_SUN, &FILMS, &HEAT_BALANCE],
    valid: "roof, one of front and rear, and one side sunlit at once; a shield's gap of 20 mm or more; up to 3 000 m",
    leaves_out: "the sun's course, sun thrown back by the ground; never added to 1120 W/m² on level ground",
    caution: None,
    asked: Some(Asked::Hottest),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let brief = &case.project.brief;
    if let Err(gap) = site_in_range(case, brief.hottest) {
        return vec![gap.finding(check, Subject::Cabinet)];
    }
    let (walls, surface) = match (walls(case), surface(case)) {
        (Ok(walls), Ok(surface)) => (walls, surface),
        (Err(gap), _) | (_, Err(gap)) => return vec![gap.finding(check, Subject::Cabinet)],
    };
    let watts = |number: f64| Value::new(number, Kind::Power);
    if brief.sun == Sun::Shade {
        return vec![Finding::tells(check, Subject::Cabinet, watts(0.0)).because("always in the shade")];
    }
    let count = compartments(case);
    // The way that brings in most; among equals the first.
    let mut worst: Option<(f64, _)> = None;
    for exposure in exposures(brief.installation, brief.sun) {
        let gain: f64 = (0..count).map(|index| surface.gain_of(&walls, index, &exposure)).sum();
        if worst.as_ref().is_none_or(|(most, _)| gain > *most) {
            worst = Some((gain, exposure));
        }
    }
    let Some((gain, exposure)) = worst else { return Vec::new() };

    let mut working = vec![
        Step::input("G", "on each sunlit face", Value::new(climate::FLAT_SUN.irradiance, Kind::HeatFlux))
            .from_source(&FLAT_SUN),
        Step::input("α", "taken up by the paint", Value::new(surface.absorptance, Kind::Share)).from_source(&CATALOGUE),
    ];
    let lit: Vec<_> = walls.iter().filter(|wall| exposure.lit.contains(&wall.face)).collect();
    if lit.iter().any(|wall| wall.shielded) {
        let s = Value::new(surface.let_through, Kind::Share);
        working.push(Step::input("s", "let through by the shield", s).from_source(&HEAT_BALANCE));
    }
    for wall in lit {
        let ratio = |number: f64| Value::new(number, Kind::Ratio);
        let mut numbers = Phrase::new();
        if wall.shielded {
            numbers = numbers.number(ratio(surface.let_through)).text(" × ");
        }
        let film = wall.outside_film(Hour::Hottest).coefficient;
        numbers = numbers.number(ratio(surface.absorptance)).text(" × ");
        numbers = numbers.number(Value::new(climate::FLAT_SUN.irradiance, Kind::HeatFlux)).text(" × ");
        numbers = numbers.number(Value::new(wall.area, Kind::Area)).text(" × ");
        numbers = numbers.number(Value::new(wall.coefficient(Hour::Hottest), Kind::HeatTransfer)).text(" / ");
        numbers = numbers.number(Value::new(film, Kind::HeatTransfer));
        let mut meaning = face_name(wall.face).to_owned();
        if count == 2 {
            meaning = format!("{meaning}, bay {}", bay_letter(wall.compartment));
        }
        if wall.shielded {
            meaning.push_str(", behind the shield");
        }
        let value = watts(surface.gain(wall));
        working.push(Step::computed("Q_f", meaning, "s · α · G · A · U / h_o", numbers, value));
    }
    working.push(Step::computed("Q_sun", "heat the sun brings in", "Σ Q_f", Phrase::new(), watts(gain)));
    vec![Finding::tells(check, Subject::Cabinet, watts(gain)).working(working)]
}

#[cfg(test)]
mod tests {
    use catalogue::{Range, ShieldCover, Trade};
    use project::{Face, Insulated};
    use units::Millimetres;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::Desk;

    fn gain(desk: &Desk) -> f64 {
        let finding = &desk.run(&CHECK)[0];
        assert_eq!(finding.outcome, Outcome::Holds, "{finding:?}");
        finding.given.unwrap().number
    }

    #[test]
    fn three_faces_are_lit_at_once() {
        // (W·H + D·H + W·D) · α · G · U / h_o with the desk's 0.606 × 0.8 × 0.995 m.
        let area = 0.606 * 0.995 + 0.8 * 0.995 + 0.606 * 0.8;
        let u = 1.0 / (1.0 / 8.0 + 0.003 / 150.0 + 1.0 / 17.0);
        assert!((gain(&Desk::new()) - area * 0.5 * 753.0 * u / 17.0).abs() < 1e-6);
    }

    #[test]
    fn nothing_comes_in_in_the_shade() {
        let mut desk = Desk::new();
        desk.project.brief.sun = Sun::Shade;
        assert_eq!(gain(&desk), 0.0);
    }

    #[test]
    fn a_shield_keeps_sun_off_and_a_narrow_gap_is_not_covered() {
        let mut last = gain(&Desk::new());
        for covers in [ShieldCover::Roof, ShieldCover::RoofAndSides, ShieldCover::Full] {
            let mut desk = Desk::new();
            desk.shield(covers, 20.0);
            let found = gain(&desk);
            assert!(found < last, "{covers:?}: {found} after {last}");
            last = found;
        }
        let mut narrow = Desk::new();
        narrow.shield(ShieldCover::Full, 19.9);
        assert_eq!(narrow.run(&CHECK)[0].outcome, Outcome::OutOfRange);
        narrow.project.brief.sun = Sun::Shade;
        assert_eq!(gain(&narrow), 0.0);
    }

    #[test]
    fn more_insulation_never_lets_more_sun_in() {
        let mut desk = Desk::new();
        let foam = catalogue::Insulation {
            name: "Foam".to_owned(),
            density: 30.0,
            conductivity: 0.026,
            thickness: Range { from: 0.0, to: 100.0 },
            trade: Trade::default(),
        };
        desk.catalogue.insulations.insert("foam".into(), foam);
        let mut last = gain(&desk);
        for thickness in [5.0, 10.0, 25.0, 50.0, 100.0] {
            for face in Face::ALL {
                *desk.project.build.insulation.get_mut(face) =
                    Some(Insulated { part: "foam".into(), thickness: Millimetres(thickness) });
            }
            let found = gain(&desk);
            assert!(found < last);
            last = found;
        }
    }

    #[test]
    fn two_bays_let_in_as_much_as_their_faces() {
        let whole = {
            let mut desk = Desk::two_bays();
            desk.project.build.divider = false;
            gain(&desk)
        };
        assert!((gain(&Desk::two_bays()) - whole).abs() < 1e-9);
    }

    #[test]
    fn says_so_where_its_films_no_longer_hold() {
        let mut desk = Desk::new();
        desk.project.brief.elevation = units::Metres(3000.0);
        assert_eq!(desk.run(&CHECK)[0].outcome, Outcome::Holds);
        desk.project.brief.elevation = units::Metres(3001.0);
        let finding = &desk.run(&CHECK)[0];
        assert_eq!((finding.outcome, finding.given), (Outcome::OutOfRange, None));
    }
}
