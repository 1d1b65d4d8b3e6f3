//! The one live region: which topics changed outcome, said once, after a moment of quiet.

use std::time::Duration;

use leptos::prelude::*;
use rules::{Outcome, Topic};
use units::System;

use crate::editor::{Editor, use_editor};
use crate::lean::{RwSignal, effect, view};
use crate::view_state::use_view;

/// How long it waits for quiet.
const QUIET: Duration = Duration::from_millis(600);

/// The live region.
#[component]
pub fn LiveRegion() -> impl IntoView {
    let editor = use_editor();
    let units = use_view().units;
    let said = RwSignal::new(String::new());
    let told = StoredValue::new(outcomes(editor));
    let waiting = StoredValue::new(None::<TimeoutHandle>);
    effect(move |_| {
        let _ = editor.report();
        if let Some(timer) = waiting.get_value() {
            timer.clear();
        }
        let timer = set_timeout_with_handle(
            move || {
                let now = outcomes(editor);
                let words = changes(editor, &told.get_value(), &now, units.get_untracked());
                told.set_value(now);
                if !words.is_empty() {
                    said.set(words);
                }
            },
            QUIET,
        );
        // Without a timer nothing is said; the sheet itself still shows it.
        waiting.set_value(timer.ok());
    });
    view! { <p class="sr" role="status" aria-live="polite">{move || said.get()}</p> }
}

fn outcomes(editor: Editor) -> Vec<(Topic, Outcome)> {
    untrack(|| editor.report().badges.iter().map(|badge| (badge.topic, badge.outcome)).collect())
}

fn changes(editor: Editor, before: &[(Topic, Outcome)], now: &[(Topic, Outcome)], units: System) -> String {
    let report = untrack(|| editor.report());
    let words: Vec<String> = now
        .iter()
        .filter(|state| !before.contains(state))
        .filter_map(|(topic, _)| report.badges.iter().find(|badge| badge.topic == *topic))
        .map(|badge| format!("{} {}.", badge.topic.name(), badge.said.shown(units)))
        .collect();
    words.join(" ")
}
