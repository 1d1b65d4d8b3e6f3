//! The five stamps: an outcome is told by its word, its shape and its hatching before its colour.

use leptos::prelude::*;

use crate::lean::view;
use rules::Outcome;

/// The class that sets the colour and hatching of an outcome for everything inside.
#[must_use]
pub const fn outcome_class(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Holds => "o-holds",
        Outcome::Tight => "o-tight",
        Outcome::Fails => "o-fails",
        Outcome::NeedsData => "o-needs",
        Outcome::OutOfRange => "o-beyond",
    }
}

const fn stamp_class(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Holds => "stamp stamp--holds",
        Outcome::Tight => "stamp stamp--tight",
        Outcome::Fails => "stamp stamp--fails",
        Outcome::NeedsData => "stamp stamp--needs",
        Outcome::OutOfRange => "stamp stamp--beyond",
    }
}

/// A stamp, named by its outcome's word.
#[component]
pub fn Stamp(
    /// The outcome.
    outcome: Outcome,
    /// Width and height, px.
    #[prop(default = 27)]
    size: u32,
) -> impl IntoView {
    let shape = match outcome {
        Outcome::Holds => view! {
            <rect x="5" y="4" width="18" height="18" fill="url(#p-holds)" stroke="currentColor" stroke-width="2" />
            <path d="M1 25.5H27" stroke="currentColor" stroke-width="2" />
        }
        .into_any(),
        Outcome::Tight => view! {
            <path d="M3 2V26M25 2V26" stroke="currentColor" stroke-width="3.4" />
            <rect x="8.2" y="5" width="11.6" height="18" fill="url(#p-tight)" stroke="currentColor" stroke-width="1.8" />
        }
        .into_any(),
        Outcome::Fails => view! {
            <path d="M4 3H20V11L15.5 9.5L12 14L7.5 12.5L4 15Z" fill="url(#p-fails)" stroke="currentColor" stroke-width="2" stroke-linejoin="round" />
            <path d="M8 18L11.5 15.7L16 17L19.5 12.6L24 14V25H8Z" fill="currentColor" stroke="currentColor" stroke-width="2" stroke-linejoin="round" />
        }
        .into_any(),
        Outcome::NeedsData => view! {
            <rect x="4" y="4" width="20" height="20" fill="none" stroke="currentColor" stroke-width="2" stroke-dasharray="4 2.67" />
            <path d="M8 19H20" stroke="currentColor" stroke-width="2" />
            <circle cx="9.5" cy="15" r="1.2" fill="currentColor" />
            <circle cx="14" cy="15" r="1.2" fill="currentColor" />
            <circle cx="18.5" cy="15" r="1.2" fill="currentColor" />
        }
        .into_any(),
        Outcome::OutOfRange => view! {
            <path d="M2 14H17M2 6V22M17 6V22" fill="none" stroke="currentColor" stroke-width="2.2" />
            <path d="M6.5 14V10M12 14V10" stroke="currentColor" stroke-width="1.4" />
            <circle cx="23.5" cy="14" r="3.4" fill="none" stroke="currentColor" stroke-width="2.2" />
        }
        .into_any(),
    };
    view! {
        <svg class=stamp_class(outcome) viewBox="0 0 28 28" width=size height=size role="img" aria-label=outcome.word()>
            {shape}
        </svg>
    }
}
