use catalogue::{Chemistry, DeviceKind, Supply};
use proptest::prelude::*;

use super::*;

/// The entry that a line is read as: its device in full, with the count.
fn own(line: &str) -> (u32, Device) {
    let catalogue = catalogue::sample();
    let entry = read_entry(line, &catalogue).unwrap_or_else(|error| panic!("{line}: {error}"));
    let DeviceWhat::Own(device) = entry.what else { panic!("{line}: {:?}", entry.what) };
    (entry.count, *device)
}

fn part(line: &str) -> (u32, String) {
    let catalogue = catalogue::sample();
    let entry = read_entry(line, &catalogue).unwrap_or_else(|error| panic!("{line}: {error}"));
    let DeviceWhat::Part(part) = entry.what else { panic!("{line}: {:?}", entry.what) };
    (entry.count, part.0)
}

fn help(line: &str) -> String {
    match read_entry(line, &catalogue::sample()) {
        Err(error) => error.help,
        Ok(entry) => panic!("{line}: {entry:?}"),
    }
}

fn said(line: &str) -> (String, Vec<String>) {
    let catalogue = catalogue::sample();
    let entry = read_entry(line, &catalogue).unwrap_or_else(|error| panic!("{line}: {error}"));
    let plain = |words: &Words| words.to_string().replace(char::is_whitespace, " ");
    (plain(&entry.summary(&catalogue)), entry.assumed.iter().map(plain).collect())
}

#[test]
fn the_line_of_the_entry_field_is_read() {
    let (count, device) = own("2x 1U switch 60 W 5 kg");
    assert_eq!((count, device.name.as_str(), device.kind), (2, "switch", DeviceKind::Network));
    assert_eq!((device.units(), device.power.0, device.mass.unwrap().0), (Some(1), 60.0, 5.0));
    assert_eq!(said("2x 1U switch 60 W 5 kg").0, "2 switches, 1 U, 60 W, 5 kg each");
}

#[test]
fn counts_are_read_however_they_are_typed() {
    for line in ["2x1U switch 60W", "2 x 1U switch 60W", "2× 1U switch 60W", "2 1U switch 60 W", "2 switches 1U 60 W"]
    {
        assert_eq!(own(line).0, 2, "{line}");
        assert_eq!(own(line).1.units(), Some(1), "{line}");
    }
    assert_eq!(own("1 U switch 60 W").0, 1);
    assert_eq!(own("48 V rectifier 1U 2 kW").0, 1);
    assert!(help("501x 1U switch 60 W").contains("between 1 and 500"));
    assert!(help("0 switches 60 W").contains("between 1 and 500"));
    assert!(help("99999999999999999999x switch 60 W").contains("between 1 and 500"));
}

#[test]
fn what_the_cells_of_a_battery_are_made_of_is_read_from_its_name() {
    for (name, cells) in [
        ("lithium battery", Some(Chemistry::Lithium)),
        ("VRLA battery", Some(Chemistry::Lead)),
        ("battery nicd", Some(Chemistry::Nickel)),
        ("battery", None),
        // A wrong letter is not forgiven, and what is no battery has no cells.
        ("lithum battery", None),
        ("lead switch 10 W", None),
    ] {
        assert_eq!(own(&format!("{name} 3U")).1.chemistry, cells, "{name}");
    }
}

#[test]
fn parts_are_found_by_number_name_and_words() {
    assert_eq!(part("3 switch-access-48"), (3, "switch-access-48".into()));
    assert_eq!(part("SWITCH-ACCESS-48"), (1, "switch-access-48".into()));
    assert_eq!(part("rectifiers 6 kW"), (1, "rectifier-shelf-6".into()));
    assert_eq!(part("2 x feeding switch 24"), (2, "switch-feeding-24".into()));
    assert_eq!(part("timing clock"), (1, "clock-timing-1".into()));
    assert_eq!(part("timming clock"), (1, "clock-timing-1".into()));
    assert_eq!(part("48 core switch 32").0, 48);
}

#[test]
fn a_part_with_figures_is_changed_by_them() {
    let (count, device) = own("3 switch-access-48 75 W 12 lb");
    let known = catalogue::sample().devices[&"switch-access-48".into()].clone();
    assert_eq!((count, device.power.0), (3, 75.0));
    assert!((device.mass.unwrap().0 - 12.0 * 0.453_592_37).abs() < 1e-12);
    assert_eq!((device.depth, device.name), (known.depth, known.name));
}

#[test]
fn a_rectifier_delivers_its_power_and_does_not_draw_it() {
    let (_, device) = own("rectifier 2U 48V 6kW");
    let converts = device.converts.unwrap();
    assert_eq!((converts.to, converts.rating.0, device.power.0), (Supply::V48Dc, 6000.0, 0.0));
    assert_eq!(device.kind, DeviceKind::Power);
    let (_, assumed) = said("rectifier 2U 48V 6kW");
    assert!(assumed.iter().any(|words| words == "Efficiency taken as 95 %"), "{assumed:?}");
}

#[test]
fn figures_are_read_in_both_systems_and_any_order() {
    let (_, device) = own("server 2u 450W 31kg 1200mm deep to 55 °C");
    assert_eq!((device.depth.0, device.inlet_max.unwrap().0, device.kind), (1200.0, 55.0, DeviceKind::Compute));
    let (_, device) = own("1U base-band 32 1/2 in deep, 25 lb, 300 W, 48 V DC, -5 to 131 °F, 60 cfm");
    assert_eq!((device.depth.0, device.supply), (825.5, Supply::V48Dc));
    assert!((device.inlet_max.unwrap().0 - 55.0).abs() < 1e-9);
    assert!((device.inlet_min.unwrap().0 - -20.555_555).abs() < 1e-3);
    assert!((device.airflow.0 - 101.94).abs() < 0.01, "60 cfm are 101.94 m³/h");
    let (_, device) = own("depth 400 mm fibre panel 48 ports 1U 19 in");
    assert_eq!((device.fibre_ports, device.depth.0, device.rack), (48, 400.0, 19));
    let (_, device) = own("230 V AC router 1U 100 W max 140 W");
    assert_eq!((device.supply, device.power.0, device.power_max.unwrap().0), (Supply::V230Ac, 100.0, 140.0));
}

#[test]
fn a_part_for_the_wall_needs_its_size() {
    let (_, device) = own("meter box on wall 300 mm wide 400 mm high 120 mm deep 0 W");
    assert_eq!((device.mount, device.height.0, device.name.as_str()), (Mount::Wall, 400.0, "meter box"));
    assert!(help("meter box wall 4 kg 0 W").contains("how large"));
}

#[test]
fn what_is_missing_or_unclear_is_asked_for() {
    assert_eq!(help("3 switch 350"), "350 of what: W, mm deep or kg?");
    assert_eq!(help("3 switch 1U 350"), "350 of what: W, mm deep or kg?");
    assert_eq!(help("2U server 600 mm 100 W"), "600 mm of what: deep, wide or high?");
    assert!(help("2x 1U switch").contains("how much power"));
    assert!(help("switch").starts_with("Which switch: "));
    assert!(help("1U 60 W 5 kg").starts_with("Of what?"));
    assert!(help("").contains("2x 1U switch 60 W 5 kg"));
    assert!(help("flux capacitor").contains("not in the catalogue"));
    assert!(help("switch 1U 60 W 80 W").contains("Write max"));
    assert!(help("switch 1U 60 W 440x300mm").contains("which is which"));
    assert!(help("switch 1U 60 W 380 V").contains("48 V DC"));
    assert!(help("switch 60U 60 W").contains("between 1 and 48"));
    assert!(help("server 1U 60 W 5 m deep").contains("Depth"));
    assert!(help(&"switch ".repeat(60)).contains("300 characters"));
}

#[test]
fn what_was_assumed_is_told() {
    let (_, assumed) = said("switch 60 W");
    assert_eq!(assumed, ["Height taken as 1 U", "Depth taken as 300 mm", "Supply taken as −48 V DC"]);
    assert_eq!(said("2 swtich 1U 60 W").0, "2 × swtich, 1 U, 60 W each".replace("× swtich", "swtiches"));
    assert!(said("flux capacitor 1U 60 W").1.contains(&"Taken as network equipment".to_owned()));
}

#[test]
fn a_name_with_markup_stays_text() {
    assert_eq!(own("<b>switch</b> 1U 60 W").1.name, "<b>switch</b>");
}

/// The rows of a table as summaries, and its problems.
fn table(text: &str) -> (Vec<String>, Vec<String>) {
    let catalogue = catalogue::sample();
    let (entries, problems) = read_table(text, &catalogue);
    let plain = |entry: &Entry| entry.summary(&catalogue).to_string().replace(char::is_whitespace, " ");
    (entries.iter().map(plain).collect(), problems.iter().map(ToString::to_string).collect())
}

#[test]
fn a_table_is_read_whatever_parts_its_columns() {
    let rows = [["Device", "Qty", "U", "Power (W)", "Weight [kg]"], ["switch", "2", "1", "60", "5.5"]];
    for mark in ["\t", ",", ";"] {
        let text = rows.map(|row| row.join(mark)).join("\r\n");
        assert_eq!(table(&text), (vec!["2 switches, 1 U, 60 W, 5.5 kg each".to_owned()], vec![]), "{mark:?}");
    }
}

#[test]
fn a_table_takes_units_from_its_headings_and_its_cells() {
    let (entries, problems) = read_table(
        "name;U;kW;Mass lb;Depth (in);max temp °F\nserver;2;0,45;70;30;104\nserver;2U;450 W;31 kg;762 mm;40 °C\n",
        &catalogue::sample(),
    );
    assert_eq!(problems, []);
    for entry in &entries {
        let DeviceWhat::Own(device) = &entry.what else { panic!("{entry:?}") };
        assert_eq!((device.power.0, device.depth.0), (450.0, 762.0));
        assert!((device.inlet_max.unwrap().0 - 40.0).abs() < 1e-9);
        assert!((device.mass.unwrap().0 - 31.4).abs() < 0.5);
    }
    assert_eq!(entries.len(), 2);
}

#[test]
fn bad_rows_are_told_with_their_line_and_good_ones_are_kept() {
    let (rows, problems) = table("name,U,W\nswitch,1,60\n\nswitch,one,60\n,1,60\nswitch-access-48,,\nserver,1,much\n");
    assert_eq!(rows.len(), 2, "{rows:?}");
    assert_eq!(problems.len(), 3, "{problems:?}");
    assert_eq!(problems[0], "line 4, U: found “one”; a whole number from 1");
    assert_eq!(problems[1], "line 5: found a row without a name; name every device");
    assert!(problems[2].starts_with("line 7, W: found “much”; "), "{}", problems[2]);
}

#[test]
fn a_table_without_headings_or_far_too_long_is_refused() {
    assert!(table("switch,1,60\n").1[0].contains("a line of headings"));
    assert!(table("").1[0].contains("a line of headings"));
    assert!(table(&"x".repeat(2_000_000)).1[0].contains("at most 1000000 bytes"));
    let (rows, problems) = table("name,count,W\nswitch,499,60\nswitch,2,60\nswitch,4000,60\n");
    assert_eq!((rows.len(), problems.len()), (1, 2), "{problems:?}");
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(192) })]

    #[test]
    fn no_line_and_no_table_panics(line in any::<String>(), words in typed()) {
        let catalogue = catalogue::sample();
        for text in [&line, &words] {
            if let Ok(entry) = read_entry(text, &catalogue) {
                let _ = entry.summary(&catalogue);
                let (mut project, catalogue) = crate::testing::start();
                let edit = crate::Edit::AddDevice { what: entry.what, at: crate::Place::Unplaced };
                prop_assert_eq!(crate::apply(&mut project, &edit, &catalogue), Ok(()));
            }
            let _ = read_table(text, &catalogue);
            let _ = read_table(&format!("name,U,W,depth\n{text}"), &catalogue);
        }
    }
}

/// Lines made of what people type, in any order.
fn typed() -> impl Strategy<Value = String> {
    let word = prop_oneof![
        Just("2x"),
        Just("1U"),
        Just("switch"),
        Just("server"),
        Just("60 W"),
        Just("5kg"),
        Just("48V"),
        Just("mm"),
        Just("deep"),
        Just("1/2"),
        Just("32"),
        Just("\""),
        Just("to"),
        Just("−5"),
        Just("55°C"),
        Just("x"),
        Just("×3"),
        Just("wall"),
        Just("on shelf"),
        Just("rectifier"),
        Just("1e9kW"),
        Just("NaN W"),
        Just("."),
        Just("4,5,6"),
        Just("\t"),
        Just("\n"),
        Just(";"),
        Just("19in"),
        Just("ü"),
        Just("inf kg"),
        Just("max"),
        Just("12x14mm"),
    ];
    proptest::collection::vec(word, 0..9).prop_map(|words| words.join(" "))
}
