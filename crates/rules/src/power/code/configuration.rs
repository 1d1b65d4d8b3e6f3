//! Published configurations of contacts of cords and inlets.

use std::sync::OnceLock;

use super::Entry;
use super::file::files;
use crate::{Source, Standing};

/// A configuration of contacts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Configuration {
    /// Its name: "L14-30".
    pub name: &'static str,
    /// Rated voltages, V: to neutral first, then between phases where there are several.
    pub volts: &'static [f64],
    /// Rated current, A.
    pub amperes: f64,
    /// Live and neutral contacts.
    pub poles: u32,
    /// Contacts with that of the ground.
    pub wires: u32,
}

/// The published configuration of this name; upper and lower case are the same.
#[must_use]
pub fn configuration(name: &str) -> Option<Entry<Configuration>> {
    static ALL: OnceLock<Vec<(Source, Vec<Configuration>)>> = OnceLock::new();
    let all = ALL.get_or_init(|| {
        let tables = files().connectors.configurations.values();
        let of_table = tables.map(|table| {
            let (document, edition, place) = (table.document.as_str(), table.edition.as_str(), table.place.as_str());
            let rows = table.rows.iter().map(|row| Configuration {
                name: &row.name,
                volts: &row.volts,
                amperes: row.amperes,
                poles: row.poles,
                wires: row.wires,
            });
            (Source { document, edition, place, standing: Standing::FromMemory }, rows.collect())
        });
        of_table.collect()
    });
    all.iter().find_map(|(source, rows)| {
        let value = *rows.iter().find(|row| row.name.eq_ignore_ascii_case(name.trim()))?;
        Some(Entry { value, source })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_configuration_is_found_by_its_name() {
        let found = configuration(" l14-30 ").map(|entry| (entry.value.name, entry.value.amperes, entry.value.wires));
        assert_eq!(found, Some(("L14-30", 30.0, 4)));
        assert_eq!(configuration("L99"), None);
    }
}
