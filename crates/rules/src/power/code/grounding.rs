//! Grounding conductors.

use project::Conductor;

use super::file::of_metal;
use super::{Code, Entry, Size, Table};

impl Code {
    /// Least equipment grounding conductor behind a breaker of so many amperes.
    #[must_use]
    pub fn equipment_ground(&'static self, breaker: f64, metal: Conductor) -> Option<Entry<Size>> {
        let table = &self.tables.equipment_ground;
        let row = of_metal(metal, &table.copper, &table.aluminium).iter().find(|row| breaker <= row.up_to)?;
        self.entry(Table::EquipmentGround, row.read, row.size)
    }

    /// Least grounding electrode conductor, of copper, for the largest service conductor of a metal.
    #[must_use]
    pub fn electrode_conductor(&'static self, service: Size, metal: Conductor) -> Option<Entry<Size>> {
        let table = &self.tables.electrode_conductor;
        let row = of_metal(metal, &table.copper, &table.aluminium).iter().find(|row| service <= row.up_to)?;
        self.entry(Table::ElectrodeConductor, row.read, row.size)
    }

    /// The largest copper ever asked for where the electrode conductor leads to rods, pipes or plates only.
    #[must_use]
    pub fn rods_only(&'static self) -> Option<Entry<Size>> {
        let table = &self.tables.rods_only;
        self.entry(Table::RodsOnly, table.read, table.size?)
    }
}

#[cfg(test)]
mod tests {
    use project::CodeEdition;

    use super::*;
    use Conductor::{Aluminium, Copper};

    fn code() -> &'static Code {
        Code::of(CodeEdition::E2017)
    }

    #[track_caller]
    fn check(found: Option<Entry<Size>>, expected: Option<&str>) {
        assert_eq!(found.map(|entry| entry.value.name()), expected);
    }

    #[test]
    fn the_breaker_sets_the_equipment_ground() {
        check(code().equipment_ground(15.0, Copper), Some("14 AWG"));
        check(code().equipment_ground(15.1, Copper), Some("12 AWG"));
        check(code().equipment_ground(60.1, Copper), Some("8 AWG"));
        check(code().equipment_ground(100.0, Aluminium), Some("6 AWG"));
        check(code().equipment_ground(1200.0, Copper), Some("3/0 AWG"));
        check(code().equipment_ground(1200.1, Copper), None);
        check(code().equipment_ground(f64::NAN, Copper), None);
    }

    #[test]
    fn the_service_sets_the_electrode_conductor() {
        check(code().electrode_conductor(Size::Awg2, Copper), Some("8 AWG"));
        check(code().electrode_conductor(Size::Awg1, Copper), Some("6 AWG"));
        check(code().electrode_conductor(Size::Kcmil250, Copper), Some("2 AWG"));
        check(code().electrode_conductor(Size::Awg1Zero, Aluminium), Some("8 AWG"));
        check(code().electrode_conductor(Size::Awg2Zeros, Aluminium), Some("6 AWG"));
        check(code().electrode_conductor(Size::Kcmil500, Aluminium), Some("2 AWG"));
        check(code().rods_only(), Some("6 AWG"));
    }
}
