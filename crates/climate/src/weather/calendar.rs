//! The months, days and hours of a weather year: 365 days, always.

/// Hours of a weather year.
pub const HOURS: usize = 8760;
/// Days of a weather year.
pub const DAYS: usize = 365;

/// A month of a weather year.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CalendarMonth {
    /// What it is called.
    pub name: &'static str,
    /// The day of the year it begins with, counted from 0.
    pub first: usize,
    /// How many days it has.
    pub days: usize,
}

/// The months of a weather year.
pub const MONTHS: [CalendarMonth; 12] = {
    let mut months = [
        month("January", 31),
        month("February", 28),
        month("March", 31),
        month("April", 30),
        month("May", 31),
        month("June", 30),
        month("July", 31),
        month("August", 31),
        month("September", 30),
        month("October", 31),
        month("November", 30),
        month("December", 31),
    ];
    let mut next = 1;
    while next < months.len() {
        months[next].first = months[next - 1].first + months[next - 1].days;
        next += 1;
    }
    months
};

const fn month(name: &'static str, days: usize) -> CalendarMonth {
    CalendarMonth { name, first: 0, days }
}

impl CalendarMonth {
    /// The hours of the year that are in it.
    #[must_use]
    pub fn hours(&self) -> std::ops::Range<usize> {
        24 * self.first..24 * (self.first + self.days)
    }
}

/// The month (0 to 11) of a day of the year (0 to 364); a later day is in December.
#[must_use]
pub fn month_of_day(day: usize) -> usize {
    MONTHS.iter().rposition(|month| month.first <= day).unwrap_or(0)
}

/// A day of the year (0 to 364) in words, such as `14 March`; after the last comes the first again.
#[must_use]
pub fn date(day: usize) -> String {
    let day = day % DAYS;
    let month = MONTHS[month_of_day(day)];
    format!("{} {}", day - month.first + 1, month.name)
}

/// A row in words: `14 March, 3 to 4 h`.
#[must_use]
pub fn when(row: usize) -> String {
    let hour = row % 24;
    format!("{}, {hour} to {} h", date(row / 24), hour + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_months_fill_the_year_without_a_gap() {
        let mut next = 0;
        for month in MONTHS {
            assert_eq!(month.hours().start, next, "{}", month.name);
            next = month.hours().end;
        }
        assert_eq!((next, DAYS * 24), (HOURS, HOURS));
    }

    #[test]
    fn a_day_is_told_as_a_date() {
        assert_eq!(
            [0, 58, 59, 364, 365].map(date),
            ["1 January", "28 February", "1 March", "31 December", "1 January"]
        );
        assert_eq!([0, 30, 31, 364, 365].map(month_of_day), [0, 0, 1, 11, 11]);
    }

    #[test]
    fn a_row_is_told_as_a_date() {
        assert_eq!(when(0), "1 January, 0 to 1 h");
        assert_eq!(when(59 * 24 + 3), "1 March, 3 to 4 h");
        assert_eq!(when(HOURS - 1), "31 December, 23 to 24 h");
    }
}
