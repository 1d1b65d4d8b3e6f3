//! The day as a chart: outside dashed, inside thick, the limit as a line, the sun as shading on the axis, and below it what
//! each unit does. The chosen time is a pencil line; moving it moves the sun in the model.

use std::sync::Arc;

use leptos::{ev, html, prelude::*};
use rules::course::Course;
use units::{Kind, System, Value, number_in};
use wasm_bindgen::JsCast;

use super::axes::{FOOT, LEFT, Plot, TOP, inside_curves};
use super::drawn::{above, line};
use super::scale::{Scale, round_range, spread};
use super::space::{Space, space_of};
use super::stretch::{Day, MINUTES, Stretch};
use super::words::{self, room_name, unit_labels};
use crate::lean::{Memo, view};
use crate::view_state::{ViewState, use_view};

/// Least right of the plot: the names of the curves.
pub(super) const RIGHT: f64 = 86.0;
/// Width of a letter of a name.
const LETTER: f64 = 7.0;
/// Least height of the plot.
pub(super) const PLOT: f64 = 44.0;
/// Height of a unit's row.
const UNIT: f64 = 15.0;
/// Height of the sun at 1000 W/m², as a share of the plot.
const SUN: f64 = 0.36;
/// Between the names at the right.
pub(super) const NAME: f64 = 15.0;

/// Everything that is drawn of a day, but the pencil line.
#[derive(Clone, PartialEq)]
struct Drawn {
    across: Scale,
    space: Space,
    base: f64,
    range: (f64, f64),
    system: System,
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
    fn of(course: &Course, day: Day, space: Space, system: System) -> Self {
        let stretch = Stretch::of(course, day);
        let steps = 0..stretch.steps;
        let plot = (space.height - least_height(course) + PLOT).max(PLOT);
        let base = TOP + plot;
        let shown = |celsius: f64| number_in(Value::new(celsius, Kind::Temperature), system);
        let limits = limits(course, day);
        let range = range(course, &stretch, &limits);
        let range = round_range((shown(range.0), shown(range.1)), 5);
        let height = Scale::new(range, (base, TOP));
        let across = across(course, space.width);
        let curve = |figure: &dyn Fn(usize) -> f64| -> Vec<(f64, f64)> {
            steps.clone().map(|step| (across.at(stretch.middle(step)), height.at(shown(figure(step))))).collect()
        };
        let outside = curve(&|step| stretch.outside(step));
        let rooms: Vec<_> = (0..course.rooms.len()).map(|room| curve(&|step| stretch.air(room, step))).collect();
        let limit_at: Vec<f64> = limits.iter().map(|(_, limit)| height.at(shown(*limit))).collect();
        let sun: Vec<_> = steps
            .clone()
            .map(|step| (across.at(stretch.middle(step)), base - SUN * plot * stretch.sun(step) / 1000.0))
            .collect();
        let bright = sun.iter().copied().min_by(|one, other| one.1.total_cmp(&other.1));
        let end = |curve: &[(f64, f64)]| curve.last().map_or(base, |(_, y)| *y);
        let mut names = vec![(end(&outside), "outside".to_owned(), "c-name")];
        for (room, points) in rooms.iter().enumerate() {
            names.push((end(points), room_name(course, room), "c-name c-name--in"));
        }
        names.extend(limit_at.iter().map(|at| (*at, "limit".to_owned(), "c-name c-name--limit")));
        let places: Vec<f64> = names.iter().map(|(at, _, _)| *at).collect();
        for (name, place) in names.iter_mut().zip(spread(&places, NAME, (6.0, base + 3.0))) {
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
        let units = unit_labels(course).into_iter().enumerate().map(|(unit, label)| {
            let bottom = base + FOOT + UNIT * (unit as f64 + 1.0) - 3.0;
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
            (bottom, steps.clone().map(bar).collect(), label)
        });
        Self {
            across,
            space: Space { height: least_height(course) - PLOT + plot, ..space },
            base,
            range,
            system,
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

/// The least height of the chart of a course, px.
pub(super) fn least_height(course: &Course) -> f64 {
    TOP + PLOT + FOOT + UNIT * course.units.len() as f64
}

/// Half a step, h.
fn half(stretch: &Stretch) -> f64 {
    stretch.minutes() as f64 / 120.0
}

/// Hours across the plot; at its right there is room for the longest name.
fn across(course: &Course, width: f64) -> Scale {
    let longest = unit_labels(course).iter().map(|label| label.chars().count()).max().unwrap_or(0);
    let right = RIGHT.max(longest as f64 * LETTER + 10.0);
    Scale::new((0.0, 24.0), (LEFT, (width - right).max(LEFT + 60.0)))
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

/// The chart of the chosen day.
#[component]
pub(super) fn DayChart(
    /// What was reckoned.
    course: Memo<Kept>,
) -> impl IntoView {
    let ViewState { units, day, minute, .. } = use_view();
    let frame = NodeRef::<html::Div>::new();
    let space = space_of(frame);
    let drawn = Memo::new(move |_| {
        course.with(|kept| kept.0.as_ref().map(|course| Drawn::of(course, day.get(), space.get(), units.get())))
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
        let Some(hour) = drawn.with_untracked(|drawn| Some(drawn.as_ref()?.across.figure(place))) else { return };
        let hour = hour.clamp(0.0, 23.999);
        go((hour / 24.0 * steps() as f64) as usize);
    };
    let pencil = move || {
        let drawn = drawn.get()?;
        course.with(|kept| {
            let course = kept.0.as_ref()?;
            let stretch = Stretch::of(course, day.get());
            let x = drawn.across.at(stretch.middle(step.get()));
            Some(view! { <path class="c-now" d=format!("M{x:.1} {TOP}V{:.1}", drawn.space.height) /> })
        })
    };
    let least = move || course.with(|kept| kept.0.as_ref().map_or(PLOT, |course| least_height(course)));
    view! {
        <div
            class="chart"
            style:min-height=move || format!("{}px", least())
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
    let Drawn { across, space, base, range, system, .. } = *drawn;
    let (left, right) = (across.at(0.0), across.at(24.0));
    let plot = Plot { range, across: (left, right), top: TOP, base };
    let hours = [0.0, 6.0, 12.0, 18.0, 24.0]
        .map(|hour| (across.at(hour), if hour < 24.0 { format!("{hour}") } else { "24 h".to_owned() }));
    let over = drawn.over.iter().map(|path| view! { <path class="c-over" d=path.clone() /> });
    let limits = drawn.limits.iter().map(|y| view! { <path class="c-limit" d=plot.level(*y) /> });
    let names = drawn.names.iter().map(|(y, name, class)| {
        view! { <text class=*class x=right + 6.0 y=*y>{name.clone()}</text> }
    });
    let units = drawn.units.iter().map(|(y, bars, name)| {
        view! {
            <path class="c-grid" d=plot.level(*y) />
            <path class="c-duty" d=bars.clone() />
            <text class="c-name" x=right + 6.0 y=*y>{name.clone()}</text>
        }
    });
    let sun_name = drawn
        .sun_name
        .map(|(x, y)| view! { <text class="c-name c-name--sun" x=x y=y text-anchor="middle">"sun"</text> });
    view! {
        <svg class="chart__svg" width=space.width height=space.height aria-hidden="true">
            {plot.grid(hours.into_iter(), system)}
            <path class="c-sun" d=drawn.sun.clone() />
            {sun_name}
            {plot.degrees(system)}
            {plot.axes()}
            {over.collect_view()}
            {limits.collect_view()}
            <path class="c-out" d=drawn.outside.clone() />
            {inside_curves(&drawn.inside)}
            {names.collect_view()}
            {units.collect_view()}
            {move || pencil()}
        </svg>
    }
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
