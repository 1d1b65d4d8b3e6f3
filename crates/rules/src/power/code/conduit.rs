//! Conduits, what fills them, and their knock-outs.

use std::sync::OnceLock;

use super::file::{TradeArea, files};
use super::{Code, Entry, Size, Table};
use crate::{Source, Standing};

/// One square inch, mm².
const SQUARE_INCH: f64 = 25.4 * 25.4;
/// One inch, mm.
const INCH: f64 = 25.4;

/// A sort of conduit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ConduitSort {
    /// Electrical metallic tubing, EMT.
    MetallicTubing,
    /// Rigid metal conduit, RMC.
    RigidMetal,
    /// Rigid plastic conduit of schedule 40, PVC.
    RigidPlastic,
}

/// A conduit of one trade size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conduit {
    /// Trade size in inches: "1 1/4".
    pub trade: &'static str,
    /// Its whole inside area, mm².
    pub area: f64,
}

impl Code {
    fn conduits(&self, sort: ConduitSort) -> &'static [TradeArea] {
        let table = &self.tables.conduit;
        match sort {
            ConduitSort::MetallicTubing => &table.metallic_tubing,
            ConduitSort::RigidMetal => &table.rigid_metal,
            ConduitSort::RigidPlastic => &table.rigid_plastic,
        }
    }

    fn conduit_of(&'static self, row: &'static TradeArea) -> Option<Entry<Conduit>> {
        let conduit = Conduit { trade: &row.trade, area: row.area * SQUARE_INCH };
        self.entry(Table::ConduitArea, row.read, conduit)
    }

    /// The conduit of a trade size.
    #[must_use]
    pub fn conduit(&'static self, sort: ConduitSort, trade: &str) -> Option<Entry<Conduit>> {
        self.conduit_of(self.conduits(sort).iter().find(|row| row.trade == trade)?)
    }

    /// Share of a conduit that so many conductors may fill, 0…1; none of no conductors.
    #[must_use]
    pub fn fill_share(&'static self, conductors: u32) -> Option<Entry<f64>> {
        let table = &self.tables.fill;
        let last = table.shares.len().checked_sub(1)?;
        let share = table.shares.get((conductors.checked_sub(1)? as usize).min(last))?;
        self.entry(Table::Fill, table.read, *share)
    }

    /// The smallest conduit in which so many conductors of this area together, mm², fill no more than they may.
    #[must_use]
    pub fn conduit_for(&'static self, sort: ConduitSort, area: f64, conductors: u32) -> Option<Entry<Conduit>> {
        let share = self.fill_share(conductors)?.value;
        let row = self.conduits(sort).iter().find(|row| area <= row.area * SQUARE_INCH * share)?;
        self.conduit_of(row)
    }

    /// Area of a conductor of type THWN with its insulation, mm².
    #[must_use]
    pub fn insulated_area(&'static self, size: Size) -> Option<Entry<f64>> {
        let row = self.tables.insulated_area.rows.iter().find(|row| row.size == size)?;
        self.entry(Table::InsulatedArea, row.read, row.area * SQUARE_INCH)
    }
}

/// A knock-out for the fitting of a conduit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KnockOut {
    /// Diameter, mm.
    pub diameter: f64,
    /// Outside diameter of the fitting's thread, which the hole must let through, mm.
    pub thread: f64,
}

/// The knock-out of a trade size, whatever the edition of the code.
#[must_use]
pub fn knock_out(trade: &str) -> Option<Entry<KnockOut>> {
    static SOURCE: OnceLock<Source> = OnceLock::new();
    let table = &files().connectors.knock_outs;
    let row = table.rows.iter().find(|row| row.trade == trade)?;
    let source = SOURCE.get_or_init(|| Source {
        document: &table.document,
        edition: &table.edition,
        place: &table.place,
        standing: Standing::FromMemory,
    });
    Some(Entry { value: KnockOut { diameter: row.diameter * INCH, thread: row.thread * INCH }, source })
}

#[cfg(test)]
mod tests {
    use project::CodeEdition;

    use super::*;

    fn code() -> &'static Code {
        Code::of(CodeEdition::E2023)
    }

    #[track_caller]
    fn check(area: f64, conductors: u32, trade: Option<&str>) {
        let found = code().conduit_for(ConduitSort::MetallicTubing, area * SQUARE_INCH, conductors);
        assert_eq!(found.map(|entry| entry.value.trade), trade);
    }

    #[test]
    fn the_smallest_conduit_that_is_not_too_full_is_taken() {
        check(0.304 * 0.40, 3, Some("1/2"));
        check(0.304 * 0.40 + 1e-4, 3, Some("3/4"));
        check(0.304 * 0.40, 2, Some("3/4"));
        check(0.304 * 0.53, 1, Some("1/2"));
        check(14.753 * 0.40 + 1e-4, 9, None);
        check(0.1, 0, None);
        check(f64::NAN, 3, None);
    }

    #[test]
    fn larger_trade_sizes_have_more_area_and_larger_knock_outs() {
        for sort in [ConduitSort::MetallicTubing, ConduitSort::RigidMetal, ConduitSort::RigidPlastic] {
            let rows = code().conduits(sort);
            assert!(rows.len() == 10 && rows.is_sorted_by(|one, other| one.area < other.area));
            let knock_outs: Vec<_> =
                rows.iter().filter_map(|row| Some(knock_out(&row.trade)?.value.diameter)).collect();
            assert!(knock_outs.len() == 10 && knock_outs.is_sorted_by(|one, other| one < other));
        }
        assert_eq!(knock_out("5"), None);
        let areas: Vec<f64> = Size::ALL.iter().filter_map(|size| Some(code().insulated_area(*size)?.value)).collect();
        assert!(areas.len() == 18 && areas.is_sorted_by(|one, other| one < other));
    }
}
