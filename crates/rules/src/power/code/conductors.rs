//! What conductors carry: ampacity and its factors.

use project::Conductor;

use super::file::of_metal;
use super::{Code, Column, Entry, Size, Table};

impl Code {
    /// Ampacity of an insulated conductor, A: not more than three current-carrying ones together, surroundings of 30 °C.
    #[must_use]
    pub fn ampacity(&'static self, size: Size, metal: Conductor, column: Column) -> Option<Entry<f64>> {
        let table = &self.tables.ampacity;
        let row = of_metal(metal, &table.copper, &table.aluminium).iter().find(|row| row.size == size)?;
        self.entry(Table::Ampacity, row.read, row.amperes[column as usize])
    }

    /// Factor of the ampacity in surroundings of so many °C, by the column of the insulation.
    #[must_use]
    pub fn ambient_factor(&'static self, column: Column, celsius: f64) -> Option<Entry<f64>> {
        let row = self.tables.ambient.rows.iter().find(|row| celsius <= row.up_to)?;
        let first = Column::ALL.iter().position(|column| row.from.is_none_or(|from| column.celsius() >= from))?;
        let factor = row.factors.get((column as usize).checked_sub(first)?)?;
        self.entry(Table::Ambient, row.read, *factor)
    }

    /// Factor of the ampacity of so many current-carrying conductors together.
    #[must_use]
    pub fn bundling_factor(&'static self, conductors: u32) -> Option<Entry<f64>> {
        let table = &self.tables.bundling;
        if let Some(row) = table.rows.iter().find(|row| conductors <= row.up_to) {
            return self.entry(Table::Bundling, row.read, row.factor);
        }
        self.entry(Table::Bundling, table.beyond.read, table.beyond.factor?)
    }

    /// The hottest column that may be used at the ends of a circuit of so many amperes, whose terminals are marked for so
    /// many °C.
    #[must_use]
    pub fn terminal_column(&'static self, amperes: f64, marked_celsius: f64) -> Option<Entry<Column>> {
        let table = &self.tables.terminals;
        let marked = Column::for_terminals(marked_celsius)?;
        let column = if amperes > table.cool_up_to { Column::C75 } else { marked.min(Column::C75) };
        self.entry(Table::Terminals, table.read, column)
    }
}

#[cfg(test)]
mod tests {
    use project::CodeEdition;

    use super::*;
    use crate::Standing;

    fn code() -> &'static Code {
        Code::of(CodeEdition::E2023)
    }

    #[track_caller]
    fn check<T: PartialEq + std::fmt::Debug>(found: Option<Entry<T>>, expected: Option<T>) {
        assert_eq!(found.map(|entry| entry.value), expected);
    }

    #[test]
    fn says_nothing_past_the_ends_of_the_tables() {
        check(code().ampacity(Size::Awg14, Conductor::Copper, Column::C60), Some(15.0));
        check(code().ampacity(Size::Awg16, Conductor::Copper, Column::C60), None);
        check(code().ampacity(Size::Awg14, Conductor::Aluminium, Column::C60), None);
        check(code().ampacity(Size::Kcmil500, Conductor::Aluminium, Column::C90), Some(350.0));
        check(code().ambient_factor(Column::C60, 55.0), Some(0.41));
        check(code().ambient_factor(Column::C60, 55.1), None);
        check(code().ambient_factor(Column::C75, 70.0), Some(0.33));
        check(code().ambient_factor(Column::C75, 70.1), None);
        check(code().ambient_factor(Column::C90, 85.0), Some(0.29));
        check(code().ambient_factor(Column::C90, 85.1), None);
        check(code().ambient_factor(Column::C90, f64::NAN), None);
    }

    #[test]
    fn a_row_holds_up_to_its_edge() {
        let edges = [(10.0, 1.20), (10.1, 1.15), (30.0, 1.0), (30.1, 0.94), (45.1, 0.75), (50.0, 0.75), (50.1, 0.67)];
        for (celsius, factor) in edges.into_iter().chain([(55.1, 0.58), (60.1, 0.47)]) {
            check(code().ambient_factor(Column::C75, celsius), Some(factor));
        }
        for (count, factor) in [(1, 1.0), (3, 1.0), (4, 0.8), (6, 0.8), (10, 0.5), (21, 0.45), (40, 0.4), (41, 0.35)] {
            check(code().bundling_factor(count), Some(factor));
        }
    }

    #[test]
    fn larger_conductors_carry_more_and_hotter_ones_too() {
        for metal in [Conductor::Copper, Conductor::Aluminium] {
            for column in Column::ALL {
                let carried: Vec<f64> = Size::ALL
                    .into_iter()
                    .filter_map(|size| code().ampacity(size, metal, column))
                    .map(|entry| entry.value)
                    .collect();
                assert!(carried.len() >= 17 && carried.is_sorted_by(|one, other| one < other), "{carried:?}");
            }
        }
    }

    #[test]
    fn terminals_of_more_than_a_hundred_amperes_are_warm_ones() {
        check(code().terminal_column(100.0, 60.0), Some(Column::C60));
        check(code().terminal_column(100.0, 75.0), Some(Column::C75));
        check(code().terminal_column(100.0, 90.0), Some(Column::C75));
        check(code().terminal_column(100.1, 60.0), Some(Column::C75));
        check(code().terminal_column(20.0, 50.0), None);
    }

    #[test]
    fn says_which_rows_were_read() {
        let standing = |size| code().ampacity(size, Conductor::Copper, Column::C75).map(|entry| entry.source.standing);
        assert_eq!(standing(Size::Awg10), Some(Standing::Read));
        assert_eq!(standing(Size::Awg12), Some(Standing::FromMemory));
    }
}
