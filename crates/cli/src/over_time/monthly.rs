//! A year of hours, month by month.

use rules::course::Series;

/// Days of each month of a weather year, and what the month is called.
pub(super) const MONTHS: [(&str, usize); 12] = [
    ("January", 31),
    ("February", 28),
    ("March", 31),
    ("April", 30),
    ("May", 31),
    ("June", 30),
    ("July", 31),
    ("August", 31),
    ("September", 30),
    ("October", 31),
    ("November", 30),
    ("December", 31),
];

/// Lowest, mean and highest of a month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spread {
    pub(super) lowest: f64,
    pub(super) mean: f64,
    pub(super) highest: f64,
}

/// The steps of a month; `step` is their length in hours.
pub(super) fn steps(month: usize, step: f64) -> std::ops::Range<usize> {
    let days_before: usize = MONTHS.iter().take(month).map(|(_, days)| days).sum();
    let days = MONTHS.get(month).map_or(0, |(_, days)| *days);
    let at = |days: usize| (days as f64 * 24.0 / step) as usize;
    at(days_before)..at(days_before + days)
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
    use super::*;

    #[test]
    fn months_fill_the_year_without_a_gap() {
        let mut last = 0;
        for month in 0..12 {
            let steps = steps(month, 1.0);
            assert_eq!(steps.start, last, "{month}");
            last = steps.end;
        }
        assert_eq!(last, 8760);
        assert_eq!(steps(1, 0.5), 31 * 48..59 * 48);
    }

    #[test]
    fn the_spread_is_that_of_the_month_alone() {
        let air: Series = (0..8760).map(|hour| if hour < 744 { f64::from(hour % 4) } else { 100.0 }).collect();
        let expected = Spread { lowest: 0.0, mean: 1.5, highest: 3.0 };
        assert_eq!(spread(&air, &air, steps(0, 1.0)), Some(expected));
        assert_eq!(spread(&air, &Series::default(), steps(0, 1.0)), None);
    }
}
