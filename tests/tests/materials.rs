//! The shipped sheet, insulation and paint against published values (`published/materials.toml`).

use catalogue::{Catalogue, PartId, sample};
use tests::published::{number, rows};
use toml::Table;

fn published(kind: &str) -> Vec<Table> {
    rows(include_str!("../published/materials.toml"), kind)
}

fn text<'a>(row: &'a Table, field: &str) -> &'a str {
    row[field].as_str().unwrap_or_else(|| panic!("{field} of {row:?}"))
}

/// The value agrees with the published one within a share of it; a failure names the source.
fn check(row: &Table, what: &str, found: f64, expected: f64, within: f64) {
    let (id, source) = (text(row, "id"), text(row, "source"));
    assert!((found - expected).abs() <= within * expected, "{id} {what}: {found} instead of {expected} ({source})");
}

#[test]
fn sheet_weighs_what_is_published() {
    let all = sample();
    for row in published("sheet") {
        let skin = &all.skins[&PartId::from(text(&row, "skin"))];
        let thickness = number(&row, "thickness_mm");
        if row["own_thickness"].as_bool().unwrap() {
            check(&row, "thickness", skin.thickness.0, thickness, 0.0);
        }
        let mass = skin.density * thickness / 1000.0 * number(&row, "area_m2");
        check(&row, "mass", mass, number(&row, "mass_kg"), number(&row, "within"));
    }
}

#[test]
fn sheets_of_one_material_have_one_density_and_conductivity() {
    let Catalogue { skins, .. } = sample();
    assert!(skins.len() > 1, "no sheet to compare");
    for one in skins.values() {
        for other in skins.values().filter(|other| other.material == one.material) {
            let (one, other) = ((one.density, one.conductivity), (other.density, other.conductivity));
            assert_eq!(one, other);
        }
    }
}

#[test]
fn insulation_conducts_what_is_published() {
    let all = sample();
    for row in published("insulation") {
        let part = &all.insulations[&PartId::from(text(&row, "part"))];
        check(&row, "conductivity", part.conductivity, number(&row, "conductivity"), 0.0);
        if row.contains_key("density") {
            check(&row, "density", part.density, number(&row, "density"), number(&row, "density_within"));
        }
    }
}

#[test]
fn paint_absorbs_and_emits_what_is_published() {
    let all = sample();
    for row in published("paint") {
        let part = &all.paints[&PartId::from(text(&row, "part"))];
        check(&row, "absorptance", part.absorptance, number(&row, "absorptance"), 0.0);
        if row.contains_key("emissivity") {
            check(&row, "emissivity", part.emissivity, number(&row, "emissivity"), 0.0);
        }
    }
}
