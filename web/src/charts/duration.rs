//! How many hours of the year are warmer than a temperature: one falling curve for each room and one for outdoors.

use climate::HOURS;
use leptos::{ev, html, prelude::*};
use rules::course::{Course, Series};
use units::{Kind, System, Value, number_in, number_of, show};
use wasm_bindgen::JsCast;

use super::axes::{FOOT, LEFT, Plot, TOP, along, inside_curves};
use super::course_drawn;
use super::day::{NAME, PLOT, RIGHT};
use super::drawn::{above, line};
use super::months::months_table;
use super::scale::{Scale, round_range, spread, ticks};
use super::space::space_of;
use super::words::{inside, temperature};
use crate::editor::use_editor;
use crate::lean::{Memo, RwSignal, view};
use crate::view_state::use_view;

/// Least height of the chart.
const LEAST: f64 = TOP + PLOT + FOOT;
/// Between two points that are drawn, h.
const EACH: usize = 24;

/// Figures from the greatest to the least.
fn falling(series: &Series) -> Vec<f32> {
    let mut figures = series.0.clone();
    figures.sort_by(|one, other| other.total_cmp(one));
    figures
}

/// How many of falling figures are above one.
fn hours_above(falling: &[f32], figure: f64) -> usize {
    falling.partition_point(|each| f64::from(*each) > figure)
}

/// The curves of a year.
#[derive(Clone, PartialEq)]
pub(super) struct Curves {
    /// One for each room.
    pub(super) rooms: Vec<(String, Option<f64>, Vec<f32>)>,
    /// Outdoor air.
    pub(super) outside: Vec<f32>,
}

impl Curves {
    /// Of a course.
    pub(super) fn of(course: &Course) -> Self {
        let rooms = course.rooms.iter().enumerate().filter_map(|(room, about)| {
            Some((inside(course, room), about.hot_limit, falling(course.year.air.get(room)?)))
        });
        Self { rooms: rooms.collect(), outside: falling(&course.year.outside) }
    }

    fn range(&self) -> Option<(f64, f64)> {
        let curves = self.rooms.iter().map(|(_, _, curve)| curve).chain([&self.outside]);
        let ends = curves.filter_map(|curve| Some((f64::from(*curve.last()?), f64::from(*curve.first()?))));
        let limits = self.rooms.iter().filter_map(|(_, limit, _)| limit.map(|limit| (limit, limit)));
        ends.chain(limits).reduce(|(low, high), (next_low, next_high)| (low.min(next_low), high.max(next_high)))
    }

    /// "Above 45 °C: inside 322 h, outside 12 h".
    pub(super) fn words(&self, level: f64, units: System) -> String {
        let hours = |curve: &[f32]| {
            format!("{}\u{a0}h", show(Value::new(hours_above(curve, level) as f64, Kind::Count), units).number)
        };
        let mut said = format!("Above {}: ", temperature(level, units));
        for (name, _, curve) in &self.rooms {
            said += &format!("{name} {}, ", hours(curve));
        }
        said + &format!("outside {}", hours(&self.outside))
    }
}

/// The curves, and a level that is moved over them.
#[component]
pub(crate) fn Duration() -> impl IntoView {
    let (course, units) = (course_drawn(), use_view().units);
    let brief = use_editor().part(|project| project.brief.clone());
    let frame = NodeRef::<html::Div>::new();
    let space = space_of(frame);
    let curves = Memo::new(move |_| course.with(|kept| kept.0.as_deref().map(Curves::of)));
    let chosen = RwSignal::new(None::<f64>);
    let level = Memo::new(move |_| {
        let limit = curves.with(|curves| curves.as_ref()?.rooms.iter().find_map(|(_, limit, _)| *limit));
        chosen.get().or(limit).unwrap_or(40.0)
    });
    let said = Memo::new(move |_| {
        curves.with(|curves| curves.as_ref().map_or_else(String::new, |curves| curves.words(level.get(), units.get())))
    });
    let scales = move || {
        curves.with(|curves| {
            let (low, high) = curves.as_ref()?.range()?;
            let shown = |celsius: f64| number_in(Value::new(celsius, Kind::Temperature), units.get());
            let space = space.get();
            let base = (space.height.max(LEAST)) - FOOT;
            let range = round_range((shown(low), shown(high)), 5);
            let right = (space.width - RIGHT).max(LEFT + 60.0);
            Some((range, Scale::new((0.0, HOURS as f64), (LEFT, right)), Scale::new(range, (base, TOP))))
        })
    };
    let celsius = move |number: f64| number_of(number, Kind::Temperature, units.get_untracked());
    let shown = move |celsius: f64| number_in(Value::new(celsius, Kind::Temperature), units.get_untracked());
    let bound = move |number: f64| untrack(scales).map_or(number, |((low, high), _, _)| number.clamp(low, high));
    let key = move |event: ev::KeyboardEvent| {
        let now = shown(level.get_untracked());
        let to = match event.key().as_str() {
            "ArrowUp" | "ArrowRight" => libm::floor(now + 1.0 + 1e-9),
            "ArrowDown" | "ArrowLeft" => libm::ceil(now - 1.0 - 1e-9),
            "PageUp" => now + 10.0,
            "PageDown" => now - 10.0,
            "Home" => f64::MIN,
            "End" => f64::MAX,
            _ => return,
        };
        event.prevent_default();
        chosen.set(Some(celsius(bound(to))));
    };
    let point = move |event: &ev::PointerEvent| {
        let Some(element) = event.current_target().and_then(|target| target.dyn_into::<web_sys::Element>().ok()) else {
            return;
        };
        let place = f64::from(event.client_y()) - element.get_bounding_client_rect().top();
        if let Some((_, _, up)) = untrack(scales) {
            chosen.set(Some(celsius(bound(libm::round(up.figure(place))))));
        }
    };
    view! {
        <p class="day__read" aria-hidden="true">{move || said.get()}</p>
        <div
            class="chart"
            style:min-height=format!("{LEAST}px")
            node_ref=frame
            role="slider"
            tabindex="0"
            aria-label="Temperature"
            aria-orientation="vertical"
            aria-valuemin=move || scales().map_or(0.0, |((low, _), _, _)| low).to_string()
            aria-valuemax=move || scales().map_or(0.0, |((_, high), _, _)| high).to_string()
            aria-valuenow=move || format!("{:.0}", number_in(Value::new(level.get(), Kind::Temperature), units.get()))
            aria-valuetext=move || said.get()
            on:keydown=key
            on:pointerdown=move |event| point(&event)
            on:pointermove=move |event| if event.buttons() == 1 { point(&event) }
        >
            {move || {
                let (range, across, up) = scales()?;
                curves.with(|curves| Some(svg(curves.as_ref()?, (range, across, up), chosen.get(), units.get())))
            }}
        </div>
        <div class="duration__foot">
            <details class="numbers">
                <summary>"The same in numbers"</summary>
                {move || curves.with(|curves| curves.as_ref().map(|curves| table(curves, units.get())))}
            </details>
            <details class="numbers">
                <summary>"Month by month"</summary>
                {move || course.with(|kept| kept.0.as_ref().map(|course| months_table(course, &brief.read(), units.get())))}
            </details>
        </div>
    }
}

fn svg(
    curves: &Curves,
    (range, across, up): ((f64, f64), Scale, Scale),
    chosen: Option<f64>,
    units: System,
) -> AnyView {
    let shown = |celsius: f64| up.at(number_in(Value::new(celsius, Kind::Temperature), units));
    let (right, base) = (across.at(HOURS as f64), up.at(range.0));
    let plot = Plot { range, across: (across.at(0.0), right), top: TOP, base };
    let points = |curve: &[f32]| -> Vec<(f64, f64)> {
        let each = curve.iter().enumerate().step_by(EACH).chain(curve.iter().enumerate().next_back());
        each.map(|(hour, figure)| (across.at(hour as f64), shown(f64::from(*figure)))).collect()
    };
    let hours = along((0.0, HOURS as f64), 5, "h", units).into_iter().map(|(hour, words)| (across.at(hour), words));
    let mut limits: Vec<f64> = curves.rooms.iter().filter_map(|(_, limit, _)| *limit).collect();
    limits.dedup_by(|one, other| (*one - *other).abs() < 0.05);
    let rooms: Vec<_> = curves.rooms.iter().map(|(name, limit, curve)| (name.clone(), *limit, points(curve))).collect();
    let outside = points(&curves.outside);
    let end = |curve: &[(f64, f64)]| curve.last().map_or(base, |(_, y)| *y);
    let mut names: Vec<(f64, String, &'static str)> = vec![(end(&outside), "outside".to_owned(), "c-name")];
    names.extend(
        rooms
            .iter()
            .map(|(name, _, curve)| (end(curve), name.trim_start_matches("inside ").to_owned(), "c-name c-name--in")),
    );
    names.extend(limits.iter().map(|limit| (shown(*limit), "limit".to_owned(), "c-name c-name--limit")));
    let places: Vec<f64> = names.iter().map(|(at, _, _)| *at).collect();
    let names = names.into_iter().zip(spread(&places, NAME, (6.0, base + 3.0))).map(|((_, name, class), y)| {
        view! { <text class=class x=right + 6.0 y=y + 4.5>{name}</text> }
    });
    let over = rooms
        .iter()
        .filter_map(|(_, limit, curve)| Some(view! { <path class="c-over" d=above(curve, shown((*limit)?)) /> }));
    let inside: Vec<String> = rooms.iter().map(|(_, _, curve)| line(curve.iter().copied())).collect();
    // While nobody has chosen a level it is the limit's, whose line is there already.
    let pencil = chosen.map(|level| view! { <path class="c-now" d=plot.level(shown(level)) /> });
    view! {
        <svg class="chart__svg" width=right + RIGHT height=base + FOOT aria-hidden="true">
            {plot.grid(hours, units)}
            {plot.degrees(units)}
            {plot.axes()}
            {over.collect_view()}
            {limits.iter().map(|limit| view! { <path class="c-limit" d=plot.level(shown(*limit)) /> }).collect_view()}
            <path class="c-out" d=line(outside.into_iter()) />
            {inside_curves(&inside)}
            {names.collect_view()}
            {pencil}
        </svg>
    }
}

/// Hours above each fifth degree.
fn table(curves: &Curves, units: System) -> AnyView {
    let (low, high) = curves.range().unwrap_or_default();
    let (low, high) =
        (number_in(Value::new(low, Kind::Temperature), units), number_in(Value::new(high, Kind::Temperature), units));
    let rows = ticks((low, high), 14).into_iter().map(|tick| {
        let celsius = number_of(tick, Kind::Temperature, units);
        let cells = curves.rooms.iter().map(|(_, _, curve)| curve).chain([&curves.outside]);
        let cells = cells.map(|curve| view! { <td>{show(Value::new(hours_above(curve, celsius) as f64, Kind::Count), units).number}</td> });
        view! { <tr><th scope="row">{temperature(celsius, units)}</th>{cells.collect_view()}</tr> }
    });
    let heads = curves.rooms.iter().map(|(name, _, _)| view! { <th scope="col">{name.clone()}</th> });
    view! {
        <table class="numbers__table">
            <thead><tr><th scope="col">"hours a year above"</th>{heads.collect_view()}<th scope="col">"outside"</th></tr></thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hours_above_a_level_are_counted() {
        let curve = falling(&[20.0, 50.0, 30.0, 40.0].into_iter().collect());
        assert_eq!(curve, [50.0, 40.0, 30.0, 20.0]);
        assert_eq!([10.0, 20.0, 35.0, 50.0].map(|level| hours_above(&curve, level)), [4, 3, 2, 0]);
    }

    #[test]
    fn the_words_name_each_curve() {
        let curves = Curves { rooms: vec![("inside".into(), Some(55.0), vec![60.0, 50.0])], outside: vec![40.0, 30.0] };
        assert_eq!(curves.words(55.0, System::Metric), "Above 55\u{a0}°C: inside 1\u{a0}h, outside 0\u{a0}h");
        assert_eq!(curves.range(), Some((30.0, 60.0)));
    }
}
