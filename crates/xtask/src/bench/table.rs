//! The table that `cargo xtask bench` prints.

use std::fmt;

/// What a figure is held against.
#[derive(Clone, Copy)]
pub(crate) enum Limit {
    /// Not more than this.
    AtMost(f64),
    /// Shown for the reader only.
    None,
}

/// One line.
pub(crate) struct Row {
    what: &'static str,
    measured: Option<f64>,
    unit: &'static str,
    limit: Limit,
    note: String,
}

impl Row {
    /// A line without a note. A figure that could not be measured is None, and shown as such.
    pub(crate) fn new(what: &'static str, measured: Option<f64>, unit: &'static str, limit: Limit) -> Self {
        Self { what, measured, unit, limit, note: String::new() }
    }

    /// The same line with a note behind it.
    pub(crate) fn note(mut self, note: String) -> Self {
        self.note = note;
        self
    }

    /// What the line tells.
    #[cfg(test)]
    pub(crate) fn what(&self) -> &'static str {
        self.what
    }

    fn budget(&self) -> bool {
        matches!(self.limit, Limit::AtMost(_))
    }

    /// Whether the budget is kept; None without a figure or a budget.
    pub(crate) fn holds(&self) -> Option<bool> {
        match (self.measured, self.limit) {
            (Some(measured), Limit::AtMost(limit)) => Some(measured <= limit),
            _ => None,
        }
    }
}

/// All lines.
pub(crate) struct Table {
    /// From top to bottom.
    pub(crate) rows: Vec<Row>,
}

impl fmt::Display for Table {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(to, "{:<36} {:>14} {:>14}", "", "budget", "measured")?;
        for row in &self.rows {
            let budget = match row.limit {
                Limit::AtMost(limit) => format!("≤ {} {}", figure(limit), row.unit),
                Limit::None => String::new(),
            };
            let measured =
                row.measured.map_or("not measured".into(), |value| format!("{} {}", figure(value), row.unit));
            let word = match row.holds() {
                Some(true) => "holds",
                Some(false) => "MISSES",
                None => "",
            };
            let line =
                format!("{:<36} {:>14} {:>14}  {word:<7} {}", row.what, budget.trim(), measured.trim(), row.note);
            writeln!(to, "{}", line.trim_end())?;
        }
        let count = |wanted| self.rows.iter().filter(|row| row.budget() && row.holds() == wanted).count();
        let (held, missed, open) = (count(Some(true)), count(Some(false)), count(None));
        write!(to, "{held} budgets hold, {missed} missed, {open} not measured")
    }
}

/// Three figures that count, whole numbers whole.
fn figure(value: f64) -> String {
    match value {
        whole if whole.fract() == 0.0 => format!("{whole:.0}"),
        large if large >= 100.0 => format!("{large:.0}"),
        middle if middle >= 10.0 => format!("{middle:.1}"),
        small => format!("{small:.2}"),
    }
}

/// The value below which this share of all values lies, by nearest rank; None of none.
pub(crate) fn at(values: &[f64], share: f64) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let rank = (share * sorted.len() as f64).ceil() as usize;
    sorted.get(rank.saturating_sub(1)).copied()
}

#[cfg(test)]
mod tests {
    use super::{Limit, Row, Table, at};

    #[test]
    fn percentiles_are_of_nearest_rank() {
        // Nearest-rank method, worked by hand: 0.99 × 300 = 297th of 1…300.
        let values: Vec<_> = (1..=300).rev().map(f64::from).collect();
        assert_eq!((at(&values, 0.5), at(&values, 0.99), at(&[], 0.5)), (Some(150.0), Some(297.0), None));
    }

    #[test]
    fn says_what_holds_what_misses_and_what_was_not_measured() {
        let row = |measured| Row::new("x", measured, "ms", Limit::AtMost(4.0));
        assert_eq!(
            [row(Some(4.0)).holds(), row(Some(4.1)).holds(), row(None).holds()],
            [Some(true), Some(false), None]
        );
        let table = Table { rows: vec![row(Some(4.1)), row(None)] }.to_string();
        assert!(table.contains("4.10 ms  MISSES") && table.contains("not measured\n"), "{table}");
        assert!(table.ends_with("0 budgets hold, 1 missed, 1 not measured"), "{table}");
    }
}
