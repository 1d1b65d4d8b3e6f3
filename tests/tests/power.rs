//! Power against published values (`published/electrical.toml`) and against computed ones (`reference/wire_resistance_*.csv`,
//! `reference/supply_current.csv`, `reference/voltage_drop.csv`).

use std::collections::BTreeMap;

use project::{CodeEdition, Conductor};
use rules::Standing;
use rules::power::code::{Code, Column, ConduitSort, Entry, Opposite, Size, configuration};
use rules::power::formulas::Wires;
use rules::power::formulas::continuous::{may_last, sized_for};
use rules::power::formulas::current::{apparent_power, carried, current};
use rules::power::formulas::drop::{loss, voltage_drop};
use rules::power::formulas::resistance::{copper_wire, from_75};
use tests::published::{number, rows};
use toml::Table;

const SQUARE_INCH: f64 = 25.4 * 25.4;
const FEET_PER_METRE: f64 = 1.0 / 0.3048;

fn published(kind: &str) -> Vec<Table> {
    rows(include_str!("../published/electrical.toml"), kind)
}

fn numbers(row: &Table, field: &str) -> Vec<f64> {
    row[field].as_array().into_iter().flatten().filter_map(toml::Value::as_float).collect()
}

fn whole(row: &Table, field: &str) -> u32 {
    row[field].as_integer().and_then(|whole| whole.try_into().ok()).unwrap_or_else(|| panic!("{field} of {row:?}"))
}

fn word<'a>(row: &'a Table, field: &str) -> &'a str {
    row[field].as_str().unwrap_or_else(|| panic!("{field} of {row:?}"))
}

fn size(row: &Table, field: &str) -> Size {
    Size::named(word(row, field)).unwrap_or_else(|| panic!("{field} of {row:?}"))
}

fn sort(row: &Table) -> ConduitSort {
    match word(row, "sort") {
        "metallic-tubing" => ConduitSort::MetallicTubing,
        "rigid-metal" => ConduitSort::RigidMetal,
        "rigid-plastic" => ConduitSort::RigidPlastic,
        other => panic!("{other}"),
    }
}

/// Every edition says the same of the published rows.
fn codes() -> [&'static Code; 3] {
    [CodeEdition::E2017, CodeEdition::E2020, CodeEdition::E2023].map(Code::of)
}

/// A failure names the row and its source.
#[track_caller]
fn check(row: &Table, found: f64, expected: f64, within: f64) {
    let (id, source) = (&row["id"], &row["source"]);
    assert!((found - expected).abs() <= within, "{id}: {found} instead of {expected} ± {within} ({source})");
}

/// The figure of a table, which is told to have been read when the published row was.
#[track_caller]
fn entry<T>(row: &Table, entry: Option<Entry<T>>) -> T {
    let Some(entry) = entry else { panic!("{}: the table has no such row", row["id"]) };
    let read = word(row, "status").starts_with("verified");
    assert_eq!(entry.source.standing == Standing::Read, read, "{}: {:?}", row["id"], entry.source);
    entry.value
}

#[test]
fn conductors_carry_what_is_published() {
    for (row, code) in published("ampacity").iter().flat_map(|row| codes().map(|code| (row, code))) {
        for (column, expected) in Column::ALL.into_iter().zip(numbers(row, "amperes")) {
            check(row, entry(row, code.ampacity(size(row, "size"), Conductor::Copper, column)), expected, 0.0);
        }
    }
}

#[test]
fn what_is_near_takes_away_the_published_share_between_the_edges_of_its_row() {
    const HAIR: f64 = 1e-6;
    for (row, code) in published("ambient").iter().flat_map(|row| codes().map(|code| (row, code))) {
        let (above, up_to) = (number(row, "above"), number(row, "up_to"));
        for (column, expected) in Column::ALL.into_iter().zip(numbers(row, "factors")) {
            for celsius in [above + HAIR, up_to] {
                check(row, entry(row, code.ambient_factor(column, celsius)), expected, 0.0);
            }
            let outside = [above, up_to + HAIR].map(|celsius| code.ambient_factor(column, celsius).map(|at| at.value));
            assert!(outside[0] > Some(expected) && outside[1] < Some(expected), "{outside:?} {expected}");
        }
    }
    for (row, code) in published("bundling").iter().flat_map(|row| codes().map(|code| (row, code))) {
        let (from, up_to, expected) = (whole(row, "from"), whole(row, "up_to"), number(row, "factor"));
        for count in [from, up_to] {
            check(row, entry(row, code.bundling_factor(count)), expected, 0.0);
        }
        let outside = [from - 1, up_to + 1].map(|count| code.bundling_factor(count).map(|at| at.value));
        assert!(outside[0] > Some(expected) && outside[1] < Some(expected), "{outside:?} {expected}");
    }
}

/// Ω/km of a row's conductor at 75 °C.
fn ohms(row: &Table, code: &'static Code) -> Option<Entry<f64>> {
    let size = size(row, "size");
    if row["solid"].as_bool() == Some(true) {
        code.solid_resistance(size)
    } else {
        code.resistance(size, Conductor::Copper)
    }
}

#[test]
fn conductors_resist_what_is_published() {
    for (row, code) in published("resistance").iter().flat_map(|row| codes().map(|code| (row, code))) {
        check(row, entry(row, ohms(row, code)) / FEET_PER_METRE, number(row, "ohms_per_kft"), 1e-12);
    }
    for (row, code) in published("cooler").iter().flat_map(|row| codes().map(|code| (row, code))) {
        let at_75 = code.resistance(size(row, "size"), Conductor::Copper).expect("a row").value / FEET_PER_METRE;
        let expected = number(row, "ohms_per_kft");
        let found = from_75(at_75, Conductor::Copper, number(row, "celsius"));
        check(row, found, expected, number(row, "within") * expected);
    }
}

#[test]
fn voltage_is_lost_as_published() {
    for (row, code) in published("drop").iter().flat_map(|row| codes().map(|code| (row, code))) {
        let kilometres = number(row, "feet") / FEET_PER_METRE / 1000.0;
        let ohms = ohms(row, code).expect("a row").value * kilometres;
        let (found, expected) = (voltage_drop(number(row, "amperes"), ohms, 1.0, Wires::Two), number(row, "drop"));
        check(row, found, expected, number(row, "within") * expected);
        if row.contains_key("share") {
            let expected = number(row, "share");
            check(row, found / number(row, "volts"), expected, number(row, "within") * expected);
        }
    }
}

#[test]
fn loads_that_last_count_as_published() {
    for (row, code) in published("continuous").iter().flat_map(|row| codes().map(|code| (row, code))) {
        let factor = code.continuous_factor().expect("a factor").value;
        let found = sized_for(number(row, "lasts"), number(row, "other"), factor);
        check(row, found, number(row, "minimum"), 0.0);
        check(row, code.standard_rating(found).expect("a rating").value, number(row, "device"), 0.0);
    }
    for (row, code) in published("inlet").iter().flat_map(|row| codes().map(|code| (row, code))) {
        let most = carried(number(row, "amperes"), number(row, "volts"), Wires::Two);
        check(row, most, number(row, "most"), 0.0);
        let factor = code.continuous_factor().expect("a factor").value;
        check(row, may_last(most, factor), number(row, "lasting"), 0.0);
    }
    for row in published("three_phase") {
        let apparent = carried(number(&row, "amperes"), number(&row, "volts"), Wires::Three);
        check(&row, apparent * number(&row, "power_factor"), number(&row, "watts"), number(&row, "within"));
    }
}

#[test]
fn grounding_conductors_are_as_published() {
    for (row, code) in published("equipment_ground").iter().flat_map(|row| codes().map(|code| (row, code))) {
        let (amperes, expected) = (number(row, "amperes"), size(row, "size"));
        assert_eq!(entry(row, code.equipment_ground(amperes, Conductor::Copper)), expected, "{}", row["id"]);
    }
    // The edges of the rows of T08-23: just above one the next row holds.
    for (amperes, expected) in [(15.1, "12 AWG"), (20.1, "10 AWG"), (60.1, "8 AWG"), (100.1, "6 AWG"), (200.1, "4 AWG")]
    {
        let found = Code::of(CodeEdition::E2023).equipment_ground(amperes, Conductor::Copper);
        assert_eq!(found.map(|entry| entry.value.name()), Some(expected), "{amperes} A");
    }
    for (row, code) in published("electrode").iter().flat_map(|row| codes().map(|code| (row, code))) {
        let found = entry(row, code.electrode_conductor(size(row, "service"), Conductor::Copper));
        assert_eq!(found, size(row, "size"), "{}", row["id"]);
    }
    for (row, code) in published("rods_only").iter().flat_map(|row| codes().map(|code| (row, code))) {
        assert_eq!(entry(row, code.rods_only()), size(row, "size"), "{}", row["id"]);
    }
}

#[test]
fn working_space_is_as_published_up_to_the_edge_of_its_row() {
    for (row, code) in published("working_depth").iter().flat_map(|row| codes().map(|code| (row, code))) {
        let conditions = [Opposite::Insulated, Opposite::Grounded, Opposite::Live];
        for (opposite, feet) in conditions.into_iter().zip(numbers(row, "feet")) {
            for volts in [1.0, number(row, "up_to")] {
                check(row, entry(row, code.working_depth(volts, opposite)) / 304.8, feet, 1e-12);
            }
        }
        let above = code.working_depth(number(row, "up_to") + 0.1, Opposite::Live).map(|entry| entry.value / 304.8);
        assert!(above > Some(3.0), "{above:?}");
    }
}

#[test]
fn conduits_hold_what_is_published() {
    for (row, code) in published("conduit").iter().flat_map(|row| codes().map(|code| (row, code))) {
        let found = entry(row, code.conduit(sort(row), word(row, "trade"))).area / SQUARE_INCH;
        check(row, found, number(row, "square_inches"), 1e-12);
    }
    for (row, code) in published("filled").iter().flat_map(|row| codes().map(|code| (row, code))) {
        let area = |field| code.insulated_area(size(row, field)).expect("a row").value;
        let count = whole(row, "count");
        let filled = f64::from(count) * area("phases") + area("ground");
        check(row, filled / SQUARE_INCH, number(row, "square_inches"), 1e-12);
        let conduit = code.conduit_for(sort(row), filled, count + 1).expect("a conduit").value;
        assert_eq!(conduit.trade, word(row, "trade"), "{}", row["id"]);
        let share = code.fill_share(count + 1).expect("a share").value;
        check(row, conduit.area * share / SQUARE_INCH, number(row, "allowed"), 1e-12);
    }
}

#[test]
fn outlets_and_inlets_are_as_published() {
    for (row, code) in published("guarded").iter().flat_map(|row| codes().map(|code| (row, code))) {
        let found = code.outdoor_outlet_guarded(number(row, "volts_to_ground"), number(row, "amperes"));
        assert!(entry(row, found), "{}", row["id"]);
    }
    for row in published("configuration") {
        let found = entry(&row, configuration(word(&row, "name")));
        assert_eq!(found.volts, numbers(&row, "volts"), "{}", row["id"]);
        check(&row, found.amperes, number(&row, "amperes"), 0.0);
        assert_eq!(found.wires, whole(&row, "wires"), "{}", row["id"]);
    }
}

/// The rows of a computed file, by the names of its columns.
fn reference(text: &'static str, rows: usize) -> Vec<BTreeMap<&'static str, &'static str>> {
    let mut lines = text.lines();
    let names: Vec<_> = lines.next().expect("a line of names").split(',').collect();
    let found: Vec<BTreeMap<_, _>> = lines.map(|line| names.iter().copied().zip(line.split(',')).collect()).collect();
    assert_eq!(found.len(), rows);
    found
}

fn value(row: &BTreeMap<&str, &str>, field: &str) -> f64 {
    row[field].parse().unwrap_or_else(|_| panic!("{field} of {row:?}"))
}

/// Nine figures, or the last one printed.
#[track_caller]
fn near(row: &BTreeMap<&str, &str>, found: f64, field: &str) {
    let expected = value(row, field);
    assert!((found - expected).abs() <= 2e-9 * expected, "{found} instead of {expected}: {field} of {row:?}");
}

fn wires(row: &BTreeMap<&str, &str>) -> Wires {
    if row["system"] == "3ph" { Wires::Three } else { Wires::Two }
}

#[test]
fn wires_resist_as_computed() {
    let mut named = 0;
    for row in reference(include_str!("../reference/wire_resistance_awg.csv"), 18) {
        let area = value(&row, "area_mm2");
        // Cabinets are not wired with gauges finer than 18.
        if let Some(size) = Size::named(&format!("{} AWG", row["awg"])) {
            near(&row, size.area(), "area_mm2");
            named += 1;
        }
        for (celsius, field) in [(20.0, "r_20C_ohm_per_km"), (75.0, "r_75C_ohm_per_km"), (90.0, "r_90C_ohm_per_km")] {
            near(&row, copper_wire(area, celsius), field);
        }
    }
    assert_eq!(named, 15);
    for row in reference(include_str!("../reference/wire_resistance_mm2.csv"), 13) {
        for (celsius, field) in [(20.0, "r_20C_ohm_per_km"), (75.0, "r_75C_ohm_per_km"), (90.0, "r_90C_ohm_per_km")] {
            near(&row, copper_wire(value(&row, "area_mm2"), celsius), field);
        }
    }
}

#[test]
fn loads_draw_the_computed_current() {
    for row in reference(include_str!("../reference/supply_current.csv"), 42) {
        let apparent = apparent_power(value(&row, "power_w"), value(&row, "power_factor"), value(&row, "efficiency"));
        let apparent = apparent.expect("shares");
        near(&row, apparent, "apparent_power_va");
        near(&row, current(apparent, value(&row, "voltage_v"), wires(&row)).expect("a voltage"), "current_a");
    }
}

#[test]
fn runs_lose_the_computed_voltage() {
    for row in reference(include_str!("../reference/voltage_drop.csv"), 168) {
        let size = Size::named(&format!("{} AWG", row["awg"])).expect("a size");
        let ohms = copper_wire(size.area(), value(&row, "conductor_c")) * value(&row, "length_m") / 1000.0;
        near(&row, ohms, "r_one_way_ohm");
        let power_factor = value(&row, "power_factor");
        let apparent = apparent_power(value(&row, "power_w"), power_factor, value(&row, "efficiency"));
        let amperes = current(apparent.expect("shares"), value(&row, "voltage_v"), wires(&row)).expect("a voltage");
        near(&row, amperes, "current_a");
        let drop = voltage_drop(amperes, ohms, power_factor, wires(&row));
        near(&row, drop, "drop_v");
        near(&row, 100.0 * drop / value(&row, "voltage_v"), "drop_percent");
        near(&row, loss(amperes, ohms, wires(&row)), "loss_w");
    }
}
