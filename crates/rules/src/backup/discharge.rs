//! How the strings run down: voltage of the bus over hours, until they are taken off.
//!
//! ds/dt = 1 / t(I),  I = P / V,  V = a(s) − b(s) · I
//!
//! - s        share of the capacity at this temperature and age that is taken     [–]
//! - t(I)     time that the whole of it lasts at a current: by Peukert for lead and nickel, C / I for lithium    [h]
//! - I        current                                                             [A]
//! - P        power of the loads, which stays the same as the voltage falls       [W]
//! - V        voltage of the bus                                                  [V]
//! - a, b     see `formulas::cell_curve`
//!
//! Source:      formulas named; in steps of 1/200 of the capacity.
//! Valid for:   temperatures of `formulas::temperature`; lead and nickel a quarter of an hour or longer; lithium currents up
//!              to the rated capacity in an hour.
//! Agreement:   at a constant current Peukert's law itself; beside it none outside.
//! Not covered: the warmth of the battery itself, the dip in the first minutes, strings that share unevenly.

use units::Celsius;

use super::formulas::cell_curve::{Line, line};
use super::formulas::{peukert, temperature};
use super::plant::Plant;

/// Steps in which the capacity is taken.
const STEPS: u32 = 200;
/// Rounding may not cut off a discharge, V.
const ROUNDING: f64 = 1e-9;
/// No discharge is followed longer than this, h.
const LONGEST: f64 = 10_000.0;

/// A moment of a discharge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// Since the supply failed, h.
    pub hours: f64,
    /// Voltage of the bus, V.
    pub volts: f64,
    /// Current, A.
    pub amperes: f64,
    /// Share of the capacity that is taken.
    pub taken: f64,
}

/// Why a discharge ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// The share that may be used is taken.
    Used,
    /// The bus has fallen to where the strings are taken off.
    CutOff,
}

/// A discharge.
#[derive(Clone, Debug, PartialEq)]
pub struct Discharge {
    /// Its moments, the first at its start.
    pub moments: Vec<Moment>,
    /// Why it ends.
    pub ending: Ending,
}

impl Discharge {
    /// How long it lasts, h.
    #[must_use]
    pub fn hours(&self) -> f64 {
        self.moments.last().map_or(0.0, |last| last.hours)
    }

    /// Voltage of the bus at its end, V.
    #[must_use]
    pub fn end_volts(&self) -> f64 {
        self.moments.last().map_or(0.0, |last| last.volts)
    }
}

/// The discharge of a plant by all its loads at a temperature of its cells; none without a load, and out of range.
#[must_use]
pub fn discharge(plant: &Plant, cells: Celsius) -> Option<Discharge> {
    Bank::of(plant, cells)?.discharge(plant.loads.all())
}

/// A plant at one temperature: what it gives at a power once a share is taken.
#[derive(Clone, Copy, Debug)]
pub struct Bank<'p> {
    plant: &'p Plant,
    amp_hours: f64,
}

impl<'p> Bank<'p> {
    /// A plant at a temperature; none where there is no figure for it.
    #[must_use]
    pub fn of(plant: &'p Plant, cells: Celsius) -> Option<Self> {
        let share = temperature::share(plant.chemistry, cells.0)?;
        let amp_hours = plant.amp_hours * share * plant.health;
        (amp_hours > 0.0 && plant.rate_hours > 0.0).then_some(Self { plant, amp_hours })
    }

    /// Capacity at this temperature and age, Ah.
    #[must_use]
    pub const fn amp_hours(&self) -> f64 {
        self.amp_hours
    }

    /// Voltage, V, and current, A, at a power once a share is taken; none when it cannot give so much.
    #[must_use]
    pub fn under(&self, watts: f64, taken: f64) -> Option<(f64, f64)> {
        let (plant, of) = (self.plant, self.plant.figures());
        let line: Line = line(plant.chemistry, f64::from(plant.cells), of.start, of.end, taken, plant.resistance);
        let volts = line.at_power(watts)?;
        (volts > 0.0).then(|| (volts, watts / volts))
    }

    /// How long the whole capacity lasts at a current, h; none out of range.
    #[must_use]
    pub fn lasts(&self, amperes: f64) -> Option<f64> {
        match self.plant.figures().exponent {
            Some(exponent) => peukert::hours_on_safe_side(self.amp_hours, self.plant.rate_hours, amperes, exponent),
            // The share of the capacity does not depend on the current as long as that is moderate.
            None => (amperes > 0.0 && amperes <= self.plant.amp_hours).then(|| self.amp_hours / amperes),
        }
    }

    /// The discharge at a constant power, W.
    #[must_use]
    pub fn discharge(&self, watts: f64) -> Option<Discharge> {
        if !(watts > 0.0 && watts.is_finite()) {
            return None;
        }
        let step = 1.0 / f64::from(STEPS);
        let used = self.plant.figures().used;
        let mut moments = Vec::with_capacity(STEPS as usize + 1);
        let mut hours = 0.0;
        let mut taken = 0.0;
        loop {
            let Some((volts, amperes)) = self.under(watts, taken) else {
                return ends_before(moments);
            };
            // Out of range even where the strings would be taken off at once.
            let lasts = self.lasts(amperes)?;
            if volts < self.plant.cut_off - ROUNDING {
                moments.extend(moments.is_empty().then_some(Moment { hours, volts, amperes, taken }));
                return ends_before(moments);
            }
            moments.push(Moment { hours, volts, amperes, taken });
            if taken >= used || hours > LONGEST {
                return Some(Discharge { moments, ending: Ending::Used });
            }
            let next = (taken + step).min(used);
            hours += (next - taken) * lasts;
            taken = next;
        }
    }
}

/// A discharge that is cut off within a step, after its last moment; none when it could not even begin.
fn ends_before(moments: Vec<Moment>) -> Option<Discharge> {
    (!moments.is_empty()).then_some(Discharge { moments, ending: Ending::CutOff })
}

#[cfg(test)]
mod tests;
