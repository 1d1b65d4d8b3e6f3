//! A day that repeats itself: run again and again until it starts as it ends.

use super::core::Core;
use super::runner::{Kind, Runner, either};
use super::{Fault, Surroundings};

/// How near the start of a day comes to its end before it counts as settled, K.
pub const SETTLED: f64 = 1e-4;

/// How a day has settled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settled {
    /// Days run.
    pub days: u32,
    /// Largest difference of any air or mass between start and end of the last day, K. Rooms whose units switch may never
    /// come below [`SETTLED`], as the switching falls differently each day.
    pub difference: f64,
}

impl Settled {
    /// Whether the last day ended as it began.
    #[must_use]
    pub fn repeats(&self) -> bool {
        self.difference <= SETTLED
    }
}

impl Runner {
    /// Repeats the surroundings, a day or another period, until it ends as it began, `most_days` times at most. The last of
    /// them is what [`Runner::run`] then holds. Slow masses are helped on: when a difference shrinks in the same proportion
    /// from day to day, its sum is known.
    ///
    /// # Errors
    /// Why it cannot go on.
    pub fn settle<S: Surroundings + ?Sized>(&mut self, day: &S, most_days: u32) -> Result<Settled, Fault> {
        either!(&mut self.0, core => core.settle(day, most_days))
    }
}

impl<const N: usize> Core<N> {
    fn settle<S: Surroundings + ?Sized>(&mut self, day: &S, most_days: u32) -> Result<Settled, Fault> {
        let mut settled = Settled { days: 0, difference: f64::INFINITY };
        let mut before: Option<[f64; N]> = None;
        while settled.days < most_days && !settled.repeats() {
            self.begin_again();
            let start = *self.temperature();
            self.advance(day, day.steps())?;
            settled.days += 1;
            let mut change = *self.temperature();
            for (change, start) in change.iter_mut().zip(start) {
                *change -= start;
            }
            settled.difference = change.iter().fold(0.0, |most, change| most.max(change.abs()));
            if settled.repeats() || settled.days == most_days {
                break;
            }
            before = if let Some(before) = before { self.help_on(&before, &change) } else { Some(change) };
        }
        Ok(settled)
    }

    /// Adds what is still to come when each node's change shrinks by the same share q from day to day: d·(q + q² + …).
    fn help_on(&mut self, before: &[f64; N], change: &[f64; N]) -> Option<[f64; N]> {
        let mut shares = before.iter().zip(change).map(|(before, change)| change / before);
        if !shares.all(|share| share > 0.05 && share < 0.98) {
            return Some(*change);
        }
        let mut moved = *self.temperature();
        for ((node, before), change) in moved.iter_mut().zip(before).zip(change) {
            let share = change / before;
            *node += change * share / (1.0 - share);
        }
        if moved.iter().all(|node| super::MEANINGFUL_AIR.contains(node)) {
            self.put(moved);
        }
        None
    }
}
