//! Resistance of conductors.

use project::Conductor;

use super::file::{Ohms, of_metal};
use super::{Code, Entry, Size, Table};

/// Feet in a metre; the table is in ohms per 1000 ft.
const METRES_PER_FOOT: f64 = 0.3048;

impl Code {
    /// Resistance of a stranded conductor to direct current at 75 °C, Ω/km; the bare metal is uncoated.
    #[must_use]
    pub fn resistance(&'static self, size: Size, metal: Conductor) -> Option<Entry<f64>> {
        let table = &self.tables.resistance;
        self.ohms(of_metal(metal, &table.copper, &table.aluminium), size)
    }

    /// Resistance of a solid copper conductor to direct current at 75 °C, Ω/km; 8 AWG and smaller.
    #[must_use]
    pub fn solid_resistance(&'static self, size: Size) -> Option<Entry<f64>> {
        self.ohms(&self.tables.resistance.solid, size)
    }

    fn ohms(&'static self, rows: &[Ohms], size: Size) -> Option<Entry<f64>> {
        let row = rows.iter().find(|row| row.size == size)?;
        self.entry(Table::Resistance, row.read, row.ohms / METRES_PER_FOOT)
    }
}

#[cfg(test)]
mod tests {
    use project::CodeEdition;

    use super::*;

    #[test]
    fn every_row_is_near_what_the_metal_resists() {
        // ρ at 75 °C from 1.7241e-8 Ω·m and 0.00393 /K of copper, 2.83e-8 and 0.00403 of aluminium (from memory).
        let copper = 17.241 * (1.0 + 0.003_93 * 55.0);
        let aluminium = 28.3 * (1.0 + 0.004_03 * 55.0);
        let code = Code::of(CodeEdition::E2023);
        let mut compared = 0;
        for size in Size::ALL {
            let rows = [
                (code.resistance(size, Conductor::Copper), copper),
                (code.solid_resistance(size), copper),
                (code.resistance(size, Conductor::Aluminium), aluminium),
            ];
            for (entry, resistivity) in rows {
                let Some(entry) = entry else { continue };
                let by_area = resistivity / size.area();
                assert!((entry.value / by_area - 1.0).abs() < 0.035, "{}: {} {by_area}", size.name(), entry.value);
                compared += 1;
            }
        }
        assert_eq!(compared, 20 + 6 + 17);
    }

    #[test]
    fn says_nothing_past_the_end_of_the_table() {
        let code = Code::of(CodeEdition::E2023);
        assert_eq!(code.resistance(Size::Awg14, Conductor::Aluminium), None);
        assert_eq!(code.solid_resistance(Size::Awg6), None);
    }
}
