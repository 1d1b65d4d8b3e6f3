//! The strings of a build, and what draws from them.
//!
//! Cells in series make whole strings: 24 of lead, 15 or 16 of lithium, 38 of nickel; blocks of fewer are put in series until
//! they do. Strings stand in parallel on one bus and are of one kind. Where their rates differ the longest counts, which is
//! the safe side.

use catalogue::{Cells, Chemistry, Role};
use project::ItemId;

use super::figures::{END_OF_LIFE, Figures, figures};
use super::formulas::runtime;
use super::loads::Loads;
use crate::network::NodeKind;
use crate::{Case, Phrase};

/// Alike strings of one kind.
#[derive(Clone, Debug, PartialEq)]
pub struct Strings {
    /// What the cells are made of.
    pub chemistry: Chemistry,
    /// Cells of each battery in it.
    pub block: Cells,
    /// Batteries in series that make one string.
    pub in_series: u32,
    /// Whole strings.
    pub count: u32,
    /// The batteries it is made of, those left over as well.
    pub batteries: Vec<ItemId>,
}

impl Strings {
    /// Cells in series.
    #[must_use]
    pub const fn cells(&self) -> u32 {
        self.block.count * self.in_series
    }

    /// Batteries left over, which make no whole string.
    #[must_use]
    pub fn left_over(&self) -> u32 {
        self.batteries.len() as u32 - self.count * self.in_series
    }
}

/// All batteries of a build, sorted into strings.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Gathered {
    /// Kinds of strings, in the order of the build.
    pub strings: Vec<Strings>,
    /// Batteries whose cells make no string, however many are put in series.
    pub odd: Vec<ItemId>,
    /// Batteries of which nobody has said the cells or what they are made of.
    pub unsaid: Vec<ItemId>,
}

impl Gathered {
    /// Sorts what is placed.
    #[must_use]
    pub fn of(case: &Case) -> Self {
        let mut gathered = Self::default();
        for (_, node) in case.network.of_kind(NodeKind::Battery) {
            let Some(device) = node.item().and_then(|id| case.device(id)) else { continue };
            let id = device.fitted.id;
            let (Some(block), Some(chemistry)) = (device.spec.electrical.cells, device.spec.chemistry) else {
                gathered.unsaid.push(id);
                continue;
            };
            let whole = figures(chemistry).string.iter().find(|cells| block.count > 0 && *cells % block.count == 0);
            let Some(cells) = whole else {
                gathered.odd.push(id);
                continue;
            };
            let alike = |strings: &&mut Strings| strings.chemistry == chemistry && strings.block == block;
            match gathered.strings.iter_mut().find(alike) {
                Some(strings) => strings.batteries.push(id),
                None => gathered.strings.push(Strings {
                    chemistry,
                    block,
                    in_series: cells / block.count,
                    count: 0,
                    batteries: vec![id],
                }),
            }
        }
        for strings in &mut gathered.strings {
            strings.count = strings.batteries.len() as u32 / strings.in_series;
        }
        gathered
    }

    /// Whether there is no battery at all.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.strings.is_empty() && self.odd.is_empty() && self.unsaid.is_empty()
    }

    /// Energy of the cells of one chemistry, whole strings or not, when new, Wh.
    #[must_use]
    pub fn energy(&self, chemistry: Chemistry) -> f64 {
        let own = self.strings.iter().filter(|strings| strings.chemistry == chemistry);
        own.map(|strings| {
            let cells = f64::from(strings.block.count) * strings.batteries.len() as f64;
            runtime::energy(cells, figures(chemistry).nominal, strings.block.amp_hours)
        })
        .sum()
    }
}

/// Why there is no plant to reckon with.
#[derive(Clone, Debug, PartialEq)]
pub enum NoPlant {
    /// No battery is placed.
    NoBattery,
    /// Something nobody has said is missing.
    Unsaid(Phrase),
    /// What is placed makes no plant: B10 says why.
    NotWhole,
}

/// The strings of a build as one battery, and what draws from it.
#[derive(Clone, Debug, PartialEq)]
pub struct Plant {
    /// What the cells are made of.
    pub chemistry: Chemistry,
    /// Cells in series.
    pub cells: u32,
    /// Strings in parallel.
    pub strings: u32,
    /// Rated capacity of all strings at 25 °C, Ah.
    pub amp_hours: f64,
    /// Hours over which it is drawn.
    pub rate_hours: f64,
    /// Resistance of all strings in parallel, Ω.
    pub resistance: f64,
    /// Most current on charge, A.
    pub charge_limit: f64,
    /// Share of the rated capacity that age leaves; at the end of life, unless it is set otherwise.
    pub health: f64,
    /// Voltage of the bus at which the discharge ends, V: that of the low-voltage disconnect, or of the cells if higher.
    pub cut_off: f64,
    /// What draws from it.
    pub loads: Loads,
}

impl Plant {
    /// The plant of a case.
    ///
    /// # Errors
    /// Why there is none.
    pub fn of(case: &Case) -> Result<Self, NoPlant> {
        Self::of_gathered(case, &Gathered::of(case))
    }

    /// The same from batteries that are sorted already.
    ///
    /// # Errors
    /// Why there is none.
    pub fn of_gathered(case: &Case, gathered: &Gathered) -> Result<Self, NoPlant> {
        if gathered.is_empty() {
            return Err(NoPlant::NoBattery);
        }
        if let Some(unsaid) = gathered.unsaid.first() {
            return Err(NoPlant::Unsaid(unsaid_of(case, *unsaid)));
        }
        let whole: Vec<&Strings> = gathered.strings.iter().filter(|strings| strings.count > 0).collect();
        let Some(first) = whole.first() else { return Err(NoPlant::NotWhole) };
        let alike = |strings: &&Strings| strings.chemistry == first.chemistry && strings.cells() == first.cells();
        if !whole.iter().all(alike) {
            return Err(NoPlant::NotWhole);
        }
        let of = figures(first.chemistry);
        let mut plant = Self {
            chemistry: first.chemistry,
            cells: first.cells(),
            strings: 0,
            amp_hours: 0.0,
            rate_hours: 0.0,
            resistance: 0.0,
            charge_limit: 0.0,
            health: END_OF_LIFE,
            cut_off: cut_off(case).max(f64::from(first.cells()) * of.end),
            loads: Loads::of(case),
        };
        let mut conductance = 0.0;
        for strings in whole {
            let (count, block) = (f64::from(strings.count), strings.block);
            plant.strings += strings.count;
            plant.amp_hours += count * block.amp_hours;
            plant.rate_hours = plant.rate_hours.max(block.rate_hours);
            plant.charge_limit += count * block.amp_hours * block.charge_limit.unwrap_or(of.charge_limit);
            conductance += count / string_resistance(strings, of);
        }
        plant.resistance = 1.0 / conductance;
        Ok(plant)
    }

    /// Figures of its cells.
    #[must_use]
    pub const fn figures(&self) -> &'static Figures {
        figures(self.chemistry)
    }

    /// Voltage of the bus with so many volts on each cell, V.
    #[must_use]
    pub fn volts(&self, of_cell: f64) -> f64 {
        super::formulas::string::volts(f64::from(self.cells), of_cell)
    }

    /// Energy when new at 25 °C, Wh.
    #[must_use]
    pub fn energy(&self) -> f64 {
        runtime::energy(f64::from(self.cells), self.figures().nominal, self.amp_hours)
    }
}

/// What is missing of a battery.
pub(super) fn unsaid_of(case: &Case, id: ItemId) -> Phrase {
    let Some(device) = case.device(id) else { return "a battery".into() };
    let what = if device.spec.chemistry.is_none() { "what the cells are made of: " } else { "cells and capacity of " };
    Phrase::from(what).then(case.name(device))
}

/// Resistance of one string, Ω.
fn string_resistance(strings: &Strings, of: &Figures) -> f64 {
    let usual = f64::from(strings.block.count) * of.resistance / strings.block.amp_hours;
    let said = strings.block.resistance.map(|milliohms| milliohms / 1000.0);
    f64::from(strings.in_series) * said.unwrap_or(usual)
}

/// Voltage at which the strings are taken off, V; 0 without a low-voltage disconnect.
fn cut_off(case: &Case) -> f64 {
    let opens = |id: ItemId| match case.device(id)?.spec.electrical.role {
        Some(Role::LowVoltageDisconnect { opens, .. }) => Some(opens.0),
        _ => None,
    };
    case.network.of_kind(NodeKind::CutOut).filter_map(|(_, node)| opens(node.item()?)).fold(0.0, f64::max)
}
