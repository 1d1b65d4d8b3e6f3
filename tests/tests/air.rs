//! Air and altitude against published values (`published/air.toml`) and a scientific library
//! (`reference/atmosphere_1976.csv`), and the shipped fans against both.

use catalogue::{UnitSort, sample};
use climate::{RATED_AIR_DENSITY, SPECIFIC_HEAT, density, standard_air};
use tests::published::{number, rows};
use toml::Table;
use units::{Celsius, Metres};

fn published(kind: &str) -> Vec<Table> {
    rows(include_str!("../published/air.toml"), kind)
}

/// The value agrees with the published one within the row's share of it; a failure names the source.
fn check(row: &Table, what: &str, found: f64, expected: f64) {
    let (id, source) = (&row["id"], &row["source"]);
    let within = number(row, "within") * expected;
    assert!((found - expected).abs() <= within, "{id} {what}: {found} instead of {expected} ({source})");
}

#[test]
fn standard_air_is_as_published() {
    for row in published("standard") {
        let air = standard_air(Metres(number(&row, "elevation"))).expect("inside the range");
        check(&row, "temperature", air.temperature, number(&row, "temperature_k"));
        check(&row, "pressure", air.pressure, number(&row, "pressure_pa"));
        check(&row, "density", air.density, number(&row, "density"));
        check(&row, "ratio", air.density_ratio, number(&row, "ratio"));
    }
    for row in published("ratio") {
        let air = standard_air(Metres(number(&row, "elevation"))).expect("inside the range");
        check(&row, "ratio", air.density_ratio, number(&row, "ratio"));
    }
}

#[test]
fn standard_air_agrees_with_a_scientific_library() {
    // fluids 1.3.1, ATMOSPHERE_1976; rows with a shifted temperature have its shift in the second column.
    let mut rows = 0;
    for line in include_str!("../reference/atmosphere_1976.csv").lines().skip(1) {
        let cells: Vec<f64> = line.split(',').map(|cell| cell.parse().expect("a number")).collect();
        let (elevation, shift, kelvin, pressure, expected) = (cells[0], cells[1], cells[3], cells[4], cells[5]);
        let Some(air) = standard_air(Metres(elevation)) else { continue };
        rows += 1;
        let near = |found: f64, expected: f64| (found - expected).abs() <= 2e-4 * expected;
        assert!(near(air.temperature + shift, kelvin), "{line}: {}", air.temperature);
        assert!(near(air.pressure, pressure), "{line}: {}", air.pressure);
        let found = density(air.pressure, Celsius(air.temperature + shift - 273.15)).expect("above absolute zero");
        assert!(near(found, expected), "{line}: {found}");
    }
    assert!(rows > 50, "only {rows} rows compared");
}

#[test]
fn hot_air_has_the_density_of_an_ideal_gas() {
    for row in published("density") {
        let temperature = Celsius(number(&row, "temperature_c"));
        let found = density(number(&row, "pressure_pa"), temperature).expect("above absolute zero");
        check(&row, "density", found, number(&row, "density"));
    }
}

#[test]
fn air_carries_the_published_heat() {
    for row in published("airflow") {
        let ratio = standard_air(Metres(number(&row, "elevation"))).expect("inside the range").density_ratio;
        let per_second = number(&row, "heat_w") / (RATED_AIR_DENSITY * ratio * SPECIFIC_HEAT * number(&row, "rise_k"));
        check(&row, "flow", per_second * 3600.0, number(&row, "flow_m3_h"));
    }
}

#[test]
fn the_shipped_fans_carry_what_their_air_carries() {
    let all = sample();
    let fans: Vec<_> = all.units.values().filter(|unit| unit.sort == UnitSort::FilterFan).collect();
    assert!(fans.len() >= 3);
    for fan in fans {
        let per_kelvin = RATED_AIR_DENSITY * SPECIFIC_HEAT * fan.airflow.0 / 3600.0;
        for rated in &fan.rated {
            let expected = per_kelvin * (rated.inside.0 - rated.outside.0);
            assert!((rated.capacity.0 - expected).abs() < 1e-3 * expected, "{}: {expected}", fan.name);
        }
    }
}
