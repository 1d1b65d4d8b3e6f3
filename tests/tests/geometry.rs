//! Rack and sheet geometry against published values (`published/rack.toml`, `published/materials.toml`), the centre of
//! gravity against a scientific library (`reference/centre_of_gravity.json`), and common practice on the shipped samples.

use catalogue::{PartId, RACK_UNIT};
use geometry::{
    Axis, Box3, Frame, Layer, Mass, MassSum, Mesh, Model, Of, Outline, Solid, Tone, Vec3, model, panel_height,
    rail_widths,
};
use project::{End, RailWidth};
use serde::Deserialize;
use toml::Table;

fn published(text: &str, kind: &str) -> Vec<Table> {
    let all: Table = text.parse().expect("the file is TOML");
    let rows: Vec<Table> =
        all[kind].as_array().into_iter().flatten().filter_map(|row| row.as_table().cloned()).collect();
    assert!(!rows.is_empty(), "no published {kind}");
    rows
}

fn rack(kind: &str) -> Vec<Table> {
    published(include_str!("../published/rack.toml"), kind)
}

fn number(row: &Table, field: &str) -> f64 {
    let value = &row[field];
    value.as_float().or_else(|| value.as_integer().map(|whole| whole as f64)).expect("a number")
}

fn units(row: &Table) -> u32 {
    number(row, "units") as u32
}

/// A failure names the row and its source.
fn check(row: &Table, found: f64, expected: f64, within: f64) {
    let (id, source) = (&row["id"], &row["source"]);
    assert!((found - expected).abs() <= within, "{id}: {found} instead of {expected} ± {within} ({source})");
}

fn rails(row: &Table) -> RailWidth {
    row["width"].clone().try_into().expect("a rail width")
}

fn samples() -> Vec<(String, project::Build, Model)> {
    let catalogue = catalogue::sample();
    let all: Vec<_> = project::samples()
        .into_iter()
        .map(|sample| {
            let model = model(&sample.project.build, &catalogue).expect("a sample's parts are in the catalogue");
            (sample.project.name.clone(), sample.project.build, model)
        })
        .collect();
    assert_eq!(all.len(), 3);
    all
}

#[test]
fn rack_units_take_the_published_height() {
    for row in rack("unit") {
        check(&row, RACK_UNIT * f64::from(units(&row)), number(&row, "space"), 1e-9);
        for (_, _, model) in samples() {
            let space = model.layout.unit_bottom(1 + units(&row)) - model.layout.unit_bottom(1);
            check(&row, space, number(&row, "space"), 1e-9);
        }
    }
}

#[test]
fn panels_and_rails_have_the_published_size() {
    for row in rack("panel-height") {
        check(&row, panel_height(units(&row)), number(&row, "height"), number(&row, "within"));
    }
    for row in rack("rails") {
        check(&row, rail_widths(rails(&row)).0, number(&row, "panel"), number(&row, "within"));
    }
    for row in rack("opening") {
        let (_, opening) = rail_widths(rails(&row));
        assert!(opening >= number(&row, "least") && opening <= number(&row, "most"), "{row:?}: {opening}");
    }
}

#[test]
fn whole_units_in_a_clear_height() {
    for row in rack("clear-height") {
        let clear = number(&row, "clear");
        let whole = (clear / RACK_UNIT).floor();
        check(&row, whole, f64::from(units(&row)), 0.0);
        check(&row, clear - whole * RACK_UNIT, number(&row, "spare"), 1e-9);
    }
}

/// A solid that fills a box, standing on its own.
fn filling(fills: &Box3, mass: Mass) -> Solid {
    let size = fills.size();
    Solid {
        of: Of::Plinth,
        layer: Layer::Body,
        tone: Tone::Body,
        outline: Outline::rectangle(size.x, size.y),
        thickness: size.z,
        frame: Frame::facing(Axis::Z, fills),
        mass,
        detail: false,
    }
}

#[test]
fn sheet_weighs_what_is_published() {
    let all = catalogue::sample();
    for row in published(include_str!("../published/materials.toml"), "sheet") {
        let skin = &all.skins[&PartId::from(row["skin"].as_str().expect("a part"))];
        // One metre wide, as long as the area asks.
        let size = Vec3::new(1000.0, number(&row, "area_m2") * 1000.0, number(&row, "thickness_mm"));
        let sheet = filling(&Box3::between(Vec3::default(), size), Mass::Density(skin.density));
        let expected = number(&row, "mass_kg");
        check(&row, sheet.mass_kg().unwrap_or(f64::NAN), expected, number(&row, "within") * expected);
    }
}

#[derive(Deserialize)]
struct Boxes {
    id: u32,
    boxes: Vec<Weight>,
    result: Sum,
}

#[derive(Deserialize)]
struct Weight {
    mass: f64,
    size: [f64; 3],
    centre: [f64; 3],
}

#[derive(Deserialize)]
struct Sum {
    total_mass: f64,
    cg: [f64; 3],
}

/// Source: numpy, mass-weighted centre of uniform boxes; metres.
#[test]
fn centres_of_gravity_agree_with_a_library() {
    let cases: Vec<Boxes> =
        serde_json::from_str(include_str!("../reference/centre_of_gravity.json")).expect("the file is JSON");
    assert_eq!(cases.len(), 12);
    let metres = |[x, y, z]: [f64; 3]| Vec3::new(x, y, z) * 1000.0;
    for case in cases {
        // Half the boxes by their stated mass, half by a density that gives it.
        let solids: Vec<_> = case
            .boxes
            .iter()
            .enumerate()
            .map(|(index, one)| {
                let half = metres(one.size) * 0.5;
                let fills = Box3::between(metres(one.centre) - half, metres(one.centre) + half);
                let [x, y, z] = one.size;
                filling(
                    &fills,
                    if index % 2 == 0 { Mass::Total(one.mass) } else { Mass::Density(one.mass / (x * y * z)) },
                )
            })
            .collect();
        let found = MassSum::of(solids.iter());
        let expected = metres(case.result.cg);
        assert!((found.kg - case.result.total_mass).abs() < 1e-9 * found.kg, "set {}: {found:?}", case.id);
        let off = found.centre - expected;
        // Ten significant digits of metres.
        assert!(off.dot(off) < 1e-10, "set {}: {found:?} instead of {expected:?}", case.id);
    }
}

#[test]
fn nothing_meets_in_the_samples() {
    for (name, _, model) in samples() {
        assert_eq!(model.meetings(), [], "{name}");
    }
}

#[test]
fn the_samples_stay_within_the_drawing_budget() {
    for (name, _, model) in samples() {
        let triangles = Mesh::of_all(&model.solids).triangles();
        assert!(triangles <= 30_000 && triangles > 1_000, "{name}: {triangles} triangles");
    }
}

/// Common practice, no source: a double-bay 19 in cabinet comes out near 60 in wide.
#[test]
fn a_double_bay_comes_out_near_sixty_inches_wide() {
    let mut seen = 0;
    for (name, build, model) in samples() {
        if build.bays.len() == 2 {
            let inches = model.layout.body.size().x / 25.4;
            assert!((54.0..=66.0).contains(&inches), "{name}: {inches} in");
            seen += 1;
        }
    }
    assert!(seen > 0, "no sample has two bays");
}

/// Common practice, no source: a shield stands clear of the skin and reaches past the door seal.
#[test]
fn shields_stand_clear_and_reach_past_the_door_seal() {
    let mut seen = 0;
    for (name, build, model) in samples() {
        let Some(shield) = model.bounds(|solid| solid.of == Of::Shield) else { continue };
        let Some(leaf) = model.layout.leaf(0, End::Front) else { continue };
        let fitted = build.shield.as_ref().expect("it has a shield");
        assert!((leaf.min.y - shield.min.y - fitted.overhang.0).abs() < 1e-9, "{name}");
        let roof = model.solids.iter().find(|solid| solid.of == Of::Shield).expect("it has a roof").bounds();
        assert!((roof.min.z - model.layout.body.max.z - fitted.gap.0).abs() < 1e-9, "{name}");
        seen += 1;
    }
    assert!(seen > 0, "no sample has a shield");
}
