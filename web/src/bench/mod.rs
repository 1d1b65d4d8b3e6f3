//! The bench: the working behind the chosen finding, and the questions of its topic.

mod side;
mod working;

use leptos::prelude::*;
use rules::{Finding, Outcome, Report, Topic, check_by_code};
use units::{System, show};

use crate::editor::use_editor;
use crate::lean::{Memo, RwSignal, effect, rows, view};
use crate::parts::{Stamp, outcome_class};
use crate::view_state::{ViewState, use_view};
pub use side::SideOf;
pub(crate) use side::{Beside, PanelOpened};
pub use working::Working;

/// The finding that lies on the bench: the chosen one if it is still of this topic, else the worst.
fn on_bench(report: &Report, topic: Topic, chosen: Option<usize>) -> Option<usize> {
    let of_topic = |index: &usize| {
        report
            .findings
            .get(*index)
            .and_then(|finding| check_by_code(finding.code))
            .is_some_and(|check| check.topic == topic)
    };
    chosen
        .filter(of_topic)
        .or_else(|| report.badges.iter().find(|badge| badge.topic == topic).map(|badge| badge.finding))
}

/// The finding on the bench, as a memo for its readers.
pub(crate) fn chosen_finding() -> Memo<Option<(usize, Finding)>> {
    let editor = use_editor();
    let ViewState { topic, finding, .. } = use_view();
    Memo::new(move |_| {
        let report = editor.report();
        let index = on_bench(&report, topic.get(), finding.get())?;
        Some((index, report.findings.get(index)?.clone()))
    })
}

/// The bench. On a short screen it closes to one line, which opens it.
#[component]
pub fn Bench(
    /// What lies to the right of the working.
    children: ChildrenFn,
) -> impl IntoView {
    let chosen = chosen_finding();
    let ViewState { units, topic, selected, .. } = use_view();
    let raised = RwSignal::new(false);
    let side = side::side_now();
    // Drawings and schedules want more room than their working.
    let wired = Memo::new(move |_| side.get().is_wired());
    let instead = crate::charts::instead();
    let old = Memo::new(move |_| instead.get().is_some());
    // On a short screen what was selected would else lie under the edge.
    effect(move |_| {
        if selected.get().is_some() {
            raised.set(true);
        }
    });
    let line = move || {
        chosen.get().map(|(_, finding)| {
            let question = check_by_code(finding.code).map_or("", |check| check.question);
            view! {
                <span class="work__code">{finding.code}</span>
                <span class="bench__question">{question}</span>
                <span class=format!("said {}", outcome_class(finding.outcome))>{finding.said().shown(units.get())}</span>
            }
        })
    };
    view! {
        <section class="bench" class:bench--raised=move || raised.get() class:bench--wired=move || wired.get() class:bench--old=move || old.get() aria-label=move || format!("{}, opened", topic.get().name())>
            <p class="bench__line">
                {move || line()}
                <button type="button" class="blank" aria-expanded=move || raised.get().to_string() on:click=move |_| raised.update(|raised| *raised = !*raised)>
                    {move || if raised.get() { "Close the working" } else { "Open the working" }}
                </button>
            </p>
            <div class="panel work" role="group" aria-label="Working" tabindex="0">{move || chosen.get().map(|(_, finding)| view! { <Working finding /> })}</div>
            <div class="panel bench__side">{children()}</div>
        </section>
    }
}

/// One question of the opened topic, as it is written down.
#[derive(Clone, PartialEq)]
struct Question {
    index: usize,
    code: &'static str,
    question: &'static str,
    about: String,
    figure: String,
    said: String,
    outcome: Outcome,
}

impl Question {
    /// Everything that its line shows.
    fn key(&self) -> String {
        let Self { index, code, about, figure, said, .. } = self;
        format!("{index}\n{code}\n{about}\n{figure}\n{said}\n{}", outcome_class(self.outcome))
    }
}

fn questions(report: &Report, topic: Topic, units: System) -> Vec<Question> {
    let all = report.findings.iter().enumerate();
    all.filter_map(|(index, finding)| {
        let check = check_by_code(finding.code).filter(|check| check.topic == topic)?;
        let tells = finding.outcome != Outcome::Holds || finding.margin.is_some();
        Some(Question {
            index,
            code: check.code,
            question: check.question,
            about: finding.about.shown(units),
            figure: finding.given.map_or_else(String::new, |given| show(given, units).to_string()),
            said: if tells { finding.said().shown(units) } else { String::new() },
            outcome: finding.outcome,
        })
    })
    .collect()
}

/// Every question of the opened topic, with its answer. Only lines that read differently are written anew.
#[component]
pub fn Questions() -> impl IntoView {
    let editor = use_editor();
    let ViewState { topic, finding: chosen, units, .. } = use_view();
    let current = chosen_finding();
    let current = Memo::new(move |_| current.get().map(|(index, _)| index));
    let questions = Memo::new(move |_| questions(&editor.report(), topic.get(), units.get()));
    let row = move |question: &Question| {
        let Question { index, code, question, about, figure, said, outcome } = question.clone();
        view! {
            <li>
                <button
                    type="button"
                    class=format!("finding {}", outcome_class(outcome))
                    aria-current=move || (current.get() == Some(index)).to_string()
                    on:click=move |_| chosen.set(Some(index))
                >
                    <Stamp outcome size=20 />
                    <span class="finding__code">{code}</span>
                    <span class="finding__what">{question}<span class="finding__about">{about}</span></span>
                    <span class="finding__side"><b>{figure}</b><span class="said">{said}</span></span>
                </button>
            </li>
        }
    };
    view! {
        <h3 class="panel__head">{move || format!("{}: every question", topic.get().name())}</h3>
        <ul class="findings">{rows(move || questions.get().into_iter().map(|question| (question.key(), question)).collect(), row)}</ul>
    }
}
