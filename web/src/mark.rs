//! The mark: the ground line and the limit line, with a cabinet inside them.

use leptos::prelude::*;

use crate::lean::view;

/// The mark.
#[component]
pub fn Mark(
    /// Width and height, px.
    size: u32,
) -> impl IntoView {
    view! {
        <svg class="mark" viewBox="0 0 36 36" width=size height=size aria-hidden="true">
            <path d="M0 27.5H36" stroke="currentColor" stroke-width="3" />
            <path d="M28 0V36" stroke="currentColor" stroke-width="2" />
            <rect x="6" y="7" width="8" height="19" fill="none" stroke="currentColor" stroke-width="2" />
            <rect x="14" y="7" width="8" height="19" fill="url(#p-ink)" stroke="currentColor" stroke-width="2" />
            <path d="M14 14.5L21.5 7M14 21.5L22 13.5M14.5 26L22 19" stroke="currentColor" stroke-width="1.2" />
        </svg>
    }
}
