use proptest::prelude::*;

use super::*;
use crate::ClimateUnit;
use crate::sample::FILES;

/// The smallest catalogue that loads.
const SMALLEST: &str = r##"
[about]
name = "Small"
note = "Invented."
currency = "EUR"
sample_prices = true

[family.cabinet-one]
name = "One"
bays = 1
heights = [12, 20]
height_range = { from = 10, to = 48 }
depth = { from = 600, to = 1000 }
bay_width = { from = 600, to = 800 }
rail_setback = { from = 40, to = 200 }
rail_step = 10
clear_above = 75
clear_below = 75
door_frame = 35
divider_thickness = 2
fittings_per_unit = 0.8
rail_load = 500

[skin.skin-steel-2]
name = "Steel"
material = "steel"
thickness = 2
density = 7850
conductivity = 50

[paint.paint-white]
name = "White"
absorptance = 0.3
emissivity = 0.9
colour = "#ffffff"

[door.door-plain]
name = "Door"
latch_points = 3
leaf_depth = 40
inner_depth = 20
stop_angle = 110
fittings = 4
carries = 50
"##;

const SWITCH: &str = r#"
[device.switch-access-48]
name = "Switch 48"
kind = "network"
mount = { rack = 1 }
width = 440
depth = 350
mass = 5.9
power = 85
supply = "48vdc"
"#;

const FAN: &str = r#"
[unit.fan-door-100]
name = "Fan"
sort = "filter-fan"
supply = "48vdc"
places = ["door"]
size = { width = 255, depth = 120, height = 255 }
inner_depth = 85
cut_out_width = 224
cut_out_height = 224
mass = 2.4
rated = [{ inside = 40, outside = 30, capacity = 340 }]
airflow = 100
set_point = 30
keeps = "3R"
map = { inside = [30, 50], outside = [20, 30], capacity = [[340, 0], [1020, 680]], input = [[16, 16], [16, 16]] }
"#;

fn problems(devices: &str) -> Vec<Problem> {
    load(&[("base.toml", SMALLEST), ("devices.toml", devices)]).err().unwrap_or_default()
}

/// One change to a sound part gives exactly one problem, of this place, found and allowed.
fn check(sound: &str, from: &str, to: &str, place: &str, found: &str, allowed: &str) {
    assert!(sound.contains(from), "the sound part has no {from:?}");
    assert_eq!(problems(sound), [], "the sound part");
    let told = problems(&sound.replacen(from, to, 1));
    let expected = Problem::new(format!("devices.toml, {place}"), found, allowed);
    assert_eq!(told, [expected], "{from:?} became {to:?}");
}

fn check_switch(from: &str, to: &str, field: &str, found: &str, allowed: &str) {
    check(SWITCH, from, to, &format!("device.switch-access-48.{field}"), found, allowed);
}

fn check_fan(from: &str, to: &str, field: &str, found: &str, allowed: &str) {
    check(FAN, from, to, &format!("unit.fan-door-100.{field}"), found, allowed);
}

/// The one unit of a catalogue with [`FAN`] after one change.
fn fan(from: &str, to: &str) -> ClimateUnit {
    assert!(FAN.contains(from), "the sound part has no {from:?}");
    let all = load(&[("base.toml", SMALLEST), ("devices.toml", &FAN.replacen(from, to, 1))]).unwrap();
    all.units.values().next().unwrap().clone()
}

#[test]
fn what_a_unit_does_not_say_of_its_running_follows_from_its_sort() {
    for (sort, seconds, heats) in
        [("filter-fan", 0.0, true), ("exchanger", 0.0, true), ("air-conditioner", 180.0, false), ("heater", 0.0, false)]
    {
        let unit = fan("filter-fan", sort);
        assert_eq!((unit.seconds_off(), unit.input_heats_inside()), (seconds, heats), "{sort}");
        assert_eq!((unit.hysteresis.0, unit.soiled_share), (5.0, 1.0), "{sort}");
    }
}

#[test]
fn what_a_unit_says_of_its_running_counts() {
    let said = "set_point = 30\nhysteresis = 3\nleast_off = 60\ninput_inside = false\nsoiled_share = 0.7";
    let unit = fan("set_point = 30", said);
    assert_eq!((unit.hysteresis.0, unit.seconds_off(), unit.input_heats_inside()), (3.0, 60.0, false));
    assert_eq!(unit.soiled_share, 0.7);
}

#[test]
fn refuses_what_makes_no_sense_of_a_unit_running() {
    let set = "set_point = 30";
    check_fan(set, "set_point = 30\nhysteresis = 0", "hysteresis", "0", "0.1 to 30 K");
    check_fan(set, "set_point = 30\nhysteresis = 31", "hysteresis", "31", "0.1 to 30 K");
    check_fan(set, "set_point = 30\nleast_off = 3601", "least_off", "3601", "0 to 3600 s");
    check_fan(set, "set_point = 30\nsoiled_share = 1.5", "soiled_share", "1.5", "0.1 to 1");
    check_fan(set, "set_point = 30\nsoiled_share = 0.05", "soiled_share", "0.05", "0.1 to 1");
    let exchanger = FAN.replacen("filter-fan", "exchanger", 1);
    let place = "unit.fan-door-100.soiled_share";
    check(&exchanger, set, "set_point = 30\nsoiled_share = 0.7", place, "0.7", "1 for what is no filter fan");
    let heater = FAN.replacen("filter-fan", "heater", 1);
    let (place, allowed) = ("unit.fan-door-100.input_inside", "false for a heater: its map says what it gives inside");
    check(&heater, set, "set_point = 30\ninput_inside = true", place, "true", allowed);
}

#[test]
fn refuses_numbers_out_of_range_with_place_value_and_allowed() {
    check_switch("5.9", "-5.9", "mass", "-5.9", "0 to 2000 kg");
    check_switch("5.9", "2000.001", "mass", "2000.001", "0 to 2000 kg");
    check_switch("5.9", "nan", "mass", "NaN", "0 to 2000 kg");
    check_switch("5.9", "inf", "mass", "inf", "0 to 2000 kg");
    check_switch("5.9", "99999999999999999999", "mass", "NaN", "0 to 2000 kg");
    check_switch("rack = 1", "rack = 0", "mount.rack", "0", "1 to 48 U");
    check_switch("width = 440", "width = 17.3e9", "width", "17300000000", "1 to 1200 mm");
    check_fan("340, 0", "340, -1", "map.capacity[0][1]", "-1", "0 to 100000 W");
}

#[test]
fn takes_the_ends_of_a_range() {
    for mass in ["0", "2000", "2000.0"] {
        assert_eq!(problems(&SWITCH.replace("5.9", mass)), [], "mass {mass}");
    }
}

#[test]
fn refuses_wrong_types_unknown_keys_and_missing_fields() {
    check_switch("5.9", "\"heavy\"", "mass", "string \"heavy\"", "a number");
    check_switch("\"Switch 48\"", "48", "name", "integer `48`", "text in quotes");
    check_switch("rack = 1", "rack = 1.5", "mount.rack", "floating point `1.5`", "a whole number, not negative");
    check_switch("depth = 350", "", "depth", "nothing", "needed");
    check_switch(
        "\"network\"",
        "\"netwrok\"",
        "kind",
        "`netwrok`",
        "one of `network`, `fibre`, `compute`, `power`, `battery`, `cable`",
    );
    check_fan("width = 255, ", "", "size.width", "nothing", "needed");
    let told = problems(&SWITCH.replace("power = 85", "powr = 85"));
    assert_eq!(told.len(), 1);
    assert_eq!(told[0].place, "devices.toml, device.switch-access-48.powr");
    assert!(told[0].found == "`powr`" && told[0].allowed.contains("`power`"), "{}", told[0]);
}

#[test]
fn refuses_text_that_cannot_be_shown() {
    let allowed = "1 to 60 characters that can be shown, no space at the ends";
    check_switch("\"Switch 48\"", "\"\"", "name", "\"\"", allowed);
    check_switch("\"Switch 48\"", "\"a\\u0007\"", "name", "\"a\\u{7}\"", allowed);
    check_switch("\"Switch 48\"", "\" a\"", "name", "\" a\"", allowed);
    let long = "x".repeat(61);
    check_switch("Switch 48", &long, "name", &format!("\"{}…\"", "x".repeat(60)), allowed);
}

#[test]
fn refuses_fields_that_do_not_agree() {
    check_switch("power = 85", "power = 85\npower_max = 80", "power_max", "80", "at least power, 85");
    check_switch("{ rack = 1 }", "\"wall\"", "height", "0", "more than 0 mm, unless rack-mounted");
    check_switch("power = 85", "rack = 21", "rack", "21", "19 or 23");
    check_switch("power = 85", "inlet_min = 5\ninlet_max = 5", "inlet_max", "5", "more than inlet_min, 5");
    check_switch(
        "power = 85",
        "trade = { origin = \"Usa\" }",
        "trade.origin",
        "\"Usa\"",
        "2 capital letters, a country code of ISO 3166",
    );
    check_fan("inner_depth = 85", "inner_depth = 121", "inner_depth", "121", "at most size.depth, 120");
    check_fan("[\"door\"]", "[]", "places", "none", "at least one");
    check_fan(
        "cut_out_height = 224",
        "cut_out_height = 0",
        "cut_out_height",
        "0 and cut_out_width 224",
        "both 0 or both more",
    );
}

#[test]
fn refuses_maps_that_do_not_hang_together() {
    check_fan(
        ", input = [[16, 16], [16, 16]]",
        ", input = [[16, 16]]",
        "map.input",
        "1 rows",
        "2, one for each of map.inside",
    );
    check_fan(
        "[[16, 16], [16, 16]]",
        "[[16, 16], [16]]",
        "map.input[1]",
        "1 columns",
        "2, one for each of map.outside",
    );
    check_fan(
        "capacity = 340",
        "capacity = 347",
        "rated[0].capacity",
        "347",
        "within 2 % of the map, which says 340.0",
    );
    check_fan(
        "outside = 30, capacity",
        "outside = 31, capacity",
        "rated[0].capacity",
        "inside 40, outside 31",
        "a point on the map",
    );
    let falling = problems(&FAN.replace("[30, 50]", "[50, 30]").replace("rated", "# rated"));
    let expected = Problem::new("devices.toml, unit.fan-door-100.map.inside", "50 before 30", "rising temperatures");
    assert_eq!(falling, [expected]);
}

#[test]
fn takes_rated_points_within_two_per_cent_of_the_map() {
    assert_eq!(problems(&FAN.replace("capacity = 340", "capacity = 346")), []);
}

#[test]
fn refuses_part_numbers_that_break_the_scheme() {
    let allowed = "lower-case words and figures joined by hyphens, at most 40 characters in all";
    let long = format!("switch-{}", "a".repeat(34));
    for id in ["Switch-48", "switch--48", "-switch", "switch-", "switch_48", long.as_str()] {
        let found = format!("\"{id}\"");
        check(SWITCH, "switch-access-48", id, &format!("device.{id}"), &found, allowed);
    }
}

#[test]
fn refuses_a_part_that_stands_in_two_files() {
    let told = load(&[("base.toml", SMALLEST), ("a.toml", SWITCH), ("b.toml", SWITCH)]).unwrap_err();
    let expected = Problem::new("b.toml, device.switch-access-48", "a second time, after a.toml", "each part once");
    assert_eq!(told, [expected]);
}

#[test]
fn refuses_a_part_that_stands_twice_in_one_file() {
    let told = problems(&format!("{SWITCH}{SWITCH}"));
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].place.starts_with("devices.toml, line 12"), "{}", told[0]);
    assert_eq!((told[0].found.as_str(), told[0].allowed.as_str()), ("\"switch-access-48\"", "duplicate key"));
}

#[test]
fn tells_all_problems_of_several_parts_and_files_at_once() {
    let bad =
        SWITCH.replace("5.9", "-1").replace("depth = 350", "").replace("width = 440", "width = true\nnonsense = 1");
    let other = FAN.replace("mass = 2.4", "mass = 9999").replace("\"3R\"", "3");
    let told = load(&[("a.toml", &bad), ("b.toml", &other)]).unwrap_err();
    let places: Vec<&str> = told.iter().map(|problem| problem.place.as_str()).collect();
    for place in [
        "a.toml, device.switch-access-48.mass",
        "a.toml, device.switch-access-48.depth",
        "a.toml, device.switch-access-48.width",
        "a.toml, device.switch-access-48.nonsense",
        "b.toml, unit.fan-door-100.mass",
        "b.toml, unit.fan-door-100.keeps",
        "catalogue, about",
        "catalogue, family",
        "catalogue, skin",
        "catalogue, paint",
        "catalogue, door",
    ] {
        assert!(places.contains(&place), "{place} is not among {places:?}");
    }
    assert_eq!(told.len(), 11, "{places:?}");
}

#[test]
fn tells_every_field_of_an_empty_part() {
    let told = problems("[unit.fan-door-100]");
    let missing: Vec<&str> = told.iter().map(|problem| problem.place.rsplit('.').next().unwrap_or_default()).collect();
    for field in
        ["name", "sort", "supply", "places", "size", "inner_depth", "mass", "map", "airflow", "set_point", "keeps"]
    {
        assert!(missing.contains(&field), "{field} is not among {missing:?}");
    }
}

#[test]
fn a_mistake_of_writing_does_not_hide_other_parts() {
    let told = problems(&format!("{}{}", SWITCH.replace("power = 85", "power = = 85"), FAN.replace("2.4", "-2.4")));
    assert_eq!(told.len(), 2, "{told:?}");
    assert_eq!(told[0].place, "devices.toml, line 9, in or after switch-access-48");
    assert_eq!(told[1].place, "devices.toml, unit.fan-door-100.mass");
}

#[test]
fn refuses_unknown_tables_and_tables_that_are_none() {
    let told = problems("[devise.switch]\nname = 1");
    assert_eq!((told[0].place.as_str(), told[0].found.as_str()), ("devices.toml, line 1", "\"devise\""));
    assert!(told[0].allowed.contains("lifting-eye"), "{}", told[0]);
    let told = problems("skin = 4\npaint = []\ndoor.x = 3\n[[device]]\nname = 1");
    let places: Vec<String> = told.iter().map(|problem| problem.place.clone()).collect();
    for place in ["devices.toml, skin", "devices.toml, paint", "devices.toml, device", "devices.toml, door.x"] {
        assert!(places.iter().any(|told| told == place), "{place} is not among {places:?}");
    }
}

#[test]
fn refuses_files_over_two_million_bytes() {
    let large = format!("# {}", "x".repeat(2_000_000));
    let expected = Problem::new("devices.toml", "2000002 bytes", "at most 2000000 bytes");
    assert_eq!(problems(&large), [expected]);
    assert_eq!(problems(&large[..2_000_000]), []);
}

#[test]
fn a_file_of_nothing_but_mistakes_is_told_in_two_hundred_problems_and_a_count() {
    for line in ["= 1\n", "[[[[\n", "a\n", "[x]\n", "\u{0}\n", "]"] {
        let told = problems(&line.repeat(100_000));
        assert!((1..=201).contains(&told.len()), "{line:?}: {}", told.len());
    }
    let parts: String = (0..5_000).map(|number| format!("[device.d-{number}]\nx{number} = 1\n")).collect();
    assert_eq!(problems(&parts).len(), 201);
    let keys: String = (0..50_000).map(|number| format!("x{number} = 1\n")).collect();
    assert!(problems(&format!("{SWITCH}{keys}")).len() > 20);
}

#[test]
fn nesting_without_end_is_refused() {
    for deep in ["[".repeat(100_000), "{a=".repeat(100_000), "a.".repeat(100_000)] {
        assert!(!problems(&format!("[device.d]\nx = {deep}")).is_empty());
        assert!(!problems(&format!("[device.{deep}]")).is_empty());
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn never_panics_on_any_text(text in "\\PC{0,200}|[\\[\\]{}=\"'a-z0-9._\\-\n#,]{0,200}") {
        let told = problems(&text);
        prop_assert!(told.iter().all(|problem| !problem.allowed.is_empty() && !problem.place.is_empty()));
    }

    #[test]
    fn never_panics_on_a_shipped_file_with_a_piece_replaced(
        file in 0..FILES.len(), at in 0.0..1.0_f64, length in 0..40_usize, piece in "\\PC{0,8}|[\\[\\]{}=\"a-z0-9.\\-\n]{0,12}",
    ) {
        let (name, text) = FILES[file];
        let chars: Vec<char> = text.chars().collect();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of the length")]
        let start = (at * chars.len() as f64) as usize;
        let end = (start + length).min(chars.len());
        let mutated: String = chars[..start].iter().copied().chain(piece.chars()).chain(chars[end..].iter().copied()).collect();
        let files: Vec<(&str, &str)> =
            FILES.iter().map(|(other, text)| (*other, if *other == name { mutated.as_str() } else { *text })).collect();
        // It may still be sound (a changed comment); what counts is that whatever loads is loaded whole.
        match load(&files) {
            Ok(catalogue) => prop_assert!(!catalogue.families.is_empty()),
            Err(told) => prop_assert!(!told.is_empty()),
        }
    }

    #[test]
    fn refuses_every_number_outside_a_range(over in 2000.0..1e300_f64, under in -1e300..0.0_f64) {
        for mass in [over.next_up(), under.next_down()] {
            prop_assert_eq!(problems(&SWITCH.replace("5.9", &format!("{mass:e}"))).len(), 1);
        }
    }
}
