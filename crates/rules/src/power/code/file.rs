//! The files of `assets/codes` as they are written.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use catalogue::{Plain, from_plain};
use project::Conductor;
use serde::Deserialize;

use super::Size;
use super::fire::FireCodes;

/// All files as `build.rs` has put them into one text.
const TEXT: &str = include_str!(concat!(env!("OUT_DIR"), "/codes.json"));

/// All files.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct Files {
    #[serde(rename = "nfpa-70")]
    pub(super) electrical: Electrical,
    pub(super) connectors: Connectors,
    #[serde(rename = "fire-code")]
    pub(super) fire: FireCodes,
}

/// All files, read once. A test sees that they can be read; were they not, every table would be at its end.
pub(super) fn files() -> &'static Files {
    static FILES: OnceLock<Files> = OnceLock::new();
    FILES.get_or_init(|| read().unwrap_or_default())
}

fn read() -> Option<Files> {
    let plain = serde_json::from_str::<serde_json::Value>(TEXT).map(Plain::from).ok()?;
    from_plain(&plain).ok()
}

/// Where something stands in each edition that it holds for.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct Places {
    #[serde(rename = "2017")]
    pub(super) e2017: Option<String>,
    #[serde(rename = "2020")]
    pub(super) e2020: Option<String>,
    #[serde(rename = "2023")]
    pub(super) e2023: Option<String>,
}

/// Declares the tables of the code: each has its places and what its rows were read in, besides fields of its own.
macro_rules! tables {
    ($($(#[$doc:meta])* $table:ident $name:ident { $($field:ident: $kind:ty,)* })*) => {
        $(
            $(#[$doc])*
            #[derive(Clone, Debug, Default, Deserialize)]
            #[serde(deny_unknown_fields, default)]
            pub(super) struct $table {
                pub(super) places: Places,
                pub(super) read_in: String,
                $(pub(super) $field: $kind,)*
            }
        )*

        /// The electrical code.
        #[derive(Clone, Debug, Default, Deserialize)]
        #[serde(deny_unknown_fields, default)]
        pub(super) struct Electrical {
            pub(super) document: String,
            $(pub(super) $name: $table,)*
        }

        /// A table or rule of the code.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Table {
            $($(#[$doc])* $table,)*
        }

        impl Table {
            /// All tables and rules.
            pub const ALL: &'static [Self] = &[$(Self::$table,)*];
        }

        impl Electrical {
            /// Where each table stands, and in what its rows were read.
            pub(super) fn places(&self) -> Vec<(&Places, &str)> {
                vec![$((&self.$name.places, self.$name.read_in.as_str()),)*]
            }
        }
    };
}

tables! {
    /// Ampacity of conductors.
    Ampacity ampacity { copper: Vec<Amperes>, aluminium: Vec<Amperes>, }
    /// Factors for the temperature round conductors.
    Ambient ambient { rows: Vec<AmbientRow>, }
    /// Factors for conductors that lie together.
    Bundling bundling { rows: Vec<BundlingRow>, beyond: Beyond, }
    /// Standard ratings of breakers and fuses.
    Ratings ratings { rows: Vec<RatingRow>, }
    /// Largest breaker for small conductors.
    SmallConductors small_conductors { copper: Vec<SmallRow>, aluminium: Vec<SmallRow>, }
    /// Equipment grounding conductors.
    EquipmentGround equipment_ground { copper: Vec<GroundRow>, aluminium: Vec<GroundRow>, }
    /// Grounding electrode conductors.
    ElectrodeConductor electrode_conductor { copper: Vec<ElectrodeRow>, aluminium: Vec<ElectrodeRow>, }
    /// The largest electrode conductor asked for where it leads to rods only.
    RodsOnly rods_only { size: Option<Size>, read: bool, }
    /// Resistance of conductors.
    Resistance resistance { copper: Vec<Ohms>, solid: Vec<Ohms>, aluminium: Vec<Ohms>, }
    /// Area of insulated conductors.
    InsulatedArea insulated_area { rows: Vec<SizeArea>, }
    /// Inside area of conduits.
    ConduitArea conduit { metallic_tubing: Vec<TradeArea>, rigid_metal: Vec<TradeArea>, rigid_plastic: Vec<TradeArea>, }
    /// Share of a conduit that may be filled.
    Fill fill { shares: Vec<f64>, read: bool, }
    /// Clear depth before live parts.
    WorkingSpace working_space { rows: Vec<DepthRow>, }
    /// What temperature terminals bear.
    Terminals terminals { cool_up_to: f64, read: bool, }
    /// The rule of loads that last for hours.
    Continuous continuous { factor: f64, read: bool, }
    /// Outlets that open on a fault to ground.
    GuardedOutlets guarded_outlets { volts: f64, amperes: f64, read: bool, }
    /// Fault current that equipment must withstand.
    FaultRating fault_rating { read: bool, }
    /// A second source that must not be joined with the first.
    Transfer transfer { read: bool, }
}

/// Declares rows: each says whether it was read.
macro_rules! rows {
    ($($row:ident { $($field:ident: $kind:ty,)* })*) => {$(
        #[derive(Clone, Debug, Deserialize)]
        #[serde(deny_unknown_fields)]
        pub(super) struct $row {
            $(pub(super) $field: $kind,)*
            #[serde(default)]
            pub(super) read: bool,
        }
    )*};
}

rows! {
    Amperes { size: Size, amperes: [f64; 3], }
    BundlingRow { up_to: u32, factor: f64, }
    RatingRow { amperes: Vec<f64>, }
    SmallRow { size: Size, amperes: f64, }
    GroundRow { up_to: f64, size: Size, }
    ElectrodeRow { up_to: Size, size: Size, }
    Ohms { size: Size, ohms: f64, }
    SizeArea { size: Size, area: f64, }
    TradeArea { trade: String, area: f64, }
    DepthRow { up_to: f64, depths: [f64; 3], }
}

/// Factors of the columns that go as far: all of them, or those from `from` on.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AmbientRow {
    pub(super) up_to: f64,
    pub(super) factors: Vec<f64>,
    #[serde(default)]
    pub(super) from: Option<f64>,
    #[serde(default)]
    pub(super) read: bool,
}

/// The factor beyond the last row.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct Beyond {
    pub(super) factor: Option<f64>,
    pub(super) read: bool,
}

/// The rows of a metal.
pub(super) fn of_metal<T>(metal: Conductor, copper: &'static [T], aluminium: &'static [T]) -> &'static [T] {
    match metal {
        Conductor::Copper => copper,
        Conductor::Aluminium => aluminium,
    }
}

/// What joins conduits and cords.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct Connectors {
    pub(super) knock_outs: Published<KnockOutRow>,
    pub(super) configurations: BTreeMap<String, Published<ConfigurationRow>>,
}

/// Rows of a document.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Published<T> {
    pub(super) document: String,
    pub(super) edition: String,
    pub(super) place: String,
    pub(super) rows: Vec<T>,
}

impl<T> Default for Published<T> {
    fn default() -> Self {
        Self { document: String::new(), edition: String::new(), place: String::new(), rows: Vec::new() }
    }
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct KnockOutRow {
    pub(super) trade: String,
    pub(super) diameter: f64,
    pub(super) thread: f64,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ConfigurationRow {
    pub(super) name: String,
    pub(super) volts: Vec<f64>,
    pub(super) amperes: f64,
    pub(super) poles: u32,
    pub(super) wires: u32,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_files_can_be_read() {
        let plain: Plain = serde_json::from_str::<serde_json::Value>(TEXT).unwrap().into();
        let files: Files = from_plain(&plain).unwrap();
        assert_eq!(files.electrical.ampacity.copper.len(), 18);
        assert_eq!(files.connectors.configurations.len(), 3);
    }
}
