//! Days and hours of the year as the charts go through them.

use climate::{MONTHS, month_of_day};

/// Hours of a day.
pub(crate) const DAY: usize = 24;

/// The same day of the month before or after, as near as that month has it.
pub(crate) fn month_on(day: usize, forward: bool) -> usize {
    let month = month_of_day(day);
    let to = if forward { (month + 1).min(MONTHS.len() - 1) } else { month.saturating_sub(1) };
    if to == month {
        return day;
    }
    MONTHS[to].first + (day - MONTHS[month].first).min(MONTHS[to].days - 1)
}

/// "15:30", of minutes since midnight.
pub(crate) fn time(minutes: usize) -> String {
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

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
