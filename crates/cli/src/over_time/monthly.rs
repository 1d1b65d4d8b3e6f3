//! A year of hours, month by month.

use climate::CalendarMonth;
use rules::course::Series;

/// Lowest, mean and highest of a month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spread {
    pub(super) lowest: f64,
    pub(super) mean: f64,
    pub(super) highest: f64,
}

/// The steps of a month; `step` is their length in hours.
pub(super) fn steps(month: CalendarMonth, step: f64) -> std::ops::Range<usize> {
    let hours = month.hours();
    let at = |hour: usize| (hour as f64 / step) as usize;
    at(hours.start)..at(hours.end)
}

/// Lowest and mean of one series, highest of another, within these steps.
pub(super) fn spread(mean: &Series, highest: &Series, steps: std::ops::Range<usize>) -> Option<Spread> {
    let of = |series: &Series| -> Vec<f64> { steps.clone().filter_map(|step| series.at(step)).collect() };
    let (means, tops) = (of(mean), of(highest));
    let lowest = means.iter().copied().reduce(f64::min)?;
    let highest = tops.iter().copied().reduce(f64::max)?;
    Some(Spread { lowest, mean: means.iter().sum::<f64>() / means.len() as f64, highest })
}

#[cfg(test)]
mod tests {
    use climate::MONTHS;

    use super::*;

    #[test]
    fn a_month_has_its_own_steps_whatever_their_length() {
        assert_eq!(steps(MONTHS[1], 1.0), 31 * 24..59 * 24);
        assert_eq!(steps(MONTHS[1], 0.5), 31 * 48..59 * 48);
        assert_eq!(steps(MONTHS[11], 1.0).end, 8760);
    }

    #[test]
    fn the_spread_is_that_of_the_month_alone() {
        let air: Series = (0..8760).map(|hour| if hour < 744 { f64::from(hour % 4) } else { 100.0 }).collect();
        let expected = Spread { lowest: 0.0, mean: 1.5, highest: 3.0 };
        assert_eq!(spread(&air, &air, steps(MONTHS[0], 1.0)), Some(expected));
        assert_eq!(spread(&air, &Series::default(), steps(MONTHS[0], 1.0)), None);
    }
}
