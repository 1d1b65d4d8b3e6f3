//! The day as a chart: outside dashed, inside thick, the limit as a line, the sun as shading on the axis, and below it what
//! each unit does. The chosen time is a pencil line; moving it moves the sun in the model.

use std::sync::Arc;

use leptos::{ev, html, prelude::*};
use rules::course::Course;
use units::{Kind, System, Value, number_in, unit_name};
use wasm_bindgen::JsCast;

use super::drawn::{above, line};
use super::scale::{Scale, round_range, spread, ticks};
use super::stretch::{Day, MINUTES, Stretch};
use super::width::width_of;
use super::words;
use crate::lean::{Memo, view};
use crate::view_state::{ViewState, use_view};

/// Left of the plot: the axis and its figures.
const LEFT: f64 = 34.0;
/// Right of the plot: the names of the curves.
const RIGHT: f64 = 86.0;
/// Above the plot.
const TOP: f64 = 10.0;
/// Height of the plot.
const PLOT: f64 = 100.0;
/// Below the plot: the hours.
const HOURS: f64 = 22.0;
/// Height of a unit's row.
const UNIT: f64 = 17.0;
/// Height of the sun at 1000 W/m², as a share of the plot.
const SUN: f64 = 0.36;
/// Between the names at the right.
const NAME: f64 = 15.0;

/// Everything that is drawn of a day, but the pencil line.
#[derive(Clone, PartialEq)]
struct Drawn {
    width: f64,
    height: f64,
    grid: Vec<(f64, String)>,
    unit: &'static str,
    sun: String,
    sun_name: Option<(f64, f64)>,
    outside: String,
    inside: Vec<String>,
    over: Vec<String>,
    limits: Vec<f64>,
    names: Vec<(f64, String, &'static str)>,
    units: Vec<(f64, String, String)>,
}

impl Drawn {
    fn of(course: &Course, day: Day, width: f64, system: System) -> Self {
        let stretch = Stretch::of(course, day);
        let steps = 0..stretch.steps;
        let shown = |celsius: f64| number_in(Value::new(celsius, Kind::Temperature), system);
        let limits = limits(course, day);
        let range = range(course, &stretch, &limits);
        let range = round_range((shown(range.0), shown(range.1)), 5);
        let height = Scale::new(range, (TOP + PLOT, TOP));
        let across = across(width);
        let curve = |figure: &dyn Fn(usize) -> f64| -> Vec<(f64, f64)> {
            steps.clone().map(|step| (across.at(stretch.middle(step)), height.at(shown(figure(step))))).collect()
        };
        let outside = curve(&|step| stretch.outside(step));
        let rooms: Vec<_> = (0..course.rooms.len()).map(|room| curve(&|step| stretch.air(room, step))).collect();
        let limit_at: Vec<f64> = limits.iter().map(|(_, limit)| height.at(shown(*limit))).collect();
        let base = TOP + PLOT;
        let sun: Vec<_> = steps
            .clone()
            .map(|step| (across.at(stretch.middle(step)), base - SUN * PLOT * stretch.sun(step) / 1000.0))
            .collect();
        let bright = sun.iter().copied().min_by(|one, other| one.1.total_cmp(&other.1));
        let end = |curve: &[(f64, f64)]| curve.last().map_or(base, |(_, y)| *y);
        let mut names = vec![(end(&outside), "outside".to_owned(), "c-name")];
        for (room, points) in rooms.iter().enumerate() {
            let name = course.rooms.get(room).map_or("", |room| room.name.as_str());
            let name = if name.is_empty() { "inside".to_owned() } else { name.to_owned() };
            names.push((end(points), name, "c-name c-name--in"));
        }
        names.extend(limit_at.iter().map(|at| (*at, "limit".to_owned(), "c-name c-name--limit")));
        let places: Vec<f64> = names.iter().map(|(at, _, _)| *at).collect();
        for (name, place) in names.iter_mut().zip(spread(&places, NAME, (TOP + 4.0, base))) {
            name.0 = place + 4.5;
        }
        let over = rooms
            .iter()
            .enumerate()
            .filter_map(|(room, points)| {
                let limit = course.rooms.get(room)?.hot_limit.filter(|_| day != Day::Coldest)?;
                Some(above(points, height.at(shown(limit))))
            })
            .collect();
        let units = course.units.iter().enumerate().map(|(unit, about)| {
            let bottom = base + HOURS + UNIT * (unit as f64 + 1.0) - 4.0;
            let bar = |step: usize| {
                let tall = 11.0 * stretch.duty(unit, step).clamp(0.0, 1.0);
                let (from, to) = (
                    across.at(stretch.middle(step) - half(&stretch)),
                    across.at(stretch.middle(step) + half(&stretch)),
                );
                if tall > 0.05 {
                    format!("M{from:.1} {bottom:.1}v-{tall:.1}H{to:.1}V{bottom:.1}Z")
                } else {
                    String::new()
                }
            };
            (bottom, steps.clone().map(bar).collect(), about.name.clone())
        });
        Self {
            width,
            height: base + HOURS + UNIT * course.units.len() as f64,
            grid: ticks(range, 5).into_iter().map(|tick| (height.at(tick), tick_words(tick))).collect(),
            unit: unit_name(Kind::Temperature, system),
            sun: format!("{}L{:.1} {base}L{:.1} {base}Z", line(sun.iter().copied()), across.at(24.0), across.at(0.0)),
            sun_name: bright.filter(|(_, y)| base - y > 16.0).map(|(x, _)| (x, base - 6.0)),
            outside: line(outside.into_iter()),
            inside: rooms.into_iter().map(|points| line(points.into_iter())).collect(),
            over,
            limits: limit_at,
            names,
            units: units.collect(),
        }
    }
}

/// Half a step, h.
fn half(stretch: &Stretch) -> f64 {
    stretch.minutes() as f64 / 120.0
}

/// Hours across the plot.
fn across(width: f64) -> Scale {
    Scale::new((0.0, 24.0), (LEFT, (width - RIGHT).max(LEFT + 60.0)))
}

/// The limit of each room that counts on such a day, each once.
fn limits(course: &Course, day: Day) -> Vec<(usize, f64)> {
    let mut limits: Vec<(usize, f64)> = Vec::new();
    for (room, about) in course.rooms.iter().enumerate() {
        let limit = if day == Day::Coldest { Some(about.cold_limit) } else { about.hot_limit };
        if let Some(limit) = limit
            && !limits.iter().any(|(_, other)| (other - limit).abs() < 0.05)
        {
            limits.push((room, limit));
        }
    }
    limits
}

/// The figures that have to be on the drawing, °C.
fn range(course: &Course, stretch: &Stretch, limits: &[(usize, f64)]) -> (f64, f64) {
    let air = (0..course.rooms.len()).flat_map(|room| (0..stretch.steps).map(move |step| stretch.air(room, step)));
    let outside = (0..stretch.steps).map(|step| stretch.outside(step));
    let figures = air.chain(outside).chain(limits.iter().map(|(_, limit)| *limit)).filter(|figure| figure.is_finite());
    let (low, high) = figures.fold((f64::MAX, f64::MIN), |(low, high), next| (low.min(next), high.max(next)));
    if low <= high { (low, high) } else { (0.0, 1.0) }
}

fn tick_words(tick: f64) -> String {
    format!("{tick:.0}").replace('-', "\u{2212}")
}

/// The chart of the chosen day.
#[component]
pub(super) fn DayChart(
    /// What was reckoned.
    course: Memo<Kept>,
) -> impl IntoView {
    let ViewState { units, day, minute, .. } = use_view();
    let frame = NodeRef::<html::Div>::new();
    let width = width_of(frame);
    let drawn = Memo::new(move |_| {
        course.with(|kept| kept.0.as_ref().map(|course| Drawn::of(course, day.get(), width.get(), units.get())))
    });
    // The step that the pencil stands on: the chosen time, else the hour that decides.
    let step = Memo::new(move |_| {
        course.with(|kept| kept.0.as_ref().map_or(0, |course| chosen_step(course, day.get(), minute.get())))
    });
    let said = Memo::new(move |_| {
        course.with(|kept| {
            let Some(course) = &kept.0 else { return String::new() };
            words::moment(course, &Stretch::of(course, day.get()), step.get(), units.get())
        })
    });
    let steps = move || course.with(|kept| kept.0.as_ref().map_or(1, |course| Stretch::of(course, day.get()).steps));
    let go = move |to: usize| {
        let steps = steps().max(1);
        minute.set(Some(to.min(steps - 1) * (MINUTES / steps)));
    };
    let key = move |event: ev::KeyboardEvent| {
        let (now, hour) = (step.get_untracked(), (steps() / 24).max(1));
        let to = match event.key().as_str() {
            "ArrowLeft" | "ArrowDown" => now.saturating_sub(1),
            "ArrowRight" | "ArrowUp" => now + 1,
            "PageDown" => now.saturating_sub(hour),
            "PageUp" => now + hour,
            "Home" => 0,
            "End" => steps() - 1,
            "Escape" => {
                minute.set(None);
                return;
            }
            _ => return,
        };
        event.prevent_default();
        go(to);
    };
    let point = move |event: &ev::PointerEvent| {
        let Some(element) = event.current_target().and_then(|target| target.dyn_into::<web_sys::Element>().ok()) else {
            return;
        };
        let place = f64::from(event.client_x()) - element.get_bounding_client_rect().left();
        let hour = across(width.get_untracked()).figure(place).clamp(0.0, 23.999);
        go((hour / 24.0 * steps() as f64) as usize);
    };
    let pencil = move || {
        let drawn = drawn.get()?;
        course.with(|kept| {
            let course = kept.0.as_ref()?;
            let stretch = Stretch::of(course, day.get());
            let x = across(drawn.width).at(stretch.middle(step.get()));
            Some(view! { <path class="c-now" d=format!("M{x:.1} {TOP}V{:.1}", drawn.height) /> })
        })
    };
    view! {
        <div
            class="chart"
            node_ref=frame
            role="slider"
            tabindex="0"
            aria-label="Time of the day"
            aria-valuemin="0"
            aria-valuemax=move || (steps() - 1).to_string()
            aria-valuenow=move || step.get().to_string()
            aria-valuetext=move || said.get()
            on:keydown=key
            on:pointerdown=move |event| point(&event)
            on:pointermove=move |event| if event.buttons() == 1 { point(&event) }
        >
            {move || drawn.get().map(|drawn| svg(&drawn, pencil))}
        </div>
    }
}

/// The step that is looked at: the chosen time, else the hottest or coldest of the day.
pub(super) fn chosen_step(course: &Course, day: Day, minute: Option<usize>) -> usize {
    let stretch = Stretch::of(course, day);
    match minute {
        Some(minute) => stretch.step_at(minute),
        None if day == Day::Coldest => stretch.coldest(course.rooms.len()),
        None => stretch.hottest(course.rooms.len()),
    }
}

fn svg(drawn: &Drawn, pencil: impl Fn() -> Option<AnyView> + Send + 'static) -> AnyView {
    let across = across(drawn.width);
    let (left, right, base) = (across.at(0.0), across.at(24.0), TOP + PLOT);
    let grid = drawn.grid.iter().map(|(y, words)| {
        view! {
            <path class="c-grid" d=format!("M{left:.1} {y:.1}H{right:.1}") />
            <text class="ax" x=left - 6.0 y=y + 4.8 text-anchor="end">{words.clone()}</text>
        }
    });
    let hours = [0.0, 6.0, 12.0, 18.0, 24.0].into_iter().map(|hour| {
        let x = across.at(hour);
        let words = if hour < 24.0 { format!("{hour}") } else { "24 h".to_owned() };
        view! {
            <path class="c-tick" d=format!("M{x:.1} {base}v5") />
            <text class="ax" x=x y=base + 19.0 text-anchor="middle">{words}</text>
        }
    });
    let inside = drawn.inside.iter().enumerate().map(|(room, path)| {
        // A second room is a double line.
        let core = (room > 0).then(|| view! { <path class="c-core" d=path.clone() /> });
        view! { <path class="c-in" d=path.clone() />{core} }
    });
    let over = drawn.over.iter().map(|path| view! { <path class="c-over" d=path.clone() /> });
    let limits =
        drawn.limits.iter().map(|y| view! { <path class="c-limit" d=format!("M{left:.1} {y:.1}H{right:.1}") /> });
    let names = drawn.names.iter().map(|(y, name, class)| {
        view! { <text class=*class x=right + 6.0 y=*y>{name.clone()}</text> }
    });
    let units = drawn.units.iter().map(|(y, bars, name)| {
        view! {
            <path class="c-grid" d=format!("M{left:.1} {y:.1}H{right:.1}") />
            <path class="c-duty" d=bars.clone() />
            <text class="c-name" x=right + 6.0 y=*y>{short(name)}<title>{name.clone()}</title></text>
        }
    });
    let sun_name = drawn
        .sun_name
        .map(|(x, y)| view! { <text class="c-name c-name--sun" x=x y=y text-anchor="middle">"sun"</text> });
    view! {
        <svg class="chart__svg" width=drawn.width height=drawn.height aria-hidden="true">
            {grid.collect_view()}
            <text class="ax" x=left + 5.0 y=TOP + 9.0>{drawn.unit}</text>
            {hours.collect_view()}
            <path class="c-sun" d=drawn.sun.clone() />
            {sun_name}
            <path class="c-axis" d=format!("M{left:.1} {TOP}V{base}H{right:.1}") />
            {over.collect_view()}
            {limits.collect_view()}
            <path class="c-out" d=drawn.outside.clone() />
            {inside.collect_view()}
            {names.collect_view()}
            {units.collect_view()}
            {move || pencil()}
        </svg>
    }
}

/// A unit's name as far as there is room beside its row.
fn short(name: &str) -> String {
    let word = name.split([' ', ',']).next().unwrap_or(name);
    word.chars().take(12).collect()
}

/// The course at hand; two of them are the same when they are the same run.
#[derive(Clone)]
pub struct Kept(pub Option<Arc<Course>>);

impl PartialEq for Kept {
    fn eq(&self, other: &Self) -> bool {
        match (&self.0, &other.0) {
            (Some(one), Some(other)) => Arc::ptr_eq(one, other),
            (None, None) => true,
            _ => false,
        }
    }
}
