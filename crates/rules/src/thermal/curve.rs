//! The air of one room within a stretch: where it turns, and when it first leaves a band.
//!
//! T(s) = T₀ + Σ wᵢ·φ₁(λᵢ, s), hence T' = Σ wᵢ·e^(−λᵢ s) and T'' = −Σ λᵢ·wᵢ·e^(−λᵢ s).

use super::modes::{Gone, Modes};

/// How near a root's value comes, K: far below what anybody reads, and below [`super::drive::KINK`].
const NEAR: f64 = 2e-10;
/// How far the value at a turn may be off, K: nothing that shows.
const FLAT: f64 = 2e-6;
/// Steps of a quick search before it is left to the safeguarded one.
const QUICK_TRIES: u32 = 6;
/// Steps of a safeguarded Newton search; halving alone would need about 60.
const MOST_TRIES: u32 = 80;

/// The air of one room from the start of a stretch.
pub struct Curve<'m, const N: usize> {
    /// The modes it is made of.
    pub modes: &'m Modes<N>,
    /// Air at the start, °C.
    pub start: f64,
    /// The share of each mode in the slope at the start, K/s.
    pub weight: [f64; N],
    /// Whether the weights change sign once at most from slow to fast. Then so does the slope (Descartes' rule holds for sums
    /// of exponentials too), and its signs at two points tell all about its zeros between them.
    pub plain: bool,
}

/// A weight below this moves the air by less than 1e−5 K in an hour, K/s.
const NO_WEIGHT: f64 = 2e-9;
/// While |λs| of the fastest mode is below this, a slope that is not plain is looked at as if it were: its other zeros
/// would have to lie closer together than modes of such rates can bring about by anything that shows.
const CLOSE: f64 = 2.5;
/// How many times further each next look goes where a slope is not plain.
const FURTHER: f64 = 4.0;

/// Value, slope and bend of the air at a moment.
#[derive(Clone, Copy, Debug, Default)]
pub struct Point {
    /// Seconds from the start of the stretch.
    pub at: f64,
    /// °C.
    pub value: f64,
    /// K/s.
    pub slope: f64,
    /// K/s².
    pub bend: f64,
}

/// Turning points in order: as many as matter, two at most.
#[derive(Clone, Copy, Debug, Default)]
pub struct Turns {
    /// How many of the two count.
    count: usize,
    /// Each of them.
    points: [Point; 2],
}

/// A band of temperatures: that in which nothing happens, or that which has been seen, °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

impl Band {
    /// No limits.
    pub const OPEN: Self = Self { low: f64::NEG_INFINITY, high: f64::INFINITY };

    /// What lies in both.
    pub const fn within(self, other: Self) -> Self {
        Self { low: self.low.max(other.low), high: self.high.min(other.high) }
    }

    /// Widens it to hold a value.
    pub const fn take(&mut self, value: f64) {
        self.low = self.low.min(value);
        self.high = self.high.max(value);
    }

    /// Whether a value has come to an end of it.
    pub fn is_left(self, value: f64) -> bool {
        value > self.high - NEAR || value < self.low + NEAR
    }

    /// Its upper or its lower end.
    pub const fn end(self, upper: bool) -> f64 {
        if upper { self.high } else { self.low }
    }

    fn holds(self, value: f64) -> bool {
        value >= self.low && value <= self.high
    }
}

/// What a root is sought of.
#[derive(Clone, Copy)]
enum Of {
    /// T(s) less this value.
    Value(f64),
    /// T'(s).
    Slope,
    /// T''(s): by its sign only.
    Bend,
}

impl<'m, const N: usize> Curve<'m, N> {
    /// The curve where the modes have gone so far.
    pub fn point(&self, gone: &Gone<N>) -> Point {
        let mut point = Point { at: gone.seconds, value: self.start, slope: 0.0, bend: 0.0 };
        for mode in 0..N {
            let slope = self.weight[mode] * gone.left[mode];
            point.value += self.weight[mode] * gone.once[mode];
            point.slope += slope;
            point.bend -= self.modes.rate[mode] * slope;
        }
        point
    }

    /// The air from a start on, °C, that has these weights, K/s.
    pub fn new(modes: &'m Modes<N>, start: f64, weight: [f64; N]) -> Self {
        // Two weights change sign once at most.
        let plain = N == 2 || {
            let mut changes = 0;
            let mut last = 0.0;
            for weight in weight {
                if weight.abs() > NO_WEIGHT {
                    changes += u32::from(weight * last < 0.0);
                    last = weight;
                }
            }
            changes < 2
        };
        Self { modes, start, weight, plain }
    }

    /// How far from here, s, the turns may be told by looking at the ends only.
    pub fn sight(&self, from: f64) -> f64 {
        if N == 2 || self.plain { f64::INFINITY } else { (FURTHER * from).max(CLOSE / self.modes.fastest) }
    }

    /// The start of the curve.
    pub fn first(&self) -> Point {
        let mut point = Point { at: 0.0, value: self.start, slope: 0.0, bend: 0.0 };
        for mode in 0..N {
            point.slope += self.weight[mode];
            point.bend -= self.modes.rate[mode] * self.weight[mode];
        }
        point
    }

    /// Where the air turns between two points, as far as it there leaves what has been `seen`. A sum of N exponentials has
    /// fewer than N zeros; with one room a slope of equal sign at both ends has none between, with two rooms it may have
    /// two, where the bend changes sign.
    pub fn turns(&self, first: &Point, last: &Point, seen: Band) -> Turns {
        let mut turns = Turns::default();
        if first.slope * last.slope < 0.0 {
            if first.bend * last.bend <= 0.0 || !seen.holds(first.tangents_meet(last)) {
                turns.add(self.root(Of::Slope, first, last).0);
            }
        } else if first.may_flatten(last, N) {
            let (flattest, _) = self.root(Of::Bend, first, last);
            if flattest.slope * first.slope < 0.0 {
                turns.add(self.root(Of::Slope, first, &flattest).0);
                turns.add(self.root(Of::Slope, &flattest, last).0);
            }
        }
        turns
    }

    /// How far the modes have gone when the air first leaves the band between two points, and whether upward; the turns are
    /// those between them.
    pub fn leaves(&self, band: Band, first: &Point, last: &Point, turns: &Turns) -> Option<(Gone<N>, bool)> {
        let mut from = first;
        for to in turns.points[..turns.count].iter().chain([last]) {
            if to.value > band.high - NEAR && to.slope >= 0.0 || to.value > band.high {
                return Some((self.root(Of::Value(band.high), from, to).1, true));
            }
            if to.value < band.low + NEAR && to.slope <= 0.0 || to.value < band.low {
                return Some((self.root(Of::Value(band.low), from, to).1, false));
            }
            from = to;
        }
        None
    }

    /// When the air meets a limit it moves toward all the time, sought from a guess on, s; `None` when that cannot be told
    /// soon.
    pub fn meets(&self, limit: f64, first: &Point, guess: f64, most: f64) -> Option<Gone<N>> {
        let mut gone = self.modes.gone(guess);
        for _ in 0..QUICK_TRIES {
            let point = self.point(&gone);
            if point.slope * first.slope <= 0.0 || first.may_flatten(&point, N) {
                return None;
            }
            if (point.value - limit).abs() < NEAR {
                return Some(gone);
            }
            let next = point.at + point.until(limit);
            if !(next > 0.0 && next < most) {
                return None;
            }
            gone = self.modes.onward(&gone, next);
        }
        None
    }

    /// Whether the air may leave a band between two points.
    pub fn may_leave(&self, band: Band, first: &Point, last: &Point) -> bool {
        let turns_out = if first.slope * last.slope < 0.0 {
            first.bend * last.bend <= 0.0 || !band.holds(first.tangents_meet(last))
        } else {
            first.may_flatten(last, N)
        };
        turns_out || !band.holds(last.value)
    }

    /// A root between two points of opposite sign: Halley's step where it stays between them, else halving.
    fn root(&self, of: Of, first: &Point, last: &Point) -> (Point, Gone<N>) {
        let measure = |point: &Point| match of {
            Of::Value(limit) => point.value - limit,
            Of::Slope => point.slope,
            Of::Bend => point.bend,
        };
        let rising = measure(last) > 0.0;
        let mut point = *last;
        let mut gone = if let Of::Value(_) = of { self.modes.gone(point.at) } else { Gone::START };
        if let Of::Value(limit) = of
            && (last.value - limit).abs() < NEAR
        {
            return (point, gone);
        }
        if (measure(first) > 0.0) == rising {
            return (*first, self.modes.gone(first.at));
        }
        let (mut low, mut high) = (first.at, last.at);
        for tries in 0..MOST_TRIES {
            let mut guess = match of {
                Of::Value(limit) => point.at + point.until(limit),
                Of::Slope if tries == 0 => low + (high - low) * first.slope / (first.slope - last.slope),
                Of::Slope => point.at - point.slope / point.bend,
                Of::Bend => f64::NAN,
            };
            if !(guess > low && guess < high) {
                guess = 0.5 * (low + high);
            }
            gone = self.modes.onward(&gone, guess);
            point = self.point(&gone);
            let value = measure(&point);
            if (value > 0.0) == rising {
                high = guess;
            } else {
                low = guess;
            }
            let near = match of {
                Of::Value(_) => value.abs() < NEAR,
                // Beyond a point the value still changes by T'²/2T''.
                Of::Slope => value * value < 2.0 * FLAT * point.bend.abs(),
                Of::Bend => high - low < 0.02 * (last.at - first.at),
            };
            if near || high - low <= 1e-12 * last.at {
                break;
            }
        }
        (point, gone)
    }
}

impl Point {
    /// Seconds to where the value meets a limit by Halley's step: −2ff'/(2f'² − ff'').
    fn until(&self, limit: f64) -> f64 {
        let value = self.value - limit;
        -2.0 * value * self.slope / (2.0 * self.slope * self.slope - value * self.bend)
    }

    /// Seconds to about where the air leaves a band it is within, and whether upward; infinite when it bends away.
    pub fn leaving(&self, band: Band) -> (f64, bool) {
        let up = self.slope > 0.0;
        let wait = self.until(band.end(up));
        (if wait > 0.0 { wait } else { f64::INFINITY }, up)
    }

    /// Whether a slope of equal sign at both points may vanish between them.
    fn may_flatten(&self, last: &Self, modes: usize) -> bool {
        modes > 2 && self.slope * self.bend < 0.0 && self.bend * last.bend < 0.0
    }

    /// The value where the tangents of two points meet: the air between them does not go beyond when it bends one way.
    fn tangents_meet(&self, other: &Self) -> f64 {
        let apart = other.at - self.at;
        let along = (other.value - self.value - other.slope * apart) / (self.slope - other.slope);
        self.value + self.slope * along
    }
}

impl Turns {
    fn add(&mut self, point: Point) {
        self.points[self.count] = point;
        self.count += 1;
    }

    /// Widens what has been seen by the turns before a moment.
    pub fn widen(&self, seen: &mut Band, before: f64) {
        for point in self.points[..self.count].iter().filter(|point| point.at < before) {
            seen.take(point.value);
        }
    }
}
