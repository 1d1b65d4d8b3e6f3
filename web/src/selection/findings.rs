//! The findings about one subject.

use leptos::prelude::*;
use rules::{Finding, Subject, check_by_code};

use crate::editor::use_editor;
use crate::lean::{Memo, view};
use crate::parts::{Stamp, outcome_class};
use crate::view_state::{ViewState, use_view};

/// What the checks find about a subject; pressing one lays its working on the bench.
#[component]
pub(super) fn Findings(
    /// The subject.
    subject: Subject,
) -> impl IntoView {
    let editor = use_editor();
    let found = Memo::new(move |_| {
        let report = editor.report();
        let about = report.findings.iter().enumerate().filter(|(_, finding)| finding.subject == subject);
        about.map(|(index, finding)| (index, finding.clone())).collect::<Vec<_>>()
    });
    let rows = move || found.get().into_iter().map(|(index, finding)| view! { <Row index finding /> }).collect_view();
    view! {
        <ul class="findings" aria-label="What the checks find">{move || rows()}</ul>
        {move || found.with(Vec::is_empty).then(|| view! { <p class="field__help">"No check has anything to say about it."</p> })}
    }
}

#[component]
fn Row(index: usize, finding: Finding) -> impl IntoView {
    let ViewState { topic, finding: chosen, units, .. } = use_view();
    let Some(check) = check_by_code(finding.code) else { return ().into_any() };
    let outcome = finding.outcome;
    let said = finding.said();
    let about = finding.about;
    view! {
        <li>
            <button
                type="button"
                class=format!("finding {}", outcome_class(outcome))
                aria-current=move || (topic.get() == check.topic && chosen.get() == Some(index)).to_string()
                on:click=move |_| {
                    topic.set(check.topic);
                    chosen.set(Some(index));
                }
            >
                <Stamp outcome size=20 />
                <span class="finding__code">{check.code}</span>
                <span class="finding__what">{check.question}<span class="finding__about">{move || about.shown(units.get())}</span></span>
                <span class="finding__side"><span class="said">{move || said.shown(units.get())}</span></span>
            </button>
        </li>
    }
    .into_any()
}
