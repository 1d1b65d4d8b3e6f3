//! How the tables beside this file are read: each is a list of rows by kind, with id, source and figures.

use toml::Table;

/// The rows of one kind.
///
/// # Panics
/// When the text is no TOML, or has no row of that kind: a test that compares nothing must fail.
#[must_use]
pub fn rows(text: &str, kind: &str) -> Vec<Table> {
    let all: Table = text.parse().unwrap_or_else(|why| panic!("{why}"));
    let list = all.get(kind).and_then(|rows| rows.as_array());
    let rows: Vec<Table> = list.into_iter().flatten().filter_map(|row| row.as_table().cloned()).collect();
    assert!(!rows.is_empty(), "no published {kind}");
    rows
}

/// The figure of a row.
///
/// # Panics
/// When the row has none of that name: it names the row.
#[must_use]
pub fn number(row: &Table, field: &str) -> f64 {
    row.get(field).and_then(toml::Value::as_float).unwrap_or_else(|| panic!("{field} of {row:?}"))
}
