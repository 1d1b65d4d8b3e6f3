//! **H05 `wall-loss`** – how much heat passes through the outer faces for each kelvin?
//!
//! U·A = Σ A_f · U_f,  1/U_f = 1/h_i + t/λ + t_ins/λ_ins + 1/h_o,f
//!
//! - U·A    conductance of the outer faces    [W/K]
//! - A_f    face over the skin                [m²]
//! - U_f    overall coefficient               [W/(m²·K)]
//! - h_i    film inside                       [W/(m²·K)]
//! - t, λ   thickness and conductivity        [m, W/(m·K)]
//! - h_o,f  film outside                      [W/(m²·K)]
//!
//! Source:      resistances in series, first principles; films of building practice, from memory.
//! Valid for:   flat faces at the hottest hour; cut-outs count as wall; sites up to 3 000 m, above which the films would be
//!              too strong.
//! Agreement:   tests/published/heat.toml, T05-22, within 0.1 %.
//! Not covered: frames and fixings through the insulation, weaker films in thinner air.
//!
//! A face against a wall or a neighbour, and a floor on the ground, lose nothing here, which is the safe side. A floor over
//! a plinth faces outdoor air in the shade with a still film.

use units::{Kind, Value};

use super::cooling::site_in_range;
use super::exposure::exposures;
use super::hottest::conductance as outer;
use super::walls::{Hour, Wall, compartments, conductance, face_name, walls};
use crate::sources::{CATALOGUE, FILMS, HEAT_BALANCE};
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, bay_letter};

/// The check.
pub static CHECK: Check = Check {
    code: "H05",
    name: "wall-loss",
    topic: Topic::Heat,
    question: "How much heat passes through the outer faces for each kelvin?",
    formula: "U·A = Σ A · U,  1/U = 1/h_i + Σ t/λ + 1/h_o",
    symbols: &[
        Symbol { symbol: "U·A", meaning: "conductance of the outer faces", kind: Kind::Conductance },
        Symbol { symbol: "A", meaning: "face over the skin", kind: Kind::Area },
        Symbol { symbol: "U", meaning: "overall coefficient", kind: Kind::HeatTransfer },
        Symbol { symbol: "h_i", meaning: "film inside", kind: Kind::HeatTransfer },
        Symbol { symbol: "h_o", meaning: "film outside", kind: Kind::HeatTransfer },
        Symbol { symbol: "R", meaning: "resistance of skin and insulation", kind: Kind::ThermalResistance },
    ],
    sources: &[&HEAT_BALANCE, &FILMS, &CATALOGUE],
    valid: "flat faces at the hottest hour, up to 3 000 m",
    leaves_out: "frames and fixings through the insulation, weaker films in thinner air",
    caution: None,
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let walls = match site_in_range(case, case.project.brief.hottest).and_then(|()| walls(case)) {
        Ok(walls) => walls,
        Err(gap) => return vec![gap.finding(check, Subject::Cabinet)],
    };
    let brief = &case.project.brief;
    let Some(exposure) = exposures(brief.installation, brief.sun).into_iter().next() else { return Vec::new() };
    let film = Value::new(climate::INSIDE.coefficient, Kind::HeatTransfer);
    let mut working = vec![Step::input("h_i", climate::INSIDE.about, film).from_source(&FILMS)];
    for wall in &walls {
        working.extend(steps(wall, exposure.covered.contains(&wall.face), compartments(case)));
    }
    let sum: f64 = (0..compartments(case)).map(|index| outer(&walls, index, &exposure)).sum();
    let value = conductance(sum);
    let last = Step::computed("U·A", "conductance of the outer faces", "Σ A · U", Phrase::new(), value);
    working.push(last.from_source(&HEAT_BALANCE));
    vec![Finding::tells(check, Subject::Cabinet, value).working(working)]
}

fn steps(wall: &Wall, covered: bool, compartments: usize) -> Vec<Step> {
    let mut name = face_name(wall.face).to_owned();
    if compartments == 2 {
        name = format!("{name}, bay {}", bay_letter(wall.compartment));
    }
    let loss = wall.conductance(Hour::Hottest, covered);
    if loss == 0.0 {
        let why = if covered { "covered, loses nothing" } else { "on the ground, loses nothing" };
        return vec![Step::input("U·A_f", format!("{name}: {why}"), conductance(0.0))];
    }
    let film = wall.outside_film(Hour::Hottest);
    let coefficient = |number: f64| Value::new(number, Kind::HeatTransfer);
    let layers: f64 = wall.layers.iter().map(|layer| layer.thickness / layer.conductivity).sum();
    let resistance = Value::new(layers, Kind::ThermalResistance);
    let u = coefficient(wall.coefficient(Hour::Hottest));
    let numbers = Phrase::from("1 / (1/").number(coefficient(climate::INSIDE.coefficient)).text(" + ");
    let numbers = numbers.number(resistance).text(" + 1/").number(coefficient(film.coefficient)).text(")");
    let area = Value::new(wall.area, Kind::Area);
    let product = Phrase::new().number(area).text(" × ").number(u);
    vec![
        Step::input("R", format!("{name}: skin and insulation"), resistance).from_source(&CATALOGUE),
        Step::computed("U", format!("{name}: {}", film.about), "1 / (1/h_i + R + 1/h_o)", numbers, u)
            .from_source(&FILMS),
        Step::computed("U·A_f", name, "A × U", product, conductance(loss)),
    ]
}

#[cfg(test)]
mod tests {
    use project::Installation;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, step};

    fn check(installation: Installation) -> f64 {
        let mut desk = Desk::new();
        desk.project.brief.installation = installation;
        let finding = desk.run(&CHECK).remove(0);
        assert_eq!(finding.outcome, Outcome::Holds);
        finding.given.unwrap().number
    }

    #[test]
    fn the_hand_calculation_comes_out() {
        let u = 1.0 / (1.0 / 8.0 + 0.003 / 150.0 + 1.0 / 17.0);
        let area = 2.0 * 0.606 * 0.995 + 2.0 * 0.8 * 0.995 + 0.606 * 0.8;
        assert!((check(Installation::FreeStanding) - u * area).abs() < 1e-9);
        assert!((step(&Desk::new().run(&CHECK)[0], "U") - u).abs() < 1e-9);
    }

    #[test]
    fn every_covered_face_loses_less() {
        let mut last = f64::INFINITY;
        for installation in [
            Installation::FreeStanding,
            Installation::EndOfRow,
            Installation::MiddleOfRow,
            Installation::MiddleOfRowAgainstWall,
        ] {
            let found = check(installation);
            assert!(found < last);
            last = found;
        }
    }

    #[test]
    fn a_missing_skin_is_asked_for() {
        let mut desk = Desk::new();
        desk.catalogue.skins.clear();
        assert_eq!(desk.run(&CHECK)[0].outcome, Outcome::NeedsData);
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
