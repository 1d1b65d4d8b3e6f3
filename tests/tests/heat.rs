//! Heat formulas against published values (`published/heat.toml`), and the Heat checks on the shipped samples.

use catalogue::{UnitMap, sample};
use project::{Installation, samples};
use rules::heat::effective_surface::STILL_AIR_COEFFICIENT;
use rules::heat::formulas::balance::{Compartment, Mover, inside_air};
use rules::heat::formulas::effective_surface::effective_surface;
use rules::heat::formulas::resistance::{Layer, overall_coefficient};
use rules::heat::formulas::unit_map::Curve;
use rules::{Outcome, Topic, check_by_code, report};
use tests::published::{number, rows};
use toml::Table;

fn published(kind: &str) -> Vec<Table> {
    rows(include_str!("../published/heat.toml"), kind)
}

/// A failure names the row and its source.
fn check(row: &Table, found: f64, expected: f64, within: f64) {
    let (id, source) = (&row["id"], &row["source"]);
    assert!((found - expected).abs() <= within, "{id}: {found} instead of {expected} ± {within} ({source})");
}

/// A unit of so many W/K over a map from 30 to 70 °C inside.
fn exchanger(conductance: f64, outside: f64) -> Mover {
    let inside: Vec<f64> = (30..=70).map(f64::from).collect();
    let capacity: Vec<Vec<f64>> = inside.iter().map(|t| vec![conductance * (t - outside).max(0.0)]).collect();
    let map = UnitMap { input: capacity.clone(), inside, outside: vec![outside], capacity };
    let capacity = Curve::of(&map, &map.capacity, outside).expect("inside the map");
    Mover { capacity, left: 1.0, starts_above: 30.0 }
}

#[test]
fn effective_surfaces_are_as_published() {
    for row in published("surface") {
        let installation: Installation = row["installation"].clone().try_into().expect("an installation");
        let size: [f64; 3] = row["size_m"].clone().try_into().expect("three lengths");
        let area = effective_surface(installation, false, size);
        check(&row, area, number(&row, "area_m2"), number(&row, "within"));
        if row.contains_key("rise_k") {
            let rise = number(&row, "heat_w") / (STILL_AIR_COEFFICIENT * area);
            let expected = number(&row, "rise_k");
            check(&row, rise, expected, number(&row, "rise_within") * expected);
        }
    }
}

#[test]
fn walls_pass_the_published_heat() {
    for row in published("wall") {
        let layer = Layer { thickness: number(&row, "thickness_m"), conductivity: number(&row, "conductivity") };
        let found = overall_coefficient(number(&row, "inside_film"), &[layer], number(&row, "outside_film"));
        let expected = number(&row, "coefficient");
        check(&row, found, expected, number(&row, "within") * expected);
    }
}

#[test]
fn exchangers_move_the_published_heat() {
    for row in published("exchanger") {
        let mover = exchanger(number(&row, "conductance"), number(&row, "outside_c"));
        let found = mover.capacity.at(number(&row, "inside_c")).expect("inside the map");
        check(&row, found, number(&row, "heat_w"), number(&row, "within"));
    }
}

#[test]
fn the_inside_air_balances_at_the_published_temperature() {
    for row in published("inside") {
        let outside = number(&row, "outside_c");
        let compartment = Compartment {
            gain: number(&row, "heat_w") + number(&row, "sun_w"),
            conductance: number(&row, "faces"),
            movers: vec![exchanger(number(&row, "exchanger"), outside)],
        };
        let found = inside_air(&[compartment], 0.0, outside)[0];
        check(&row, found, number(&row, "inside_c"), number(&row, "within"));
    }
}

#[test]
fn cooling_and_heating_loads_are_as_published() {
    for (kind, sun, sign) in [("cooling", true, 1.0), ("heating", false, -1.0)] {
        for row in published(kind) {
            let gain = number(&row, "heat_w") + if sun { number(&row, "sun_w") } else { 0.0 };
            let compartment = Compartment { gain, conductance: number(&row, "faces"), movers: vec![] };
            let found = sign * compartment.surplus(number(&row, "inside_c"), number(&row, "outside_c"));
            check(&row, found, number(&row, "load_w"), number(&row, "within"));
        }
    }
}

#[test]
fn every_heat_question_is_answered_for_the_samples() {
    let catalogue = sample();
    for sample in samples() {
        let report = report(&sample.project, &catalogue);
        let of_heat = |code: &str| check_by_code(code).is_some_and(|check| check.topic == Topic::Heat);
        let heat: Vec<_> = report.findings.iter().filter(|finding| of_heat(finding.code)).collect();
        for code in ["H01", "H02", "H03", "H04", "H05", "H06", "H07", "H08", "H09"] {
            assert!(heat.iter().any(|finding| finding.code == code), "{}: no answer to {code}", sample.name);
        }
        for finding in heat {
            let answered = !matches!(finding.outcome, Outcome::NeedsData | Outcome::OutOfRange);
            assert!(answered, "{}: {finding:?}", sample.name);
        }
    }
}
