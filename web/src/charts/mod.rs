//! Heat over time: the year as a layer of earth under the ground line, and on the bench the day, the hours of the year, and
//! what happens when cooling stands still. **Invariant:** draws what a course holds and reckons nothing of its own.

mod axes;
mod bus;
mod calendar;
mod compass;
mod day;
mod drawn;
mod duration;
mod layer;
mod months;
mod scale;
mod space;
mod standstill;
mod stretch;
mod sun;
mod table;
mod weather;
mod words;
mod year;

use leptos::prelude::*;
use units::{Kind, Value, show};

use crate::course::{CourseState, STOPPED};
use crate::editor::use_editor;
use crate::lean::{Memo, view};
use crate::view_state::{ViewState, use_view};
pub(crate) use axes::{Plot, along, pieces};
pub(crate) use compass::Compass;
use day::{DayChart, Kept, chosen_step};
pub(crate) use drawn::line;
pub(crate) use duration::Duration;
pub(crate) use scale::{Scale, round_range, spread, ticks};
pub(crate) use space::space_of;
pub(crate) use standstill::Standstill;
pub use stretch::Day;
use stretch::Stretch;
pub use sun::{SunNow, sun_now};
pub(crate) use words::day as day_words;
pub(crate) use year::Earth;

/// The course to draw: the present one, or the one before while the present one is reckoned.
#[must_use]
pub fn course_drawn() -> Memo<Kept> {
    let editor = use_editor();
    Memo::new(move |_| Kept(editor.course().shown()))
}

/// What stands in place of a chart or beside an old one; nothing when the course is there and fresh.
#[must_use]
pub fn instead() -> Memo<Option<String>> {
    let editor = use_editor();
    Memo::new(move |_| match &editor.course() {
        CourseState::None => Some("The year will follow".to_owned()),
        CourseState::Working { share, .. } => Some(format!("Working out the year: {:.0}\u{a0}%", share * 100.0)),
        CourseState::Stopped => Some(STOPPED.to_owned()),
        CourseState::Problem(words) => Some(words.clone()),
        CourseState::Ready(_) => None,
    })
}

/// What stands on the bench in place of a chart.
#[component]
pub(crate) fn Instead() -> impl IntoView {
    let instead = instead();
    view! { <p class="over-time__instead">{move || instead.get()}</p> }
}

/// One day: what it says at the chosen time, the chart, and the same in numbers.
#[component]
pub(crate) fn OneDay() -> impl IntoView {
    let ViewState { units, day, minute, .. } = use_view();
    let course = course_drawn();
    let said = move || {
        course.with(|kept| {
            let course = kept.0.as_ref()?;
            let (stretch, units) = (Stretch::of(course, day.get()), units.get());
            let step = chosen_step(course, day.get(), minute.get());
            let number = |figure: f64| show(Value::new(figure, Kind::Temperature), units).number;
            let figures = (0..course.rooms.len()).map(|room| {
                view! { {words::room_name(course, room)} " " <b>{number(stretch.air(room, step))}</b> ", " }
            });
            Some(view! {
                <span class="pencil">{words::clock(&stretch, step)}</span> " "
                {figures.collect_view()}
                "outside " <b>{words::temperature(stretch.outside(step), units)}</b>
                {format!(", {}", words::sun(stretch.sun(step), units))}
            })
        })
    };
    let rest = move || {
        minute.get().map(|_| {
            view! { <button type="button" class="blank day__rest" on:click=move |_| minute.set(None)>"Usual light"</button> }
        })
    };
    view! {
        <p class="day__read">{move || said()}</p>
        <DayChart course />
        <div class="day__foot">
            {move || rest()}
            <details class="numbers">
                <summary>"The same in numbers"</summary>
                {move || course.with(|kept| kept.0.as_ref().map(|course| table::day_table(course, day.get(), units.get())))}
            </details>
        </div>
    }
}

/// The day of the year that can be looked at: the one last picked, else the one with the hottest hour.
#[must_use]
pub(crate) fn day_of_year() -> Memo<Day> {
    let (course, day) = (course_drawn(), use_view().day);
    let picked = Memo::new(move |last: Option<&Option<usize>>| match day.get() {
        Day::OfYear(day) => Some(day),
        Day::Hottest | Day::Coldest => last.copied().flatten(),
    });
    Memo::new(move |_| {
        let hottest = course.with(|kept| {
            let year = kept.0.as_ref().and_then(|course| course.room_years.first());
            year.map_or(0, |year| year.highest_at as usize / calendar::DAY)
        });
        Day::OfYear(picked.get().unwrap_or(hottest))
    })
}
