//! `baywright day` and `baywright year` as a script sees them.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking, in its helpers too")]

use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};

use project::{Project, samples, to_json};
use serde_json::Value;

/// Exit code, standard output and standard error.
fn run(words: &[&str], input: &str) -> (i32, String, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_baywright"));
    let mut child =
        command.args(words).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let mut to = child.stdin.take().unwrap();
    // A command that does not read its input closes it early.
    let _ = to.write_all(input.as_bytes());
    drop(to);
    let Output { status, stdout, stderr } = child.wait_with_output().unwrap();
    let (out, err) = (String::from_utf8(stdout).unwrap(), String::from_utf8(stderr).unwrap());
    assert!(!err.contains("panicked"), "{words:?}: {err}");
    (status.code().unwrap(), out, err)
}

/// The answer as JSON, with its exit code.
fn check(words: &[&str], project: &Project) -> (i32, Value) {
    let words: Vec<_> = words.iter().copied().chain(["--json"]).collect();
    let (code, out, err) = run(&words, &to_json(project));
    // Nobody looks on, so nothing is told of progress.
    assert_eq!(err, "");
    (code, serde_json::from_str(&out).unwrap())
}

fn sample(index: usize) -> Project {
    samples().swap_remove(index).project
}

fn numbers(list: &Value) -> Vec<f64> {
    list.as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect()
}

/// A weather file in the folder of the tests: every hour is as warm as the hour of the day.
fn weather(name: &str, change: impl FnOnce(String) -> String) -> PathBuf {
    let mut text = "LOCATION,Quiet Valley,-,XYZ,invented,999999,40.0,-75.0,-5.0,100.0\nDESIGN CONDITIONS,0\n\
        TYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\nHOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\nCOMMENTS 1,\n\
        COMMENTS 2,\nDATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31"
        .to_owned();
    for (month, of_year) in climate::MONTHS.into_iter().enumerate() {
        for (day, hour) in (1..=of_year.days).flat_map(|day| (1..=24).map(move |hour| (day, hour))) {
            text += &format!(
                "\n2019,{},{day},{hour},60,?9?9,{}.5,3.0,50,99000,9999,9999,300,0,0,0,0,0,0,0,180,2.5,0,0,0,0,0,0,0,0,0,0,0,0,0",
                month + 1,
                hour - 1
            );
        }
    }
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, change(text)).unwrap();
    path
}

#[test]
fn the_year_has_every_hour_as_plain_numbers() {
    let project = sample(1);
    let (_, year) = check(&["year", "-"], &project);
    assert_eq!((year["format"].as_str(), year["project"].as_str()), (Some("baywright-course"), Some(&*project.name)));
    let rooms = year["rooms"].as_array().unwrap().len();
    assert!(rooms > 0);
    assert_eq!(year["year"]["step"].as_f64(), Some(1.0));
    assert_eq!(numbers(&year["year"]["outside"]).len(), 8760);
    assert_eq!(year["year"]["air"].as_array().unwrap().len(), rooms);
    assert_eq!(year["year"]["faces"].as_array().unwrap().len(), 5);
    for (room, series) in year["year"]["air"].as_array().unwrap().iter().enumerate() {
        let air = numbers(series);
        let mean = air.iter().sum::<f64>() / air.len() as f64;
        let told = year["room_years"][room]["mean"].as_f64().unwrap();
        assert_eq!(air.len(), 8760);
        // The series is kept in single precision.
        assert!((mean - told).abs() < 1e-3, "{mean} and {told}");
    }
    assert!(year.get("hot_day").is_none());
}

#[test]
fn the_days_run_from_midnight_to_midnight() {
    let (_, day) = check(&["day", "-"], &sample(0));
    for which in ["hot_day", "cold_day"] {
        let outside = numbers(&day[which]["outside"]);
        let hours = outside.len() as f64 * day[which]["step"].as_f64().unwrap();
        assert!((hours - 24.0).abs() < 1e-9, "{which}: {hours} h");
    }
    let highest = |which: &str| numbers(&day[which]["outside"]).into_iter().fold(f64::MIN, f64::max);
    assert!(highest("hot_day") > highest("cold_day"));
    assert!(day["door_open"].is_object() && day.get("year").is_none());
}

#[test]
fn the_exit_code_follows_the_checks_over_time() {
    let mut codes = Vec::new();
    let mut too_hot = sample(0);
    too_hot.build.climate.clear();
    for project in [sample(0), sample(1), too_hot] {
        let (code, year) = check(&["year", "-"], &project);
        let findings = year["findings"].as_array().unwrap();
        assert!(!findings.is_empty());
        let kept = findings.iter().all(|finding| {
            assert!(finding["code"].as_str().unwrap().starts_with('Y'), "{finding}");
            ["holds", "tight"].contains(&finding["outcome"].as_str().unwrap())
        });
        assert_eq!((code, year["all_hold"].as_bool()), (i32::from(!kept), Some(kept)), "{}", project.name);
        codes.push(code);
    }
    assert_eq!(codes.last(), Some(&1), "a cabinet in the desert stays cool without any unit");
}

#[test]
fn text_and_json_tell_the_same_checks() {
    let project = sample(0);
    for command in ["day", "year"] {
        let (_, json) = check(&[command, "-"], &project);
        let (_, text, _) = run(&[command, "-"], &to_json(&project));
        assert!(text.starts_with(&project.name), "{text}");
        for finding in json["findings"].as_array().unwrap() {
            let code = finding["code"].as_str().unwrap();
            assert!(text.lines().any(|line| line.starts_with(code)), "{code} is not in {text}");
        }
    }
    let (_, year, _) = run(&["year", "-"], &to_json(&project));
    assert!(year.contains("January") && year.contains("December") && year.contains("°C"), "{year}");
    let (_, us, _) = run(&["year", "-", "--units", "us"], &to_json(&project));
    assert!(us.contains("outside °F") && !us.contains("outside °C"), "{us}");
    let (_, day, _) = run(&["day", "-"], &to_json(&project));
    let hours = day.lines().filter(|line| line.split("  ").next().is_some_and(|cell| cell.trim() == "23")).count();
    assert_eq!(hours, 2, "{day}");
}

#[test]
fn the_months_of_the_energy_add_up_to_the_year_and_are_priced_by_the_tariff() {
    let mut project = sample(0);
    (project.brief.tariff, project.brief.currency) = (Some(0.25), "EUR".to_owned());
    let (_, year) = check(&["year", "-"], &project);
    let energy = &year["energy"];
    let months = energy["months"].as_array().unwrap();
    assert_eq!(months.len(), 12);
    let sum = |key: &str| months.iter().map(|month| month[key].as_f64().unwrap()).sum::<f64>();
    let whole = |key: &str| energy["year"][key].as_f64().unwrap();
    let units = year["unit_years"].as_array().unwrap();
    let of_units: f64 = units.iter().map(|unit| unit["electricity"].as_f64().unwrap()).sum();
    assert!(of_units > 100.0, "{of_units}");
    assert!((whole("electricity") - of_units).abs() < 1e-6);
    for key in ["electricity", "cost"] {
        assert!((sum(key) / whole(key) - 1.0).abs() < 1e-9, "{key}: {} {}", sum(key), whole(key));
    }
    assert!((whole("cost") - 0.25 * of_units).abs() < 1e-6);
    for (month, of_month) in months.iter().enumerate() {
        let of_units: f64 = units.iter().map(|unit| numbers(&unit["electricity_by_month"])[month]).sum();
        assert!((of_month["electricity"].as_f64().unwrap() - of_units).abs() < 1e-9, "{month}");
    }
    // The last line of the table is the year as Y07 tells it.
    let (_, text, _) = run(&["year", "-"], &to_json(&project));
    assert!(text.contains("cost EUR") && text.contains("the year "), "{text}");
    project.brief.tariff = None;
    let (_, year) = check(&["year", "-"], &project);
    assert!(year["energy"]["year"]["cost"].is_null() && year["energy"]["months"][0]["cost"].is_null());
    let (_, text, _) = run(&["year", "-"], &to_json(&project));
    assert!(!text.contains("cost EUR"), "{text}");
}

#[test]
fn a_weather_file_takes_the_place_of_the_briefs_climate() {
    let path = weather("valley.epw", |text| text);
    let project = sample(0);
    let (_, year) = check(&["year", "-", "--climate", path.to_str().unwrap()], &project);
    assert_eq!(year["weather"].as_str(), Some("Quiet Valley, XYZ (invented)"));
    assert_eq!(numbers(&year["year"]["outside"])[..3], [0.5, 1.5, 2.5]);
}

#[test]
fn weather_of_another_place_is_said_first_with_its_distance() {
    let path = weather("far.epw", |text| text);
    let project = sample(0);
    for command in ["day", "year"] {
        let (_, text, _) = run(&[command, "-", "--climate", path.to_str().unwrap()], &to_json(&project));
        // Sample and file lie at 32.70°, −114.60° and 40.0°, −75.0°.
        assert!(text.contains("Weather: Quiet Valley, XYZ (invented)"), "{text}");
        assert!(text.contains("note: The weather was measured 3607 km from the site and 57 m higher"), "{text}");
        let (_, json) = check(&[command, "-", "--climate", path.to_str().unwrap()], &project);
        assert!(json["notes"][0].as_str().unwrap().contains("km from the site"), "{}", json["notes"]);
    }
}

#[test]
fn odd_weather_files_are_read_and_what_was_done_is_said() {
    let project = sample(0);
    let notes = |name: &str, change: fn(String) -> String| {
        let path = weather(name, change);
        let (_, year) = check(&["year", "-", "--climate", path.to_str().unwrap()], &project);
        year["notes"].to_string()
    };
    let plain = notes("plain.epw", |text| text);
    assert_eq!(notes("crlf.epw", |text| text.replace('\n', "\r\n")), plain);
    let short = notes("one_short.epw", |text| text[..text.rfind('\n').unwrap()].to_owned());
    assert!(short.contains("missing: read between their neighbours"), "{short}");
    let half = notes("half.epw", |text| text.replace("40.0,-75.0,-5.0", "28.6,77.2,5.5"));
    assert!(half.contains("28.60°, 77.20°"), "{half}");
    let polar = notes("polar.epw", |text| text.replace("40.0,-75.0,-5.0", "78.2,15.6,1.0"));
    assert!(polar.contains("78.20°, 15.60°"), "{polar}");
}

#[test]
fn a_broken_weather_file_is_bad_input_and_told_with_its_lines() {
    let project = to_json(&sample(0));
    let bad = |path: &str, said: &[&str]| {
        let (code, out, err) = run(&["year", "-", "--climate", path], &project);
        assert_eq!((code, out.as_str()), (2, ""), "{err}");
        for said in said {
            assert!(err.contains(said), "{path} does not say {said:?}: {err}");
        }
    };
    let path = weather("windy.epw", |text| text.replacen(",2.5,", ",windy,", 1));
    bad(path.to_str().unwrap(), &["windy.epw", "line 9", "windy"]);
    let path = weather("nan.epw", |text| text.replacen(",2.5,", ",NaN,", 1));
    bad(path.to_str().unwrap(), &["line 9", "NaN", "allowed"]);
    let path = weather("bare.epw", |text| text[text.find("2019,").unwrap()..].to_owned());
    bad(path.to_str().unwrap(), &["LOCATION", "DATA PERIODS"]);
    let path = weather("silent.epw", |text| text.replace(",2.5,", ",999,"));
    bad(path.to_str().unwrap(), &["wind", "8760 records", "gaps of at most 6 h"]);
    let path = weather("short.epw", |text| text.lines().take(4000).collect::<Vec<_>>().join("\n"));
    bad(path.to_str().unwrap(), &["short.epw", "allowed"]);
    let path = weather("none.epw", |_| String::new());
    bad(path.to_str().unwrap(), &["none.epw"]);
    bad("/no/such/file.epw", &["/no/such/file.epw"]);
}

#[test]
fn says_why_there_is_no_course() {
    let mut project = sample(0);
    project.build.family = "no-such-family".into();
    let (code, year) = check(&["year", "-"], &project);
    assert_eq!((code, year["all_hold"].as_bool()), (1, Some(false)));
    assert!(year["because"].as_str().unwrap().contains("no-such-family"), "{year}");
    let (code, text, _) = run(&["day", "-"], &to_json(&project));
    assert_eq!(code, 1);
    assert!(text.contains("There is no course") && text.contains("no-such-family"), "{text}");
}
