//! The electrical code by its edition: tables as `assets/codes` has them, each row with where it stands and how far it was
//! confirmed.
//!
//! **Invariant:** where a table ends there is no figure.

mod conductors;
mod conduit;
mod configuration;
mod file;
mod fire;
mod grounding;
mod protection;
mod resistance;
mod sizes;
mod working_space;

use std::sync::OnceLock;

use project::CodeEdition;

use crate::{Source, Standing};
use file::{Electrical, files};

pub use conduit::{Conduit, ConduitSort, KnockOut, knock_out};
pub use configuration::{Configuration, configuration};
pub use file::Table;
pub use fire::fire_thresholds;
pub use sizes::{Column, Size};
pub use working_space::Opposite;

/// A figure of the code, and where it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Entry<T> {
    /// The figure.
    pub value: T,
    /// Where it stands in the edition, and how far that was confirmed.
    pub source: &'static Source,
}

/// The code of one edition.
#[derive(Debug)]
pub struct Code {
    edition: CodeEdition,
    tables: &'static Electrical,
    /// Of each table its rows that were read and those from memory; none: it does not hold for this edition.
    sources: Vec<Option<[Source; 2]>>,
}

/// Stands for a table that this edition does not have; no figure has it for a source.
static ABSENT: Source =
    Source { document: "NFPA 70", edition: "", place: "not known for this edition", standing: Standing::FromMemory };

impl Code {
    /// The code of an edition.
    #[must_use]
    pub fn of(edition: CodeEdition) -> &'static Self {
        static CODES: OnceLock<[Code; 3]> = OnceLock::new();
        let [e2017, e2020, e2023] = CODES.get_or_init(|| {
            [CodeEdition::E2017, CodeEdition::E2020, CodeEdition::E2023].map(|of| Self::new(of, files()))
        });
        match edition {
            CodeEdition::E2017 => e2017,
            CodeEdition::E2020 => e2020,
            CodeEdition::E2023 => e2023,
        }
    }

    fn new(edition: CodeEdition, files: &'static file::Files) -> Self {
        let tables = &files.electrical;
        let of_table = |(places, read_in): (&'static file::Places, &'static str)| {
            let (place, year) = match edition {
                CodeEdition::E2017 => (&places.e2017, "2017"),
                CodeEdition::E2020 => (&places.e2020, "2020"),
                CodeEdition::E2023 => (&places.e2023, "2023"),
            };
            let place = place.as_deref()?;
            let document = tables.document.as_str();
            let memory = Source { document, edition: year, place, standing: Standing::FromMemory };
            let read = match read_in {
                "" => memory,
                document => Source { document, standing: Standing::Read, ..memory },
            };
            Some([read, memory])
        };
        Self { edition, tables, sources: tables.places().into_iter().map(of_table).collect() }
    }

    /// Its edition.
    #[must_use]
    pub const fn edition(&self) -> CodeEdition {
        self.edition
    }

    /// Where a table or rule stands, as if its row were from memory.
    #[must_use]
    pub fn place(&'static self, table: Table) -> &'static Source {
        self.source(table, false).unwrap_or(&ABSENT)
    }

    fn source(&'static self, table: Table, read: bool) -> Option<&'static Source> {
        let [confirmed, memory] = self.sources.get(table as usize)?.as_ref()?;
        Some(if read { confirmed } else { memory })
    }

    fn entry<T>(&'static self, table: Table, read: bool, value: T) -> Option<Entry<T>> {
        Some(Entry { value, source: self.source(table, read)? })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_table_has_its_place_in_each_edition() {
        let place = |edition, table| Code::of(edition).place(table).place;
        assert_eq!(place(CodeEdition::E2017, Table::Ampacity), "Table 310.15(B)(16)");
        assert_eq!(place(CodeEdition::E2020, Table::Ampacity), "Table 310.16");
        for edition in [CodeEdition::E2017, CodeEdition::E2020, CodeEdition::E2023] {
            for table in Table::ALL {
                assert_ne!(Code::of(edition).place(*table), &ABSENT, "{table:?} in {edition:?}");
            }
            assert_eq!(Code::of(edition).edition(), edition);
        }
    }
}
