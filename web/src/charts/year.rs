//! The year as a layer of earth under the cabinet: days across, hours up, in seven steps from cold to above the limit.

use climate::{DAYS, HOURS, MONTHS, date};
use leptos::{ev, prelude::*};
use rules::course::{Course, Series};
use units::{Kind, System, Value, number_in, show, unit_name};
use wasm_bindgen::JsCast;

use super::calendar::{DAY, month_on};
use super::day::Kept;
use super::layer::{Layer, LayerBlank};
use super::stretch::{Day, Stretch};
use super::weather::WeatherBlank;
use super::words::temperature;
use crate::lean::{Memo, RwSignal, view};
use crate::view_state::{ViewState, use_view};

/// Drawing units of a day across and of an hour up, so that hatchings keep about their pitch.
const ACROSS: f64 = 2.4;
const UP: f64 = 2.0;
/// The whole map.
const WIDTH: f64 = ACROSS * DAYS as f64;
const HEIGHT: f64 = UP * DAY as f64;

/// Washes, the last one for what is above the limit.
const WASHES: usize = 7;
/// The wash above the limit.
const OVER: usize = 6;

/// The wash of a figure.
fn wash(figure: f64, steps: [f64; 5], limit: Option<f64>) -> usize {
    if limit.is_some_and(|limit| figure > limit) { OVER } else { steps.iter().filter(|step| figure >= **step).count() }
}

/// One path for each wash: in every day the hours that have it, midnight at the bottom.
fn washes(series: &Series, steps: [f64; 5], limit: Option<f64>) -> [String; WASHES] {
    let mut paths: [String; WASHES] = Default::default();
    for day in 0..DAYS {
        let of = |hour: usize| series.at(day * DAY + hour).map(|figure| wash(figure, steps, limit));
        let mut hour = 0;
        while hour < DAY {
            let here = of(hour);
            let from = hour;
            while hour < DAY && of(hour) == here {
                hour += 1;
            }
            if let Some(path) = here.and_then(|wash| paths.get_mut(wash)) {
                let (x, y) = (ACROSS * day as f64, HEIGHT - UP * hour as f64);
                // A little wider than a day, so that no seam shows between two.
                *path +=
                    &format!("M{x:.1} {y}h{:.1}v{}h-{:.1}z", ACROSS + 0.3, UP * (hour - from) as f64, ACROSS + 0.3);
            }
        }
    }
    paths
}

/// Sunrise and sunset through the year, as two lines; where the sun stays up or down they run along an edge.
fn sun_lines(height: &Series) -> [String; 2] {
    let mut lines: [String; 2] = Default::default();
    for day in 0..DAYS {
        let up = |hour: &usize| height.at(day * DAY + hour).is_some_and(|height| height > 0.0);
        let (Some(rise), Some(set)) = ((0..DAY).find(up), (0..DAY).rev().find(up)) else { continue };
        for (line, hour) in lines.iter_mut().zip([rise, set + 1]) {
            let start = if line.is_empty() { 'M' } else { 'L' };
            *line += &format!("{start}{:.1} {:.1}", ACROSS * (day as f64 + 0.5), HEIGHT - UP * hour as f64);
        }
    }
    lines
}

/// All that is drawn, but the pencil.
#[derive(Clone, PartialEq)]
struct Drawn {
    paths: [String; WASHES],
    steps: [f64; 5],
    sun: [String; 2],
}

/// What the year comes to, in a phrase: how long it is too warm, or by how much it stays below.
fn verdict(course: &Course, room: usize, units: System) -> (&'static str, String) {
    let (Some(about), Some(year)) = (course.rooms.get(room), course.room_years.get(room)) else {
        return ("", String::new());
    };
    let Some(limit) = about.hot_limit else {
        return ("o-needs", format!("up to {}, no limit set", temperature(year.highest, units)));
    };
    let words = temperature(limit, units);
    match year.hours_above {
        Some(hours) if hours > 0.0 => {
            let hours = show(Value::new(hours.max(1.0), Kind::Count), units).number;
            ("o-fails", format!("{} h above {words}", hours.split('.').next().unwrap_or("0")))
        }
        _ => {
            let margin = Value::new(limit - year.highest, Kind::TemperatureDifference);
            ("o-holds", format!("{} below {words}", show(margin, units)))
        }
    }
}

/// The year under the ground line.
#[component]
pub fn Earth(
    /// What was reckoned.
    course: Memo<Kept>,
    /// What stands in its place, while there is nothing.
    #[prop(into)]
    instead: Signal<Option<String>>,
) -> impl IntoView {
    let ViewState { units, day, minute, .. } = use_view();
    let layer = RwSignal::new(Layer::Inside(0));
    let hovered = RwSignal::new(None::<usize>);
    // A layer that the present build does not have gives way to the first room.
    let layer_now = Memo::new(move |_| {
        course.with(|kept| match &kept.0 {
            Some(course) if layer.get().series(course).is_some() => layer.get(),
            _ => Layer::Inside(0),
        })
    });
    let drawn = Memo::new(move |_| {
        course.with(|kept| {
            let (course, layer) = (kept.0.as_ref()?, layer_now.get());
            let paths = washes(layer.series(course)?, layer.steps(course), layer.limit(course));
            Some(Drawn { paths, steps: layer.steps(course), sun: sun_lines(&course.year.sun_height) })
        })
    });
    let there = Memo::new(move |_| drawn.with(Option::is_some));
    let missing = Memo::new(move |_| (!there.get()).then(|| instead.get().unwrap_or_default()));
    // The hour the pencil stands on, counted through the year; none on a day that is not of this year.
    let hour = move || match day.get() {
        Day::OfYear(day) => Some(day * DAY + minute.get().map_or(12, |minute| minute / 60)),
        Day::Hottest | Day::Coldest => None,
    };
    let go = move |to: usize| {
        let to = to.min(HOURS - 1);
        day.set(Day::OfYear(to / DAY));
        minute.set(Some(to % DAY * 60));
    };
    let reading = move |hour: usize| {
        course.with(|kept| {
            let Some(course) = &kept.0 else { return String::new() };
            let stretch = Stretch::of(course, Day::OfYear(hour / DAY));
            format!("{}, {}", date(hour / DAY), super::words::moment(course, &stretch, hour % DAY, units.get()))
        })
    };
    let start = move || {
        course.with_untracked(|kept| {
            kept.0.as_ref().and_then(|course| course.room_years.first()).map_or(0, |year| year.highest_at as usize)
        })
    };
    let key = move |event: ev::KeyboardEvent| {
        let now = match (day.get_untracked(), minute.get_untracked()) {
            (Day::OfYear(day), minute) => day * DAY + minute.map_or(12, |minute| minute / 60),
            _ => start(),
        };
        let to = match event.key().as_str() {
            "ArrowLeft" => now.saturating_sub(DAY),
            "ArrowRight" => now + DAY,
            "ArrowDown" => now.saturating_sub(1),
            "ArrowUp" => now + 1,
            "PageDown" => month_on(now / DAY, false) * DAY + now % DAY,
            "PageUp" => month_on(now / DAY, true) * DAY + now % DAY,
            "Home" => now % DAY,
            "End" => (DAYS - 1) * DAY + now % DAY,
            "Escape" => {
                minute.set(None);
                return;
            }
            _ => return,
        };
        event.prevent_default();
        if to < HOURS {
            go(to);
        }
    };
    let pencil = move || {
        hour().map(|hour| {
            let (x, y) = (ACROSS * ((hour / DAY) as f64 + 0.5), HEIGHT - UP * ((hour % DAY) as f64 + 0.5));
            view! { <path class="y-now" d=format!("M{x:.1} 0V{HEIGHT}M{:.1} {y}H{:.1}", x - 6.0, x + 6.0) /> }
        })
    };
    let map = move || {
        let Drawn { paths, sun, .. } = drawn.get()?;
        let over = paths[OVER].clone();
        let washes = paths
            .into_iter()
            .enumerate()
            .map(|(wash, path)| view! { <path class=format!("y-wash y-wash--{wash}") d=path /> });
        let between = MONTHS.iter().skip(1).map(|month| format!("M{:.1} 0V{HEIGHT}", ACROSS * month.first as f64));
        let between: String = between.collect();
        Some(view! {
            <svg class="year__svg" viewBox=format!("0 0 {WIDTH} {HEIGHT}") preserveAspectRatio="none" aria-hidden="true">
                {washes.collect_view()}
                <path class="c-over" d=over />
                {sun.into_iter().map(|path| view! { <path class="y-sun" d=path /> }).collect_view()}
                <path class="y-month" d=between />
                <rect class="y-frame" x="0" y="0" width=WIDTH height=HEIGHT />
                {move || pencil()}
            </svg>
        })
    };
    let steps = move || {
        let (layer, units) = (layer_now.get(), units.get());
        let steps = drawn.with(|drawn| drawn.as_ref().map_or([0.0; 5], |drawn| drawn.steps));
        let swatches = steps.into_iter().enumerate().map(|(wash, step)| {
            let number = number_in(Value::new(step, layer.kind()), units);
            view! { <i class=format!("y-wash--{wash}")></i>{format!("{number:.0}")} }
        });
        view! { {swatches.collect_view()}<i class="y-wash--5"></i>{unit_name(layer.kind(), units)} }
    };
    let said = move || {
        if let Some(hour) = hovered.get() {
            return view! { <span class="year__read">{reading_short(course, hour, layer_now.get(), units.get())}</span> };
        }
        course.with(|kept| {
            let words = kept.0.as_ref().map(|course| match layer_now.get() {
                Layer::Inside(room) => verdict(course, room, units.get()),
                layer => ("", extremes(course, layer, units.get())),
            });
            let (class, words) = words.unwrap_or_default();
            view! { <span class=format!("said {class}")>{words}</span> }
        })
    };
    let names = MONTHS.into_iter().map(|month| {
        let short: String = month.name.chars().take(3).collect();
        view! { <span style:flex-grow=month.days.to_string()>{short}</span> }
    });
    view! {
        <section class="year" class:year--none=move || !there.get() class:year--old=move || instead.get().is_some() aria-label="The year">
            <div class="year__say">
                <h3 class="year__title">
                    "The year " {move || there.get().then(|| view! { <LayerBlank course layer now=layer_now /> })}
                </h3>
                {move || match missing.get() {
                    Some(words) => view! { <p class="year__instead" role="status">{words}</p> },
                    None => view! {
                        <p>{move || said()}</p>
                        <p class="year__key"><span class="year__steps" aria-hidden="true">{move || steps()}</span><WeatherBlank course /></p>
                    },
                }}
            </div>
            <div class="year__map">
                <div
                    class="year__hit"
                    role="slider"
                    tabindex="0"
                    aria-label="Hour of the year"
                    aria-valuemin="0"
                    aria-valuemax=(HOURS - 1).to_string()
                    aria-valuenow=move || hour().unwrap_or(0).to_string()
                    aria-valuetext=move || hour().map_or_else(|| "no hour chosen".to_owned(), reading)
                    on:keydown=key
                    on:pointermove=move |event| hovered.set(hour_under(&event))
                    on:pointerleave=move |_| hovered.set(None)
                    on:click=move |event| {
                        if let Some(hour) = hour_under(&event) {
                            go(hour);
                        }
                    }
                >
                    {move || map()}
                </div>
                <div class="year__months" aria-hidden="true">{names.collect_view()}</div>
            </div>
        </section>
    }
}

/// The hour of the year under the pointer.
fn hour_under(event: &web_sys::MouseEvent) -> Option<usize> {
    let element: web_sys::Element = event.current_target()?.dyn_into().ok()?;
    let area = element.get_bounding_client_rect();
    let across = (f64::from(event.client_x()) - area.left()) / area.width();
    let up = 1.0 - (f64::from(event.client_y()) - area.top()) / area.height();
    hour_at(across, up)
}

/// The hour at a place of the map, both from 0 to 1.
fn hour_at(across: f64, up: f64) -> Option<usize> {
    let inside = (0.0..1.0).contains(&across) && (0.0..1.0).contains(&up);
    inside.then(|| (across * DAYS as f64) as usize * DAY + (up * DAY as f64) as usize)
}

/// Date, hour and the one figure that the map shows there.
fn reading_short(course: Memo<Kept>, hour: usize, layer: Layer, units: System) -> String {
    course.with(|kept| {
        let figure = kept.0.as_ref().and_then(|course| layer.series(course)?.at(hour));
        let figure =
            figure.map_or_else(String::new, |figure| show(Value::new(figure, layer.kind()), units).to_string());
        format!("{}, {}\u{a0}h: {figure}", date(hour / DAY), hour % DAY)
    })
}

/// "from −12 to 41 °C".
fn extremes(course: &Course, layer: Layer, units: System) -> String {
    let range = layer.series(course).and_then(Series::range);
    range.map_or_else(String::new, |(low, high)| {
        let (low, high) = (show(Value::new(low, layer.kind()), units), show(Value::new(high, layer.kind()), units));
        format!("from {} to {high}", low.number)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const STEPS: [f64; 5] = [10.0, 20.0, 30.0, 40.0, 50.0];

    #[test]
    fn figures_fall_into_seven_washes() {
        let of = |figure| wash(figure, STEPS, Some(55.0));
        assert_eq!([of(-20.0), of(10.0), of(29.9), of(40.0), of(55.0), of(55.1)], [0, 1, 2, 4, 5, OVER]);
        assert_eq!(wash(90.0, STEPS, None), 5);
    }

    #[test]
    fn every_hour_is_drawn_once() {
        let warm: Series = (0..HOURS).map(|hour| if hour % DAY < 6 { 5.0 } else { 25.0 }).collect();
        let paths = washes(&warm, STEPS, None);
        let pieces: Vec<usize> = paths.iter().map(|path| path.matches('M').count()).collect();
        assert_eq!(pieces, [DAYS, 0, DAYS, 0, 0, 0, 0]);
        // The first day: six hours at the bottom, eighteen above them.
        assert!(paths[0].starts_with("M0.0 36h2.7v12h-2.7z"), "{}", &paths[0][..30]);
        assert!(paths[2].starts_with("M0.0 0h2.7v36h-2.7z"), "{}", &paths[2][..30]);
    }

    #[test]
    fn the_pointer_finds_its_hour() {
        assert_eq!(hour_at(0.0, 0.0), Some(0));
        assert_eq!(hour_at(0.9999, 0.9999), Some(HOURS - 1));
        assert_eq!((hour_at(1.0, 0.5), hour_at(0.5, -0.1), hour_at(f64::NAN, 0.5)), (None, None, None));
    }

    #[test]
    fn the_sun_lines_leave_out_polar_nights() {
        let never: Series = (0..HOURS).map(|_| -5.0).collect();
        assert_eq!(sun_lines(&never), [String::new(), String::new()]);
        let noon: Series = (0..HOURS).map(|hour| if (6..18).contains(&(hour % DAY)) { 40.0 } else { -40.0 }).collect();
        assert!(sun_lines(&noon)[0].starts_with("M1.2 36.0"), "{}", sun_lines(&noon)[0]);
    }
}
