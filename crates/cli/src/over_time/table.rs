//! A table of figures: columns as wide as what stands in them.

/// Between two columns.
const GAP: &str = "  ";

/// A table whose first column is words and whose others are figures, set to the right.
#[derive(Default)]
pub(super) struct Table {
    lines: Vec<Vec<String>>,
}

impl Table {
    /// One more line, heads first.
    pub(super) fn line(&mut self, cells: Vec<String>) {
        self.lines.push(cells);
    }

    /// The table as text.
    pub(super) fn text(&self) -> String {
        let columns = self.lines.iter().map(Vec::len).max().unwrap_or(0);
        let width = |column: usize| {
            self.lines.iter().filter_map(|line| line.get(column)).map(|cell| cell.chars().count()).max().unwrap_or(0)
        };
        let widths: Vec<usize> = (0..columns).map(width).collect();
        let mut text = String::new();
        for line in &self.lines {
            let mut row = String::new();
            for (column, (cell, width)) in line.iter().zip(&widths).enumerate() {
                let room = " ".repeat(width.saturating_sub(cell.chars().count()));
                match column {
                    0 => row = format!("{cell}{room}"),
                    _ => row = format!("{row}{GAP}{room}{cell}"),
                }
            }
            text += row.trim_end();
            text.push('\n');
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::Table;

    #[test]
    fn figures_stand_under_one_another() {
        let mut table = Table::default();
        for line in [["hour", "°C"], ["0", "−4.5"], ["1", "12.5"]] {
            table.line(line.map(str::to_owned).to_vec());
        }
        assert_eq!(table.text(), "hour    °C\n0     −4.5\n1     12.5\n");
    }
}
