//! Days and hours of a year of 365 days, in words.

/// Hours of a year without a leap day.
pub(crate) const HOURS: usize = 8760;
/// Its days.
pub(crate) const DAYS: usize = 365;
/// Hours of a day.
pub(crate) const DAY: usize = 24;

/// The months: name and days.
const MONTHS: [(&str, usize); 12] = [
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

/// The months with the day each begins on, counted from 0, and its length.
pub(crate) fn months() -> impl Iterator<Item = (&'static str, usize, usize)> {
    MONTHS.iter().scan(0, |first, &(name, days)| {
        let begins = *first;
        *first += days;
        Some((name, begins, days))
    })
}

/// "21 July", of a day counted from 0.
pub(crate) fn date(day: usize) -> String {
    let found = months().find(|&(_, first, days)| (first..first + days).contains(&day));
    found.map_or_else(String::new, |(name, first, _)| format!("{} {name}", day - first + 1))
}

/// The same day of the month before or after, as near as that month has it.
pub(crate) fn month_on(day: usize, forward: bool) -> usize {
    let all: Vec<_> = months().collect();
    let Some(month) = all.iter().position(|&(_, first, days)| (first..first + days).contains(&day)) else { return day };
    let into = day - all[month].1;
    let to = if forward { (month + 1).min(all.len() - 1) } else { month.saturating_sub(1) };
    if to == month {
        return day;
    }
    all[to].1 + into.min(all[to].2 - 1)
}

/// "15:30", of minutes since midnight.
pub(crate) fn time(minutes: usize) -> String {
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_months_fill_the_year() {
        let last = months().last();
        assert_eq!(last, Some(("December", 334, 31)));
        assert_eq!(334 + 31, DAYS);
        assert_eq!(DAYS * DAY, HOURS);
    }

    #[test]
    fn days_have_their_dates() {
        assert_eq!((date(0), date(58), date(59)), ("1 January".into(), "28 February".into(), "1 March".into()));
        assert_eq!((date(201), date(364), date(365)), ("21 July".into(), "31 December".into(), String::new()));
    }

    #[test]
    fn a_month_on_is_the_same_day_where_there_is_one() {
        assert_eq!(month_on(0, true), 31);
        assert_eq!(month_on(30, true), 58);
        assert_eq!(month_on(31, false), 0);
        assert_eq!((month_on(5, false), month_on(360, true)), (5, 360));
    }

    #[test]
    fn times_have_two_figures_for_the_minutes() {
        assert_eq!((time(0), time(925)), ("0:00".into(), "15:25".into()));
    }
}
