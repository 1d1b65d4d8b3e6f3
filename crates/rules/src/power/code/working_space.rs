//! Clear depth before what may be worked on while it is live.

use super::{Code, Entry, Table};

/// What stands opposite live parts across the working space.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Opposite {
    /// Nothing live and nothing grounded: condition 1.
    Insulated,
    /// Something grounded, as brick and concrete are: condition 2.
    Grounded,
    /// Something live: condition 3.
    Live,
}

/// One foot, mm.
const FOOT: f64 = 304.8;

impl Code {
    /// Clear depth, mm, by volts to ground and by what stands opposite.
    #[must_use]
    pub fn working_depth(&'static self, volts_to_ground: f64, opposite: Opposite) -> Option<Entry<f64>> {
        let row = self.tables.working_space.rows.iter().find(|row| volts_to_ground <= row.up_to)?;
        self.entry(Table::WorkingSpace, row.read, row.depths[opposite as usize] * FOOT)
    }
}

#[cfg(test)]
mod tests {
    use project::CodeEdition;

    use super::*;

    #[track_caller]
    fn check(volts: f64, opposite: Opposite, feet: Option<f64>) {
        let found = Code::of(CodeEdition::E2023).working_depth(volts, opposite);
        assert_eq!(found.map(|entry| entry.value), feet.map(|feet| feet * FOOT));
    }

    #[test]
    fn says_nothing_above_the_table() {
        check(150.0, Opposite::Live, Some(3.0));
        check(150.1, Opposite::Grounded, Some(3.5));
        check(600.0, Opposite::Live, Some(4.0));
        check(1000.0, Opposite::Live, Some(5.0));
        check(1000.1, Opposite::Insulated, None);
    }
}
