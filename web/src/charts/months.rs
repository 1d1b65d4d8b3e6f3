//! The year in numbers, month by month.

use climate::{CalendarMonth, DAYS, MONTHS};
use leptos::prelude::*;
use project::Brief;
use rules::course::{Course, Series};
use units::{Kind, System, Value, show, unit_name};

use super::calendar::DAY;
use super::words::{inside, temperature};
use crate::lean::view;

/// Lowest, mean and highest of some figures.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Extent {
    lowest: f64,
    mean: f64,
    highest: f64,
}

/// The figures of a stretch of days.
fn of_days(series: &Series, first: usize, days: usize) -> impl Iterator<Item = f64> + '_ {
    (first * DAY..(first + days) * DAY).filter_map(|hour| series.at(hour))
}

/// Lowest, mean and highest of a stretch of days; none where there are no figures.
fn extent(series: &Series, first: usize, days: usize) -> Option<Extent> {
    let (mut count, mut sum, mut lowest, mut highest) = (0, 0.0, f64::MAX, f64::MIN);
    for figure in of_days(series, first, days) {
        (count, sum, lowest, highest) = (count + 1, sum + figure, figure.min(lowest), figure.max(highest));
    }
    (count > 0).then(|| Extent { lowest, mean: sum / f64::from(count), highest })
}

/// Hours of a stretch of days whose mean is above a limit.
fn hours_above(series: &Series, limit: f64, first: usize, days: usize) -> usize {
    of_days(series, first, days).filter(|figure| *figure > limit).count()
}

/// A row for each month and one for the year: outside, each room, how much each unit runs, what electricity all units use,
/// and what it costs where the brief has a tariff.
pub(super) fn months_table(course: &Course, brief: &Brief, units: System) -> AnyView {
    let year = &course.year;
    let number = |figure: f64, kind: Kind| show(Value::new(figure, kind), units).number;
    let cells = move |series: &Series, first: usize, days: usize| {
        let found = extent(series, first, days);
        let all = found.map_or([f64::NAN; 3], |found| [found.lowest, found.mean, found.highest]);
        all.map(|figure| view! { <td>{number(figure, Kind::Temperature)}</td> }).collect_view()
    };
    let stretches = MONTHS.into_iter().chain([CalendarMonth { name: "the year", first: 0, days: DAYS }]);
    let rows = stretches.zip(course.electricity_by_month().into_iter().chain([course.electricity()])).map(
        |(CalendarMonth { name, first, days }, used)| {
            let energy = (!course.units.is_empty()).then(|| {
                let cost = brief.cost(used).map(|cost| view! { <td>{number(cost, Kind::Money)}</td> });
                view! { <td>{number(used, Kind::Energy)}</td> {cost} }
            });
            let rooms = course.rooms.iter().zip(&year.air).map(|(room, air)| {
                let above = room.hot_limit.map(|limit| {
                    view! { <td>{number(hours_above(air, limit, first, days) as f64, Kind::Count)}</td> }
                });
                view! { {cells(air, first, days)} {above} }
            });
            let duty = year.duty.iter().take(course.units.len()).map(|duty| {
                let mean = extent(duty, first, days).map_or(f64::NAN, |found| found.mean);
                view! { <td>{number(mean, Kind::Share)}</td> }
            });
            view! {
                <tr>
                    <th scope="row">{name}</th>
                    {cells(&year.outside, first, days)}
                    {rooms.collect_view()}
                    {duty.collect_view()}
                    {energy}
                </tr>
            }
        },
    );
    let degrees = unit_name(Kind::Temperature, units);
    let extents = || ["lowest", "mean", "highest"].map(|name| view! { <th scope="col">{name}</th> }).collect_view();
    let groups = course.rooms.iter().enumerate().map(|(room, about)| {
        let columns = if about.hot_limit.is_some() { "4" } else { "3" };
        view! { <th scope="colgroup" colspan=columns>{format!("{}, {degrees}", inside(course, room))}</th> }
    });
    let heads = course.rooms.iter().map(|about| {
        let above = about
            .hot_limit
            .map(|limit| view! { <th scope="col">{format!("h above {}", temperature(limit, units))}</th> });
        view! { {extents()} {above} }
    });
    let names = course
        .units
        .iter()
        .map(|unit| view! { <th scope="col" rowspan="2">{format!("{}, % of the time", unit.name)}</th> });
    let energy = (!course.units.is_empty()).then(|| {
        let used = format!("electricity of the units, {}", unit_name(Kind::Energy, units));
        let cost = brief.tariff.map(|_| format!("cost, {}", brief.currency));
        let head = |name: String| view! { <th scope="col" rowspan="2">{name}</th> };
        [used].into_iter().chain(cost).map(head).collect_view()
    });
    view! {
        <table class="numbers__table">
            <thead>
                <tr>
                    <th scope="col" rowspan="2">"month"</th>
                    <th scope="colgroup" colspan="3">{format!("outside, {degrees}")}</th>
                    {groups.collect_view()}
                    {names.collect_view()}
                    {energy}
                </tr>
                <tr>{extents()}{heads.collect_view()}</tr>
            </thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
        <p class="numbers__say">"From the mean of each hour; the highest within an hour may be a little more."</p>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_month_has_its_own_days_only() {
        let rising: Series = (0..DAYS * DAY).map(|hour| (hour / DAY) as f64).collect();
        assert_eq!(extent(&rising, 31, 28), Some(Extent { lowest: 31.0, mean: 44.5, highest: 58.0 }));
        assert_eq!(hours_above(&rising, 56.0, 31, 28), 2 * DAY);
    }

    #[test]
    fn a_short_series_has_no_month_past_its_end() {
        let short: Series = (0..DAY).map(|_| 20.0).collect();
        assert_eq!(extent(&short, 31, 28), None);
    }
}
