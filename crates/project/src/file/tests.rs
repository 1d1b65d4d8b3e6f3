use proptest::prelude::*;
use serde_json::json;

use super::*;
use crate::testing::{edit, part, seeds, start, with};
use crate::{Edit, Month, MonthlyMeans, Place, first_free_place};

/// The problems of a text as lines.
fn check(text: &str) -> Vec<String> {
    from_json(text).err().unwrap_or_default().iter().map(ToString::to_string).collect()
}

/// A good file with one place changed.
fn changed(pointer: &str, to: Value) -> String {
    let mut value: Value = serde_json::from_str(&to_json(&start().0)).unwrap();
    *value.pointer_mut(pointer).unwrap() = to;
    value.to_string()
}

/// A project with so many devices, each where it is proposed.
fn filled(count: usize) -> Project {
    let (mut project, catalogue) = start();
    project = with(project, &catalogue, &[Edit::SetFamily("cabinet-double".into()), Edit::SetUnits(36)]);
    for id in catalogue.devices.keys().take(count) {
        let at = first_free_place(&project.build, &catalogue.devices[id], &catalogue);
        project = with(project, &catalogue, &[Edit::AddDevice { what: part(id.as_str()), at }]);
    }
    project
}

#[test]
fn a_file_reads_back_to_the_last_bit() {
    let mut project = filled(20);
    project.build.depth.0 = 914.400_000_000_000_1;
    project.brief.elevation.0 = 0.1 + 0.2;
    let text = to_json(&project);
    assert_eq!(from_json(&text).unwrap(), project);
    assert_eq!(to_json(&from_json(&text).unwrap()), text);
    assert!(text.starts_with("{\n  \"format\": \"baywright-project\",\n  \"version\": 2,\n  \"project\": {"));
}

#[test]
fn the_days_of_a_standard_are_said_only_where_they_are_chosen() {
    let mut project = filled(1);
    assert!(!to_json(&project).contains("hot_day") && !to_json(&project).contains("cold_day"));
    (project.brief.hot_day, project.brief.cold_day) = (crate::HotDay::HotDry, crate::ColdDay::SevereCold);
    let text = to_json(&project);
    assert!(text.contains("\"hot_day\": \"hot-dry\"") && text.contains("\"cold_day\": \"severe-cold\""), "{text}");
    assert_eq!(from_json(&text).unwrap(), project);
    assert_eq!(from_link(&to_link(&project)).unwrap(), project);
    let told = check(&text.replace("hot-dry", "warm"));
    assert!(told.len() == 1 && told[0].starts_with("brief.hot_day"), "{told:?}");
}

#[test]
fn a_text_that_is_no_project_file_is_told_so() {
    assert_eq!(check("{}"), ["format: found none; allowed: “baywright-project”"]);
    assert_eq!(check(r#"{"format":"other"}"#), ["format: found “other”; allowed: “baywright-project”"]);
    assert!(check("[1, 2]")[0].starts_with("format: found none"));
    assert!(check("hello")[0].starts_with("line 1, column 1: found expected value"));
    assert!(check("")[0].contains("cut short"));
    assert!(check(&"[".repeat(1000))[0].contains("recursion limit"));
    assert!(
        check(&changed("/project/brief/hottest", json!(0)).replace("\"hottest\":0", "\"hottest\":1e999"))[0]
            .contains("number out of range")
    );
    // The name under which serde_json hands numbers on as text.
    for number in ["\"x\"", "\"1e999\"", "\"\"", "4", "null"] {
        let forged = format!("{{\"$serde_json::private::Number\":{number}}}");
        let told = check(
            &changed("/project/brief/hottest", json!(0)).replace("\"hottest\":0", &format!("\"hottest\":{forged}")),
        );
        assert_eq!(told.len(), 1, "{forged}: {told:?}");
    }
}

#[test]
fn a_newer_version_says_that_it_is_newer() {
    let told = check(&changed("/version", json!(7)));
    assert_eq!(
        told,
        ["version: found version 7 was written by a newer Baywright; this one reads up to 2; allowed: 1 to 2"]
    );
    assert_eq!(check(&changed("/version", json!("1"))), ["version: found \"1\"; allowed: 1 to 2"]);
    assert_eq!(check(&changed("/version", json!(0))), ["version: found 0; allowed: 1 to 2"]);
}

/// A project as version 1 wrote it.
fn of_version_one(project: &Project) -> Value {
    let mut value: Value = serde_json::from_str(&to_json(project)).unwrap();
    value["version"] = json!(1);
    let brief = value["project"]["brief"].as_object_mut().unwrap();
    for later in
        ["latitude", "longitude", "utc_offset", "albedo", "horizon", "daily_range", "months", "tariff", "currency"]
    {
        assert!(brief.remove(later).is_some(), "{later}");
    }
    value
}

#[test]
fn a_file_of_version_one_opens_with_what_it_could_not_say_as_in_a_new_project() {
    let project = filled(2);
    let old = of_version_one(&project);
    let read = from_json(&old.to_string()).unwrap();
    assert_eq!(read, project);
    let brief = &read.brief;
    assert_eq!((brief.latitude.0, brief.longitude.0, brief.utc_offset), (40.0, -100.0, -6.0));
    assert_eq!((brief.albedo, brief.daily_range.0, brief.horizon.len()), (0.2, 14.0, 0));
    assert_eq!((&brief.months, brief.tariff, brief.currency.as_str()), (&None, None, "USD"));
    assert!(to_json(&read).contains("\"version\": 2"));
    // What a version-1 file lacks of its own is still missed, and so is what version 2 must say.
    let mut broken = old.clone();
    broken["project"]["brief"].as_object_mut().unwrap().remove("elevation");
    assert_eq!(check(&broken.to_string()), ["brief.elevation: found nothing; allowed: a value"]);
    let mut newer = old;
    newer["version"] = json!(2);
    assert_eq!(check(&newer.to_string()), ["brief.latitude: found nothing; allowed: a value"]);
}

#[test]
fn a_link_of_version_one_opens_too() {
    use base64::Engine;
    let project = filled(2);
    let packed = miniz_oxide::deflate::compress_to_vec(of_version_one(&project).to_string().as_bytes(), 9);
    let link = format!("p1.{}", base64::engine::general_purpose::URL_SAFE_NO_PAD.encode(packed));
    assert_eq!(from_link(&link), Ok(project));
}

/// A project with everything about its site said.
fn sited() -> Project {
    let (mut project, _) = start();
    let month = Month { air: units::Celsius(12.5), daily_range: units::Kelvins(9.0), clearness: 0.6, wind: 3.5 };
    project.brief.months = Some(Box::new(MonthlyMeans([month; 12])));
    project.brief.horizon = vec![units::Degrees(4.0), units::Degrees(0.0), units::Degrees(12.5)];
    project.brief.tariff = Some(0.21);
    project.brief.currency = "EUR".into();
    project
}

#[test]
fn the_site_reads_back_from_file_and_link() {
    let project = sited();
    assert_eq!(from_json(&to_json(&project)), Ok(project.clone()));
    let link = to_link(&project);
    println!("twelve months and a horizon: {} characters", link.len());
    assert_eq!(from_link(&link), Ok(project));
}

#[test]
fn what_is_absurd_about_the_site_is_told_place_by_place() {
    let mut project = sited();
    let brief = &mut project.brief;
    brief.latitude.0 = 90.5;
    brief.longitude.0 = -181.0;
    brief.utc_offset = 15.0;
    brief.albedo = 1.5;
    brief.daily_range.0 = -1.0;
    brief.tariff = Some(-0.1);
    brief.horizon[2].0 = 90.0;
    let Some(months) = &mut brief.months else { panic!("no months") };
    months.0[3].clearness = 20.0;
    months.0[11].wind = 31.0;
    brief.currency = "€".into();
    assert_eq!(
        check(&to_json(&project)),
        [
            "brief.latitude: found 90.5°; allowed: between \u{2212}90 and 90°",
            "brief.longitude: found \u{2212}181°; allowed: between \u{2212}180 and 180°",
            "brief.utc_offset: found 15\u{a0}h; allowed: between \u{2212}12 and 14\u{a0}h",
            "brief.albedo: found 1.5; allowed: between 0 and 1",
            "brief.daily_range: found \u{2212}1\u{a0}K; allowed: between 0 and 40\u{a0}K",
            "brief.tariff: found \u{2212}0.1; allowed: between 0 and 100000",
            "brief.horizon[2]: found 90°; allowed: between 0 and 89°",
            "brief.months[3].clearness: found 20; allowed: between 0 and 1",
            "brief.months[11].wind: found 31\u{a0}m/s; allowed: between 0 and 30\u{a0}m/s",
            "brief.currency: found “€”; allowed: three capital letters, a code of ISO 4217",
        ]
    );
    let mut text: Value = serde_json::from_str(&to_json(&sited())).unwrap();
    text["project"]["brief"]["months"].as_array_mut().unwrap().push(json!({
        "air": 1, "daily_range": 1, "clearness": 0.5, "wind": 1
    }));
    assert_eq!(
        check(&text.to_string()),
        ["brief.months: found 13 months instead of 12; allowed: what this place holds"]
    );
    let mut project = sited();
    project.brief.horizon = vec![units::Degrees(1.0); 37];
    assert_eq!(check(&to_json(&project)), ["brief.horizon: found 37 directions; allowed: at most 36 directions"]);
}

#[test]
fn a_wrong_shape_names_its_place() {
    assert_eq!(
        check(&changed("/project/build/bays/0/width", json!("wide"))),
        ["build.bays[0].width: found string \"wide\"; allowed: a number"]
    );
    assert_eq!(check(&changed("/project/brief/sun", json!("half")))[0].split(':').next(), Some("brief.sun"));
    assert_eq!(
        check(&changed("/project/brief", json!({ "site": "x" }))),
        ["brief.elevation: found nothing; allowed: a value"]
    );
    assert!(check(&changed("/project/build/insulation", json!({ "inside": null })))[0].contains("unknown name"));
    assert_eq!(
        check(&changed("/project/build/units", json!(-4))),
        ["build.units: found integer `-4`; allowed: a whole number from 0"]
    );
}

#[test]
fn all_values_out_of_range_are_told_at_once() {
    let mut project = filled(3);
    project.build.bays[1].width.0 = 0.0;
    project.brief.hottest.0 = 400.0;
    project.build.devices[2].at =
        Place::Floor { bay: 5, plinth: false, across: units::Millimetres(1e9), along: units::Millimetres(0.0) };
    project.build.devices[1].id = project.build.devices[0].id;
    let places: Vec<String> =
        from_json(&to_json(&project)).unwrap_err().into_iter().map(|problem| problem.place).collect();
    assert_eq!(
        places,
        [
            "brief.hottest",
            "build.bays[1].width",
            "build.devices[1].id",
            "build.devices[2].at.across",
            "build.devices[2].at"
        ]
    );
}

#[test]
fn ten_thousand_devices_are_one_problem() {
    let mut project = filled(1);
    project.build.devices = vec![project.build.devices[0].clone(); 10_000];
    assert_eq!(check(&to_json(&project)), ["build.devices: found 10000 devices; allowed: at most 500"]);
}

#[test]
fn more_problems_than_one_reads_are_counted() {
    let mut project = filled(1);
    project.build.devices = vec![project.build.devices[0].clone(); 200];
    let told = check(&to_json(&project));
    assert_eq!((told.len(), told[50].as_str()), (51, "the rest of the file: found 149 more problems; allowed: none"));
}

#[test]
fn a_number_not_yet_free_is_passed_over() {
    let mut project = filled(3);
    project.build.next_id = 0;
    assert_eq!(from_json(&to_json(&project)).unwrap().build.next_id, 4);
}

#[test]
fn an_unknown_part_is_for_the_checks_to_tell() {
    assert_eq!(check(&changed("/project/build/skin", json!("skin-of-another-catalogue"))), Vec::<String>::new());
}

#[test]
fn a_file_of_five_megabytes_is_not_looked_into() {
    assert!(check(&" ".repeat(MOST_BYTES + 1))[0].contains("at most 5000000 bytes"));
}

#[test]
fn a_file_cut_anywhere_is_refused_and_says_so() {
    let text = to_json(&filled(2));
    let text = text.trim_end();
    for length in 0..text.len() {
        let Some(cut) = text.get(..length) else { continue };
        assert!(check(cut)[0].contains("cut short"), "{length}");
    }
}

#[test]
fn a_link_of_thirty_devices_can_be_sent() {
    let project = filled(30);
    let link = to_link(&project);
    assert_eq!(from_link(&link), Ok(project));
    println!("30 devices: {} characters", link.len());
    assert!(link.len() < 2500, "{} characters", link.len());
}

#[test]
fn a_damaged_link_is_refused() {
    let link = to_link(&start().0);
    let problem = |link: &str| from_link(link).unwrap_err()[0].to_string();
    assert!(problem(&link[..link.len() / 2]).contains("link"));
    assert!(problem(&link.replace("p1.", "p9.")).contains("newer"));
    assert!(problem("hello").contains("no project in it"));
    assert!(problem("p1.!!").contains("letters"));
    assert_eq!(from_link(&format!("#{link}")), from_link(&link));
}

#[test]
fn a_link_that_swells_is_stopped() {
    use base64::Engine;
    let bomb = miniz_oxide::deflate::compress_to_vec(&vec![b' '; 50_000_000], 9);
    let link = format!("p1.{}", base64::engine::general_purpose::URL_SAFE_NO_PAD.encode(bomb));
    assert!(from_link(&link).unwrap_err()[0].found.contains("more than a project"));
}

#[test]
fn a_link_packs_the_file_without_its_white_space() {
    let mut project = filled(2);
    project.brief.site = "say \"two  words\", then \\ and\n a line".to_owned();
    let value: Value = serde_json::from_str(&to_json(&project)).unwrap();
    let packed = compact(&project);
    assert_eq!(serde_json::from_slice::<Value>(&packed).unwrap(), value);
    assert_eq!(packed.len(), value.to_string().len());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(64) })]

    #[test]
    fn any_project_comes_back_from_its_link(seeds in seeds()) {
        let (mut project, catalogue) = start();
        for seed in seeds {
            let edit = edit(&project, &catalogue, seed);
            let _ = crate::apply(&mut project, &edit, &catalogue);
        }
        prop_assert_eq!(from_link(&to_link(&project)), Ok(project));
    }

    #[test]
    fn a_changed_byte_never_panics(at in 0_usize..4000, to in any::<char>(), text in any::<String>()) {
        let mut letters: Vec<char> = to_json(&filled(2)).chars().collect();
        let at = at % letters.len();
        letters[at] = to;
        let _ = from_json(&letters.into_iter().collect::<String>());
        let _ = from_json(&text);
        let _ = from_link(&text);
        let _ = from_link(&format!("p1.{text}"));
    }
}
