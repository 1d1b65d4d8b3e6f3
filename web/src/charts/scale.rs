//! From figures to places on a drawing, and the round figures that an axis names.

/// A straight scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Scale {
    from: f64,
    to: f64,
    start: f64,
    end: f64,
}

impl Scale {
    /// Figures between two, drawn between two places.
    pub(crate) const fn new((from, to): (f64, f64), (start, end): (f64, f64)) -> Self {
        Self { from, to, start, end }
    }

    /// Where a figure is drawn.
    pub(crate) fn at(&self, figure: f64) -> f64 {
        self.start + (figure - self.from) / (self.to - self.from) * (self.end - self.start)
    }

    /// The figure that is drawn at a place.
    pub(crate) fn figure(&self, place: f64) -> f64 {
        self.from + (place - self.start) / (self.end - self.start) * (self.to - self.from)
    }
}

/// A range a little wider than the figures, with ends that are round; at least 2 wide.
pub(crate) fn round_range((low, high): (f64, f64), most: usize) -> (f64, f64) {
    let (low, high) = if high - low < 2.0 { (low - 1.0, high + 1.0) } else { (low, high) };
    let step = step((low, high), most);
    (libm::floor(low / step) * step, libm::ceil(high / step) * step)
}

/// Round figures within a range, ends included: at most so many and a few more when the ends are not round.
pub(crate) fn ticks((low, high): (f64, f64), most: usize) -> Vec<f64> {
    let step = step((low, high), most);
    let first = libm::ceil(low / step - 1e-9) as i64;
    let last = libm::floor(high / step + 1e-9) as i64;
    (first..=last).map(|count| count as f64 * step).collect()
}

/// The least of 1, 2, 5, 10, 20, … that divides a range into at most so many pieces.
fn step((low, high): (f64, f64), most: usize) -> f64 {
    let least = (high - low).max(1e-9) / most.max(1) as f64;
    let decade = libm::pow(10.0, libm::floor(libm::log10(least) + 1e-12));
    let leads = [1.0, 2.0, 5.0].into_iter().map(|lead| lead * decade);
    leads.into_iter().find(|step| *step >= least * (1.0 - 1e-12)).unwrap_or(10.0 * decade)
}

/// Names side by side need room: moves them apart by at least a gap, as little as may be, within bounds.
pub(crate) fn spread(wanted: &[f64], gap: f64, (low, high): (f64, f64)) -> Vec<f64> {
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    order.sort_by(|one, other| wanted[*one].total_cmp(&wanted[*other]));
    let mut places = wanted.to_vec();
    let mut least = low;
    for index in &order {
        places[*index] = places[*index].max(least);
        least = places[*index] + gap;
    }
    let mut most = high;
    for index in order.iter().rev() {
        places[*index] = places[*index].min(most);
        most = places[*index] - gap;
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_scale_goes_there_and_back() {
        let scale = Scale::new((20.0, 60.0), (130.0, 10.0));
        assert_eq!((scale.at(20.0), scale.at(60.0), scale.at(40.0)), (130.0, 10.0, 70.0));
        assert!((scale.figure(scale.at(33.3)) - 33.3).abs() < 1e-12);
    }

    #[test]
    fn ticks_are_round_and_few() {
        assert_eq!(ticks((20.0, 60.0), 5), [20.0, 30.0, 40.0, 50.0, 60.0]);
        assert_eq!(ticks((-4.0, 3.0), 4), [-4.0, -2.0, 0.0, 2.0]);
        assert_eq!(ticks((68.0, 140.0), 5), [80.0, 100.0, 120.0, 140.0]);
        assert_eq!(ticks((0.0, 8760.0), 5), [0.0, 2000.0, 4000.0, 6000.0, 8000.0]);
    }

    #[test]
    fn a_range_is_widened_to_round_ends() {
        assert_eq!(round_range((31.2, 57.0), 5), (30.0, 60.0));
        assert_eq!(round_range((40.0, 40.0), 5), (39.0, 41.0));
    }

    #[test]
    fn names_are_moved_apart_and_stay_inside() {
        assert_eq!(spread(&[10.0, 12.0, 50.0], 15.0, (0.0, 100.0)), [10.0, 25.0, 50.0]);
        assert_eq!(spread(&[95.0, 94.0], 15.0, (0.0, 100.0)), [100.0, 85.0]);
    }
}
