//! The air of one room within a stretch: where it turns, and when it first leaves a band.
//!
//! T(s) = T₀ + Σ wᵢ·φ₁(λᵢ, s), hence T' = Σ wᵢ·e^(−λᵢ s) and T'' = −Σ λᵢ·wᵢ·e^(−λᵢ s).

use super::modes::{Gone, Modes};

/// How near a root's value comes, K: far below what anybody reads, and below [`super::drive::KINK`].
const NEAR: f64 = 2e-10;
/// Slopes below this are flat, K/s: a turn found as closely is off by nothing that shows.
const FLAT: f64 = 1e-10;
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
}

/// Value, slope and bend of the air at a moment.
#[derive(Clone, Copy, Debug)]
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

/// Turning points in order: two at most.
#[derive(Clone, Copy, Debug, Default)]
pub struct Turns {
    /// How many of the two count.
    pub count: usize,
    /// Seconds and °C of each.
    pub points: [(f64, f64); 2],
}

/// The band the air may move in without anything happening, °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Below this something happens.
    pub low: f64,
    /// Above this something happens.
    pub high: f64,
}

impl Band {
    /// No limits.
    pub const OPEN: Self = Self { low: f64::NEG_INFINITY, high: f64::INFINITY };
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

impl<const N: usize> Curve<'_, N> {
    /// The curve where the modes have gone so far.
    pub fn point(&self, at: f64, gone: &Gone<N>) -> Point {
        let mut point = Point { at, value: self.start, slope: 0.0, bend: 0.0 };
        for mode in 0..N {
            let slope = self.weight[mode] * gone.left[mode];
            point.value += self.weight[mode] * gone.once[mode];
            point.slope += slope;
            point.bend -= self.modes.rate[mode] * slope;
        }
        point
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

    fn at(&self, seconds: f64) -> Point {
        self.point(seconds, &self.modes.gone(seconds))
    }

    /// Where the air turns between two points. A sum of N exponentials has fewer than N zeros; with one room a slope of equal
    /// sign at both ends has none between, with two rooms it may have two, where the bend changes sign.
    pub fn turns(&self, first: &Point, last: &Point) -> Turns {
        let mut turns = Turns::default();
        if first.slope * last.slope < 0.0 {
            turns.add(self.root(Of::Slope, first, last));
        } else if N > 2 && first.slope * first.bend < 0.0 && first.bend * last.bend < 0.0 {
            let flattest = self.root(Of::Bend, first, last);
            if flattest.slope * first.slope < 0.0 {
                turns.add(self.root(Of::Slope, first, &flattest));
                turns.add(self.root(Of::Slope, &flattest, last));
            }
        }
        turns
    }

    /// When the air first leaves the band, and whether upward; the turns are those of the whole stretch up to `last`.
    pub fn leaves(&self, band: Band, first: &Point, last: &Point, turns: &Turns) -> Option<(Point, bool)> {
        let mut from = *first;
        for knot in 0..=turns.count {
            let to = if knot < turns.count { self.at(turns.points[knot].0) } else { *last };
            if to.value > band.high {
                return Some((self.root(Of::Value(band.high), &from, &to), true));
            }
            if to.value < band.low {
                return Some((self.root(Of::Value(band.low), &from, &to), false));
            }
            from = to;
        }
        None
    }

    /// A root between two points of opposite sign: Halley's step where it stays between them, else halving.
    fn root(&self, of: Of, first: &Point, last: &Point) -> Point {
        let measure = |point: &Point| match of {
            Of::Value(limit) => point.value - limit,
            Of::Slope => point.slope,
            Of::Bend => point.bend,
        };
        let rising = measure(last) > 0.0;
        if (measure(first) > 0.0) == rising {
            return *first;
        }
        let (mut low, mut high) = (first.at, last.at);
        let mut guess = self.guess(of, first, last);
        let mut point = *first;
        for _ in 0..MOST_TRIES {
            if !(guess > low && guess < high) {
                guess = 0.5 * (low + high);
            }
            point = self.at(guess);
            let value = measure(&point);
            if (value > 0.0) == rising {
                high = guess;
            } else {
                low = guess;
            }
            let near = match of {
                Of::Value(_) => value.abs() < NEAR,
                Of::Slope => value.abs() < FLAT,
                Of::Bend => high - low < 0.02 * (last.at - first.at),
            };
            if near || high - low <= 1e-12 * last.at {
                break;
            }
            guess = match of {
                // s ← s − 2ff'/(2f'² − ff'')
                Of::Value(_) => {
                    guess - 2.0 * value * point.slope / (2.0 * point.slope * point.slope - value * point.bend)
                }
                Of::Slope => guess - value / point.bend,
                Of::Bend => f64::NAN,
            };
        }
        point
    }

    /// Where to look first: the parabola through the start for a value, a straight line for a slope, the middle else.
    fn guess(&self, of: Of, first: &Point, last: &Point) -> f64 {
        match of {
            Of::Value(limit) => {
                let missing = limit - first.value;
                let inner = first.slope * first.slope + 2.0 * first.bend * missing;
                first.at + 2.0 * missing / (first.slope + inner.max(0.0).sqrt().copysign(first.slope))
            }
            Of::Slope => first.at + (last.at - first.at) * first.slope / (first.slope - last.slope),
            Of::Bend => f64::NAN,
        }
    }
}

impl Turns {
    fn add(&mut self, point: Point) {
        self.points[self.count] = (point.at, point.value);
        self.count += 1;
    }
}
