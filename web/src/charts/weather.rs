//! The weather that the year is reckoned in.

use leptos::prelude::*;

use super::day::Kept;
use crate::course::ClimateRow;
use crate::lean::{Memo, RwSignal, view};
use crate::parts::{Anchor, Sheetlet, anchor_of};

/// The word that opens what weather the year is reckoned in, and what was corrected or assumed.
#[component]
pub(super) fn WeatherBlank(
    /// What was reckoned.
    course: Memo<Kept>,
) -> impl IntoView {
    let open = RwSignal::new(None::<Anchor>);
    let about = move || {
        course.with(|kept| {
            let course = kept.0.as_ref()?;
            let notes = course.notes.iter().map(|note| view! { <li>{note.clone()}</li> }).collect_view();
            let notes = (!course.notes.is_empty())
                .then(|| view! { <ul class="weather__notes" aria-label="Corrected or assumed">{notes}</ul> });
            Some(view! { <p>{course.weather.clone()}</p> {notes} })
        })
    };
    view! {
        <button type="button" class="blank" aria-haspopup="dialog" on:click=move |event| open.set(Some(anchor_of(&event)))>
            "weather"<span class="sr">" of the year"</span>
        </button>
        <Sheetlet open label="Weather of the year">
            <p class="sheetlet__head">"Weather of the year"</p>
            {move || about()}
            <ClimateRow on_done=Callback::new(move |()| open.set(None)) />
        </Sheetlet>
    }
}
