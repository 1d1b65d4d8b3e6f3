//! The working behind one figure: the formula with its numbers, every step, every source.

use leptos::prelude::*;
use rules::{Finding, Source, Standing, Step, check_by_code};
use units::show;

use crate::lean::view;
use crate::parts::{formula_view, outcome_class, symbol_view};
use crate::view_state::use_view;

/// The working of a finding.
#[component]
pub fn Working(
    /// The finding.
    finding: Finding,
) -> impl IntoView {
    let units = use_view().units;
    let Some(check) = check_by_code(finding.code) else { return ().into_any() };
    let outcome = outcome_class(finding.outcome);
    let about = finding.about.clone();
    let said = finding.said();
    let given = finding.given;
    let allowed = finding.allowed;
    let value = move || {
        given.map(|given| {
            let shown = show(given, units.get()).to_string();
            let limit = allowed.map(
                |allowed| view! { <span class="work__limit">" of "{show(allowed, units.get()).to_string()}</span> },
            );
            view! { <span class="work__val">{shown}</span> {limit} }
        })
    };
    let last = finding.working.iter().rev().find(|step| !step.formula.is_empty()).cloned();
    let main = last.map(|step| {
        let numbers = step.numbers.clone();
        view! {
            <span class="f f--line">{symbol_view(step.symbol)}" = "{formula_view(step.formula)}</span>
            {move || (!numbers.is_empty()).then(|| view! { <span class="f f--line">" = "{numbers.shown(units.get())}</span> })}
        }
    });
    let inputs = finding
        .working
        .iter()
        .filter(|step| step.formula.is_empty())
        .cloned()
        .map(|step| view! { <InputRow step /> })
        .collect_view();
    let steps = finding
        .working
        .iter()
        .filter(|step| !step.formula.is_empty())
        .cloned()
        .map(|step| view! { <StepRow step /> })
        .collect_view();
    let has_steps = finding.working.iter().any(|step| !step.formula.is_empty());
    let help =
        finding.help.iter().cloned().map(|help| view! { <li>{move || help.shown(units.get())}</li> }).collect_view();
    let has_help = !finding.help.is_empty();
    let sources = check.sources.iter().map(|source| view! { <li>{source_words(source)}</li> }).collect_view();
    view! {
        <div class=format!("working {outcome}")>
            <h3 class="panel__head work__q"><span class="work__code">{check.code}</span>" "{check.question}</h3>
            <p class="work__main">
                {main}
                {move || value()}
                <span class="said">{move || said.shown(units.get())}</span>
            </p>
            {move || (!about.is_empty()).then(|| view! { <p class="work__about">{about.shown(units.get())}</p> })}
            {has_help.then(|| view! { <ul class="work__help" aria-label="What would help">{help}</ul> })}
            <dl class="work__sym">{inputs}</dl>
            {has_steps.then(|| view! { <ol class="work__steps" aria-label="Steps">{steps}</ol> })}
            {check.caution.map(|caution| view! { <p class="work__caution">{caution}</p> })}
            <dl class="work__notes">
                <dt>"Valid"</dt><dd>{check.valid}</dd>
                <dt>"Leaves out"</dt><dd>{check.leaves_out}</dd>
                <dt>"Source"</dt><dd><ul>{sources}</ul></dd>
            </dl>
        </div>
    }
    .into_any()
}

#[component]
fn InputRow(step: Step) -> impl IntoView {
    let units = use_view().units;
    let meaning = step.meaning.clone();
    view! {
        <div>
            <dt>{symbol_view(step.symbol)}</dt>
            <dd>{move || meaning.shown(units.get())}</dd>
            <dd class="n">{move || show(step.value, units.get()).to_string()}</dd>
        </div>
    }
}

#[component]
fn StepRow(step: Step) -> impl IntoView {
    let units = use_view().units;
    let meaning = step.meaning.clone();
    let numbers = step.numbers.clone();
    view! {
        <li class="work__step">
            <span class="work__meaning">{move || meaning.shown(units.get())}</span>
            <span class="work__how">
                {symbol_view(step.symbol)}" = "{formula_view(step.formula)}
                {move || (!numbers.is_empty()).then(|| format!(" = {}", numbers.shown(units.get())))}
            </span>
            <b class="n">{move || show(step.value, units.get()).to_string()}</b>
        </li>
    }
}

/// A source with its edition, its place, and how far it is confirmed.
fn source_words(source: &Source) -> String {
    let mut words = source.document.to_owned();
    for more in [source.edition, source.place] {
        if !more.is_empty() {
            words.push_str(", ");
            words.push_str(more);
        }
    }
    match source.standing {
        Standing::FromMemory => words.push_str(" (from memory, to be confirmed)"),
        Standing::Read | Standing::CommonPractice | Standing::FirstPrinciples => {}
    }
    words
}
