//! What lies to the right of the working: the questions of the topic, or heat over time.

use leptos::prelude::*;
use rules::Topic;

use super::Questions;
use crate::charts::{Day, Duration, Instead, OneDay, Standstill, course_drawn, day_of_year, day_words};
use crate::lean::{Memo, view};
use crate::view_state::{ViewState, use_view};

/// What can lie there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SideOf {
    /// Every question of the topic.
    Questions,
    /// One day as a chart.
    Day,
    /// The hours of the year above each temperature.
    Hours,
    /// What happens without cooling.
    Standstill,
}

/// The right half of the bench. While nobody has chosen, heat shows its day and every other topic its questions.
#[component]
pub fn Side() -> impl IntoView {
    let ViewState { topic, side, day, .. } = use_view();
    let now = Memo::new(move |_| match (side.get(), topic.get()) {
        (Some(side), _) => side,
        (None, Topic::Heat | Topic::Year) => SideOf::Day,
        (None, _) => SideOf::Questions,
    });
    let course = course_drawn();
    let there = Memo::new(move |_| course.with(|kept| kept.0.is_some()));
    let of_year = day_of_year();
    let word = move |name: String, pressed: Memo<bool>, press: Box<dyn Fn() + Send + Sync>| {
        view! {
            <button type="button" class="word" aria-pressed=move || pressed.get().to_string() on:click=move |_| press()>
                {name}
            </button>
        }
    };
    let side_word = move |name: &str, of: SideOf| {
        word(name.to_owned(), Memo::new(move |_| now.get() == of), Box::new(move || side.set(Some(of))))
    };
    let day_word = move |of: Day| {
        let pressed = Memo::new(move |_| now.get() == SideOf::Day && day.get() == of);
        let press = move || {
            day.set(of);
            side.set(Some(SideOf::Day));
        };
        word(day_words(of), pressed, Box::new(press))
    };
    view! {
        <div class="views side__words" role="group" aria-label="Beside the working">
            {side_word("Questions", SideOf::Questions)}
            {day_word(Day::Hottest)}
            {day_word(Day::Coldest)}
            {move || there.get().then(|| day_word(of_year.get()))}
            {side_word("Hours", SideOf::Hours)}
            {side_word("Without cooling", SideOf::Standstill)}
        </div>
        {move || match (now.get(), there.get()) {
            (SideOf::Questions, _) => view! { <Questions /> },
            (_, false) => view! { <Instead /> },
            (SideOf::Day, true) => view! { <OneDay /> },
            (SideOf::Hours, true) => view! { <Duration /> },
            (SideOf::Standstill, true) => view! { <Standstill /> },
        }}
    }
}
