//! What lies to the right of the working: the questions of the topic, heat over time, or the wiring.

use leptos::prelude::*;
use rules::Topic;

use super::Questions;
use crate::charts::{Day, Duration, Instead, OneDay, Standstill, course_drawn, day_of_year, day_words};
use crate::lean::{Memo, RwSignal, effect, view};
use crate::selection::Selection;
use crate::view_state::{ViewState, use_view};
use crate::wiring::{Breakers, Chosen, Discharge, OneLine, Terminals, Wires};

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
    /// The network of power as a one-line diagram.
    OneLine,
    /// The schedules of breakers.
    Breakers,
    /// The wire list.
    Wires,
    /// Alarm terminals and ground bars.
    Terminals,
    /// How the batteries run down.
    Discharge,
}

impl SideOf {
    /// Whether it is one of supply and backup rather than of heat. These say themselves what is selected, so that its panel
    /// takes their place only when it is asked for.
    pub(super) const fn is_wired(self) -> bool {
        matches!(self, Self::OneLine | Self::Breakers | Self::Wires | Self::Terminals | Self::Discharge)
    }
}

/// What lies there now. While nobody has chosen, it is what goes with the topic.
pub(super) fn side_now() -> Memo<SideOf> {
    let ViewState { topic, side, .. } = use_view();
    Memo::new(move |_| match (side.get(), topic.get()) {
        (Some(side), _) => side,
        (None, Topic::Heat | Topic::Year) => SideOf::Day,
        (None, Topic::Power) => SideOf::OneLine,
        (None, Topic::Backup) => SideOf::Discharge,
        (None, _) => SideOf::Questions,
    })
}

/// Whether the panel of what is selected takes the place of a side that shows it as well.
#[derive(Clone, Copy)]
pub(crate) struct PanelOpened(RwSignal<bool>);

impl PanelOpened {
    /// Opens the panel.
    pub(crate) fn open(self) {
        self.0.set(true);
    }

    /// Leaves it to the side.
    pub(crate) fn close(self) {
        self.0.set(false);
    }
}

/// The right half of the bench: the panel of what is selected, or the side.
#[component]
pub(crate) fn Beside() -> impl IntoView {
    let ViewState { topic, selected, .. } = use_view();
    let now = side_now();
    let opened = PanelOpened(RwSignal::new(false));
    provide_context(opened);
    effect(move |_| {
        topic.track();
        if selected.get().is_none() {
            opened.close();
        }
    });
    let panel = Memo::new(move |_| selected.get().is_some() && (opened.0.get() || !now.get().is_wired()));
    move || {
        if panel.get() {
            view! { <Selection /> }
        } else {
            view! { <Side now /> }
        }
    }
}

/// The side, under the words that choose it.
#[component]
fn Side(
    /// What lies there.
    now: Memo<SideOf>,
) -> impl IntoView {
    let ViewState { topic, side, day, .. } = use_view();
    let course = course_drawn();
    let there = Memo::new(move |_| course.with(|kept| kept.0.is_some()));
    let of_year = day_of_year();
    let wired = Memo::new(move |_| now.get().is_wired() || matches!(topic.get(), Topic::Power | Topic::Backup));
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
            {move || if wired.get() {
                view! {
                    {side_word("One-line", SideOf::OneLine)}
                    {side_word("Breakers", SideOf::Breakers)}
                    {side_word("Wire list", SideOf::Wires)}
                    {side_word("Terminals", SideOf::Terminals)}
                    {side_word("Discharge", SideOf::Discharge)}
                }
            } else {
                view! {
                    {day_word(Day::Hottest)}
                    {day_word(Day::Coldest)}
                    {move || there.get().then(|| day_word(of_year.get()))}
                    {side_word("Hours", SideOf::Hours)}
                    {side_word("Without cooling", SideOf::Standstill)}
                }
            }}
        </div>
        {move || now.get().is_wired().then(|| view! { <Chosen /> })}
        {move || match (now.get(), there.get()) {
            (SideOf::Questions, _) => view! { <Questions /> },
            (SideOf::OneLine, _) => view! { <OneLine /> },
            (SideOf::Breakers, _) => view! { <Breakers /> },
            (SideOf::Wires, _) => view! { <Wires /> },
            (SideOf::Terminals, _) => view! { <Terminals /> },
            (SideOf::Discharge, _) => view! { <Discharge /> },
            (_, false) => view! { <Instead /> },
            (SideOf::Day, true) => view! { <OneDay /> },
            (SideOf::Hours, true) => view! { <Duration /> },
            (SideOf::Standstill, true) => view! { <Standstill /> },
        }}
    }
}
