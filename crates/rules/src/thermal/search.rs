//! The search for the end of a stretch: the first moment a room's air leaves its band.

use super::curve::{Band, Curve, Point, Turns};
use super::modes::Gone;

/// What is searched.
pub struct Search<'c, 'm, const N: usize> {
    /// The air of each room.
    pub curves: &'c [Curve<'m, N>],
    /// The band of each.
    pub bands: &'c [Band],
}

/// An event that is expected.
#[derive(Clone, Copy, Debug)]
pub struct Expected {
    /// Room.
    pub room: usize,
    /// Whether it leaves its band upward.
    pub up: bool,
    /// When, by Halley's step from the start, s.
    pub wait: f64,
    /// When, by that and by how far it was off the last time, s.
    pub guess: f64,
}

/// How far the modes have gone at the end of a stretch, and the event there: room, and whether upward.
type End<const N: usize> = (Gone<N>, Option<(usize, bool)>);

impl<const N: usize> Search<'_, '_, N> {
    /// The expected event, or the end of the stretch when none is expected before; `None` when it is not as expected, or
    /// something came before it.
    pub fn at(&self, expected: &Expected, first: &[Point; 2], most: f64, seen: &mut [Band]) -> Option<End<N>> {
        let sight = self.sight(0.0);
        let Expected { room, up, guess, .. } = *expected;
        let (gone, event) = if guess < most.min(sight) {
            let limit = self.bands[room].end(up);
            (self.curves[room].meets(limit, &first[room], guess, most.min(sight))?, Some((room, up)))
        } else if most <= sight {
            (self.curves.first()?.modes.gone(most), None)
        } else {
            return None;
        };
        let quiet = |other: usize| event.is_none_or(|(room, _)| other != room);
        let ends = [0, N / 2 - 1].map(|room| self.curves[room].point(&gone));
        for (other, curve) in self.curves.iter().enumerate() {
            if quiet(other) && curve.may_leave(self.bands[other], &first[other], &ends[other]) {
                return None;
            }
        }
        for (other, curve) in self.curves.iter().enumerate() {
            if quiet(other) {
                curve.turns(&first[other], &ends[other], seen[other]).widen(&mut seen[other], gone.seconds);
                seen[other].take(ends[other].value);
            } else {
                seen[other].take(self.bands[other].end(up));
            }
        }
        Some((gone, event))
    }

    /// How far all rooms may be looked at from here, s.
    fn sight(&self, from: f64) -> f64 {
        self.curves.iter().map(|curve| curve.sight(from)).fold(f64::INFINITY, f64::min)
    }

    /// The first event, step by step toward the end of the stretch; that end when there is none.
    pub fn through(&self, first: &[Point; 2], most: f64, seen: &mut [Band]) -> End<N> {
        let mut from = *first;
        let mut turns = [Turns::default(); 2];
        let mut gone = Gone::START;
        let mut event = None;
        while event.is_none() && gone.seconds < most {
            let waits = from.iter().zip(self.bands).map(|(point, band)| point.leaving(*band).0);
            let reach = gone.seconds + waits.fold(f64::INFINITY, f64::min);
            let end = most.min(self.sight(gone.seconds));
            let reach = if reach < end && reach > gone.seconds { reach } else { end };
            let Some(curve) = self.curves.first() else { break };
            gone = curve.modes.onward(&gone, reach);
            for (room, curve) in self.curves.iter().enumerate() {
                let last = curve.point(&gone);
                turns[room] = curve.turns(&from[room], &last, self.bands[room].within(seen[room]));
                if let Some((left, up)) = curve.leaves(self.bands[room], &from[room], &last, &turns[room]) {
                    event = Some((room, up));
                    gone = left;
                }
            }
            for (room, curve) in self.curves.iter().enumerate() {
                from[room] = curve.point(&gone);
                turns[room].widen(&mut seen[room], gone.seconds);
                seen[room].take(from[room].value);
            }
        }
        (gone, event)
    }
}
