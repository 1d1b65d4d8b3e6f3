//! What a climate unit moves at which temperatures: a drawing, the points its maker rates it at, and the same in numbers.

use catalogue::{ClimateUnit, RatedPoint, UnitMap, UnitSort};
use leptos::{html, prelude::*};
use units::{Celsius, Kind, System, Value, Watts, number_in, show, unit_name};

use crate::charts::{Plot, Scale, along, line, pieces, round_range, space_of, spread};
use crate::lean::view;
use crate::view_state::use_view;

/// Left of the plot: the axis and its figures.
const LEFT: f64 = 46.0;
/// Right of the plot: the inside temperature of each line.
const RIGHT: f64 = 78.0;
/// Above the plot.
const TOP: f64 = 16.0;
/// Heights of the two plots.
const CAPACITY: f64 = 116.0;
const INPUT: f64 = 50.0;
/// Below a plot: the figures of the foot.
const FOOT: f64 = 24.0;
/// Between two names.
const NAME: f64 = 15.0;
/// How many lines are named at most.
const NAMED: usize = 4;

/// Lines over the outside temperature, one for all the inside temperatures at which it runs the same.
#[derive(Clone, Debug, PartialEq)]
struct Lines {
    outside: Vec<f64>,
    /// Lowest and highest inside temperature, and the figures.
    rows: Vec<(f64, f64, Vec<f64>)>,
}

impl Lines {
    fn of(map: &UnitMap, figures: &[Vec<f64>]) -> Self {
        let mut rows: Vec<(f64, f64, Vec<f64>)> = Vec::new();
        for (inside, row) in map.inside.iter().zip(figures) {
            match rows.last_mut() {
                Some((_, highest, last)) if last == row => *highest = *inside,
                _ => rows.push((*inside, *inside, row.clone())),
            }
        }
        Self { outside: map.outside.clone(), rows }
    }

    /// The one figure that holds everywhere, where there is one.
    fn only(&self) -> Option<f64> {
        let mut all = self.rows.iter().flat_map(|(_, _, row)| row.iter().copied());
        let first = all.next()?;
        all.all(|figure| (figure - first).abs() < 1e-9).then_some(first)
    }

    fn greatest(&self) -> f64 {
        self.rows.iter().flat_map(|(_, _, row)| row.iter().copied()).fold(0.0, f64::max)
    }

    /// Which lines are named: all of a few, else as many as may be, evenly, ends among them.
    fn named(&self) -> Vec<usize> {
        let count = self.rows.len();
        if count <= NAMED {
            return (0..count).collect();
        }
        (0..NAMED).map(|each| (each * (count - 1) + (NAMED - 1) / 2) / (NAMED - 1)).collect()
    }

    /// The inside temperature of a line: "35 °C", or "20 to 50 °C" where it is one line for several.
    fn name(&self, row: usize, units: System) -> String {
        let Some((lowest, highest, _)) = self.rows.get(row) else { return String::new() };
        let (from, to) = (show(Celsius(*lowest).into(), units), show(Celsius(*highest).into(), units));
        if lowest < highest { format!("{}\u{2013}{to}", from.number) } else { to.to_string() }
    }
}

/// A drawing of lines over the outside temperature.
fn drawing(lines: &Lines, rated: &[RatedPoint], plot: f64, width: f64, units: System) -> AnyView {
    let degrees = |celsius: f64| number_in(Value::new(celsius, Kind::Temperature), units);
    let power = |watts: f64| number_in(Value::new(watts, Kind::Power), units);
    let (Some(first), Some(last)) = (lines.outside.first(), lines.outside.last()) else { return ().into_any() };
    let (left, right, base) = (LEFT, (width - RIGHT).max(LEFT + 60.0), TOP + plot);
    let span = (degrees(*first), degrees(*last));
    let greatest = rated.iter().map(|point| point.capacity.0).fold(lines.greatest(), f64::max);
    let range = round_range((0.0, power(greatest)), pieces(plot));
    let shape = Plot { range, across: (left, right), top: TOP, base };
    let (across, up) = (Scale::new(span, shape.across), shape.up());
    let place = |outside: f64, watts: f64| (across.at(degrees(outside)), up.at(power(watts)));
    let paths = lines.rows.iter().map(|(_, _, row)| {
        let points = lines.outside.iter().zip(row).map(|(outside, watts)| place(*outside, *watts));
        view! { <path class="c-map" d=line(points) /> }
    });
    let named = lines.named();
    let ends: Vec<f64> = named
        .iter()
        .map(|row| lines.rows.get(*row).and_then(|(_, _, row)| row.last()).map_or(base, |watts| up.at(power(*watts))))
        .collect();
    let names = named.iter().zip(spread(&ends, NAME, (TOP, base))).map(|(row, y)| {
        view! { <text class="c-name" x=right + 6.0 y=y + 4.5>{lines.name(*row, units)}</text> }
    });
    let dots = rated.iter().enumerate().map(|(index, point)| {
        let (x, y) = place(point.outside.0, point.capacity.0);
        // One word is enough for all of them.
        let word = (index == 0)
            .then(|| view! { <text class="c-name c-name--on" x=x y=y - 8.0 text-anchor="middle">"rated"</text> });
        view! { <circle class="c-dot" cx=x cy=y r="3.5" />{word} }
    });
    let outside =
        along(span, pieces((right - left) / 3.0), &format!("{} outside", unit_name(Kind::Temperature, units)), units);
    view! {
        <svg class="chart__svg" width=width height=base + FOOT aria-hidden="true">
            {shape.grid(outside.into_iter().map(|(degrees, words)| (across.at(degrees), words)), units)}
            <text class="ax" x=left + 5.0 y=TOP - 4.0>{unit_name(Kind::Power, units)}</text>
            {shape.axes()}
            {paths.collect_view()}
            <text class="ax" x=right + 6.0 y=TOP - 4.0>"inside"</text>
            {names.collect_view()}
            {dots.collect_view()}
        </svg>
    }
}

/// The figures of a map: rows by inside, columns by outside temperature.
fn table(map: &UnitMap, figures: &[Vec<f64>], caption: String, units: System) -> AnyView {
    let shown = |value: Value| show(value, units).to_string();
    let head = map.outside.iter().map(|degrees| view! { <th scope="col">{shown(Celsius(*degrees).into())}</th> });
    let rows = map.inside.iter().zip(figures).map(|(degrees, row)| {
        let cells = row.iter().map(|watts| view! { <td>{shown(Watts(*watts).into())}</td> });
        view! { <tr><th scope="row">{shown(Celsius(*degrees).into())}</th>{cells.collect_view()}</tr> }
    });
    view! {
        <table class="map">
            <caption>{caption}</caption>
            <thead><tr><td></td>{head.collect_view()}</tr></thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
}

/// The map of a unit.
#[component]
pub(super) fn Map(
    /// The unit.
    part: ClimateUnit,
) -> impl IntoView {
    let units = use_view().units;
    let frame = NodeRef::<html::Div>::new();
    let space = space_of(frame);
    let verb = if part.sort == UnitSort::Heater { "Heat given" } else { "Heat moved out" };
    let filter = if part.sort == UnitSort::FilterFan { ", clean filter" } else { "" };
    let capacity = Lines::of(&part.map, &part.map.capacity);
    let input = Lines::of(&part.map, &part.map.input);
    let steady = input.only();
    let drawn = StoredValue::new((capacity, input, part.rated));
    let drawings = move || {
        let (width, units) = (space.get().width, units.get());
        drawn.with_value(|(capacity, input, rated)| {
            let input = steady.is_none().then(|| {
                view! {
                    <p class="unit-map__head">"Electrical input"</p>
                    {drawing(input, &[], INPUT, width, units)}
                }
            });
            view! {
                <p class="unit-map__head">{verb}" at sea level"{filter}</p>
                {drawing(capacity, rated, CAPACITY, width, units)}
                {input}
            }
        })
    };
    let map = StoredValue::new(part.map);
    let tables = move || {
        let units = units.get();
        map.with_value(|map| {
            let input = steady.is_none().then(|| {
                table(map, &map.input, "Electrical input; rows: air inside, columns: air outside".to_owned(), units)
            });
            let caption = format!("{verb} at sea level{filter}; rows: air inside, columns: air outside");
            view! { {table(map, &map.capacity, caption, units)} {input} }
        })
    };
    view! {
        <div class="unit-map" node_ref=frame>{drawings}</div>
        <details class="numbers">
            <summary>"The same in numbers"</summary>
            <div class="chosen__map" role="group" tabindex="0" aria-label="Capacity">{tables}</div>
        </details>
    }
}

/// What a unit's map does not say: rated points, air, thermostat, filter, weather.
#[component]
pub(super) fn Facts(
    /// The unit.
    part: ClimateUnit,
) -> impl IntoView {
    let units = use_view().units;
    let facts = move || facts(&part, units.get()).into_iter().map(|fact| view! { <li>{fact}</li> }).collect_view();
    view! { <ul class="chosen__facts">{facts}</ul> }
}

/// One sentence each.
fn facts(part: &ClimateUnit, units: System) -> Vec<String> {
    let shown = |value: Value| show(value, units).to_string();
    let rated = part.rated.iter().map(|point| {
        let (capacity, inside) = (shown(point.capacity.into()), shown(point.inside.into()));
        format!("Rated {capacity} at {inside} inside, {} outside", shown(point.outside.into()))
    });
    let mut facts: Vec<String> = rated.collect();
    let (on, band) = (part.set_point.0, part.hysteresis.0);
    let mut runs = if part.sort == UnitSort::Heater {
        format!("Starts at {}, stops at {} inside", shown(Celsius(on).into()), shown(Celsius(on + band).into()))
    } else {
        format!("Starts at {}, stops at {} inside", shown(Celsius(on).into()), shown(Celsius(on - band).into()))
    };
    let off = part.seconds_off();
    if off > 0.0 {
        runs += &format!("; stays off at least {}", time_off(off));
    }
    facts.push(runs);
    if let Some(watts) = Lines::of(&part.map, &part.map.input).only() {
        facts.push(format!("Draws {}", shown(Watts(watts).into())));
    }
    if part.sort != UnitSort::Heater {
        let what = if part.input_heats_inside() { "becomes heat inside" } else { "leaves with its warm air" };
        facts.push(format!("What it draws {what}"));
    }
    facts.push(format!("Moves {} of inside air", shown(part.airflow.into())));
    if part.soiled_share < 1.0 {
        facts.push(format!("Keeps {} of that with a soiled filter", shown(Value::new(part.soiled_share, Kind::Share))));
    }
    facts.push(format!("Keeps weather rating {}", part.keeps));
    facts
}

/// "3 min", or "90 s" where it is no whole number of minutes.
fn time_off(seconds: f64) -> String {
    if seconds % 60.0 == 0.0 { format!("{}\u{a0}min", seconds / 60.0) } else { format!("{seconds}\u{a0}s") }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn map(capacity: Vec<Vec<f64>>) -> UnitMap {
        let inside = (0..capacity.len()).map(|row| 20.0 + 5.0 * row as f64).collect();
        UnitMap { inside, outside: vec![20.0, 40.0], input: capacity.clone(), capacity }
    }

    #[test]
    fn inside_temperatures_that_run_the_same_are_one_line() {
        let map = map(vec![vec![0.0, 0.0], vec![0.0, 0.0], vec![100.0, 50.0]]);
        let lines = Lines::of(&map, &map.capacity);
        assert_eq!(lines.rows, [(20.0, 25.0, vec![0.0, 0.0]), (30.0, 30.0, vec![100.0, 50.0])]);
        assert_eq!(lines.name(0, System::Metric), "20\u{2013}25\u{a0}°C");
        assert_eq!(lines.name(1, System::Us), "86\u{a0}°F");
        assert_eq!((lines.only(), lines.greatest()), (None, 100.0));
    }

    #[test]
    fn of_many_lines_four_are_named() {
        let many = map((0..9).map(|row| vec![f64::from(row), 0.0]).collect());
        assert_eq!(Lines::of(&many, &many.capacity).named(), [0, 3, 5, 8]);
        let few = map(vec![vec![1.0, 0.0], vec![2.0, 0.0]]);
        assert_eq!(Lines::of(&few, &few.capacity).named(), [0, 1]);
    }

    #[test]
    fn a_steady_figure_is_told_apart() {
        let map = map(vec![vec![16.0, 16.0], vec![16.0, 16.0]]);
        assert_eq!(Lines::of(&map, &map.input).only(), Some(16.0));
    }

    #[test]
    fn the_facts_name_both_ends_of_the_thermostat() {
        let catalogue = catalogue::sample();
        let unit = catalogue.units.values().find(|unit| unit.name == "Conditioner 500 W, 120 V").unwrap();
        let facts = facts(unit, System::Metric);
        let runs = "Starts at 35\u{a0}°C, stops at 30\u{a0}°C inside; stays off at least 3\u{a0}min";
        assert!(facts.iter().any(|fact| fact == runs), "{facts:?}");
    }
}
