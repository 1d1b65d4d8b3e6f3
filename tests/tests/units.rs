//! Conversions against printed values: `published/units.toml`.

use serde::Deserialize;
use units::{Kind, System, Value, read, show_exactly};

#[derive(Deserialize)]
struct Published {
    case: Vec<Case>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    id: String,
    source: String,
    status: String,
    typed: String,
    kind: Kind,
    shown_in: Option<System>,
    expected: f64,
    within: Option<f64>,
    within_relative: Option<f64>,
}

/// What is wrong with a case, if anything is.
fn check(case: &Case) -> Option<String> {
    let base = match read(&case.typed, case.kind, System::Metric) {
        Ok(base) => base,
        Err(error) => return Some(format!("{}: {error}", case.id)),
    };
    let number = case.shown_in.map_or(base, |system| {
        // As a pure number: what the field shows, without its unit.
        let shown = show_exactly(Value::new(base, case.kind), system).number;
        shown.parse().unwrap_or(f64::NAN)
    });
    let tolerance = match (case.within, case.within_relative) {
        (Some(within), None) => within,
        (None, Some(share)) => share * case.expected.abs(),
        _ => return Some(format!("{}: one tolerance is needed", case.id)),
    };
    let holds = (number - case.expected).abs() <= tolerance;
    (!holds).then(|| {
        let Case { id, source, status, expected, .. } = case;
        format!("{id}: {number}, printed {expected} ± {tolerance} ({source}; {status})")
    })
}

#[test]
fn conversions_agree_with_printed_values() {
    let published: Published = toml::from_str(include_str!("../published/units.toml")).unwrap();
    let wrong: Vec<String> = published.case.iter().filter_map(check).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
    for id in (1..=4).map(|row| format!("T07-{row:02}")).chain((1..=14).map(|row| format!("T16-{row:02}"))) {
        assert!(published.case.iter().any(|case| case.id == id), "{id} is missing");
    }
}
