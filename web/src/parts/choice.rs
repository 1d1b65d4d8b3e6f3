//! A choice of options, each judged before it is chosen.

use leptos::prelude::*;
use project::Edit;
use rules::{Outcome, Phrase};

use crate::editor::Editor;
use crate::parts::{Stamp, outcome_class};

/// One option, and what it would lead to.
#[derive(Clone, Debug)]
pub struct Judged {
    /// What it is called.
    pub name: String,
    /// The edit that takes it.
    pub edit: Edit,
    /// Whether it is what stands now.
    pub fitted: bool,
    /// The worst outcome with it, and that in words; absent when it would be refused.
    pub would: Option<(Outcome, Phrase)>,
}

/// Tries each edit out before it is offered.
#[must_use]
pub fn judge(editor: Editor, options: Vec<(String, Edit, bool)>) -> Vec<Judged> {
    options
        .into_iter()
        .map(|(name, edit, fitted)| {
            let would = editor.tried(&edit).and_then(|derived| {
                let worst = derived.report.badges.iter().max_by_key(|badge| badge.outcome)?;
                let words = if worst.outcome == Outcome::Holds {
                    Phrase::from("everything holds")
                } else {
                    let mut words = Phrase::from(worst.topic.name()).text(" ");
                    words.0.extend(worst.said.0.iter().cloned());
                    words
                };
                Some((worst.outcome, words))
            });
            Judged { name, edit, fitted, would }
        })
        .collect()
}

/// The options as a list; choosing one carries out its edit.
#[component]
pub fn Choices(
    /// Name of the list.
    #[prop(into)]
    label: String,
    /// The options.
    options: Vec<Judged>,
    /// Called with the edit that was chosen.
    #[prop(into)]
    on_choose: Callback<Edit>,
) -> impl IntoView {
    let units = crate::view_state::use_view().units;
    let rows = options
        .into_iter()
        .map(|option| {
            let Judged { name, edit, fitted, would } = option;
            let class = would.as_ref().map_or("o-needs", |(outcome, _)| outcome_class(*outcome));
            let stamp = would.as_ref().map(|(outcome, _)| view! { <Stamp outcome=*outcome size=22 /> });
            let words = would.map(|(_, words)| words);
            view! {
                <li>
                    <button
                        type="button"
                        class=format!("option {class}")
                        aria-pressed=fitted.to_string()
                        autofocus=fitted
                        on:click=move |_| on_choose.run(edit.clone())
                    >
                        <span class="option__stamp">{stamp}</span>
                        <span class="option__text">
                            <span class="option__name">{name}</span>
                            <span class="said">
                                {move || words.as_ref().map_or_else(|| "cannot be made".to_owned(), |words| words.shown(units.get()))}
                            </span>
                        </span>
                        <span class="option__cost">{fitted.then_some("fitted")}</span>
                    </button>
                </li>
            }
        })
        .collect_view();
    view! { <ul class="options" aria-label=label>{rows}</ul> }
}
