//! Rows of a reference table by the names of their columns.

use std::collections::BTreeMap;

/// One row: cells by column.
pub struct Row(BTreeMap<String, String>);

impl Row {
    /// The cell as it is written.
    pub fn text(&self, column: &str) -> &str {
        self.0.get(column).unwrap_or_else(|| panic!("no column {column}"))
    }

    /// The cell as a number.
    pub fn number(&self, column: &str) -> f64 {
        let text = self.text(column);
        text.parse().unwrap_or_else(|_| panic!("{column}: {text} is no number"))
    }
}

impl std::fmt::Display for Row {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.iter().try_for_each(|(column, cell)| write!(f, "{column}={cell} "))
    }
}

/// The rows of a table with its columns named in the first line.
pub fn rows(table: &str) -> Vec<Row> {
    let mut lines = table.lines();
    let columns: Vec<&str> = lines.next().expect("a first line").split(',').collect();
    let rows: Vec<Row> = lines
        .map(|line| Row(columns.iter().zip(line.split(',')).map(|(c, cell)| ((*c).into(), cell.into())).collect()))
        .collect();
    assert!(!rows.is_empty(), "no rows");
    rows
}
