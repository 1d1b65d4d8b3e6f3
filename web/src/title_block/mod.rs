//! The title block, lower right: the verdict in words, what would help, units, sheet, caution, project.

use leptos::prelude::*;
use project::Edit;
use rules::{Outcome, Report, Topic};
use units::System;

use crate::editor::use_editor;
use crate::lean::{Memo, ordered, view};
use crate::mark::Mark;
use crate::parts::{Stamp, TextBlank, outcome_class};
use crate::view_state::{Sheet, ViewState, use_view};

/// How many ways out are offered.
const WAYS: usize = 3;

/// The title block.
#[component]
pub fn TitleBlock() -> impl IntoView {
    let editor = use_editor();
    let ViewState { units, sheet, .. } = use_view();
    let verdict = Memo::new(move |_| verdict_of(&editor.report()));
    let name = editor.part(|project| project.name.clone());
    let catalogue = Memo::new(move |_| editor.catalogue().about.name.clone());
    let ways = Memo::new(move |_| ways_out(&editor.report(), units.get()));
    let switch_units =
        move |_| units.update(|units| *units = if *units == System::Metric { System::Us } else { System::Metric });
    let sheet_word = move || match sheet.get() {
        Sheet::System => "as the system",
        Sheet::Day => "day",
        Sheet::Night => "night",
    };
    let switch_sheet = move |_| {
        sheet.update(|sheet| {
            *sheet = match sheet {
                Sheet::System => Sheet::Day,
                Sheet::Day => Sheet::Night,
                Sheet::Night => Sheet::System,
            }
        });
    };
    view! {
        <section class="block" aria-label="Title block">
            {move || {
                let Verdict { outcome, words, rest } = verdict.get();
                view! {
                    <div class=format!("block__verdict {}", outcome_class(outcome))>
                        <Stamp outcome size=46 />
                        <div>
                            <p class="block__word">{words}</p>
                            <p class="block__rest">{rest}</p>
                        </div>
                    </div>
                }
            }}
            <div class="block__ways">
                <h3 class="sr">"What would help"</h3>
                <ol>{move || ways.get().into_iter().map(way_view).collect_view()}</ol>
            </div>
            <dl class="block__grid">
                <div>
                    <dt>"Units"</dt>
                    <dd>
                        <button type="button" class="blank" aria-label=move || format!("Units: {}. Change", units_word(units.get())) on:click=switch_units>
                            {move || units_word(units.get())}
                        </button>
                    </dd>
                </div>
                <div>
                    <dt>"Sheet"</dt>
                    <dd>
                        <button type="button" class="blank" aria-label=move || format!("Sheet: {}. Change", sheet_word()) on:click=switch_sheet>
                            {move || sheet_word()}
                        </button>
                    </dd>
                </div>
                <div class="block__catalogue">
                    <dt>"Catalogue"</dt>
                    <dd>{move || catalogue.get()}</dd>
                </div>
            </dl>
            <div class="block__foot">
                <p class="block__brand"><Mark size=26 /><span>"Baywright"</span></p>
                <p class="block__project">
                    <TextBlank
                        label="Project name"
                        text=Signal::derive(move || if name.get().is_empty() { "not named yet".to_owned() } else { name.get() })
                        value=name
                        on_commit=move |text: String| editor.try_apply(&Edit::Rename(text))
                    />
                </p>
                <p class="block__care">"Preliminary: a qualified person verifies it. Local code prevails."</p>
            </div>
        </section>
    }
}

const fn units_word(units: System) -> &'static str {
    match units {
        System::Metric => "metric",
        System::Us => "US",
    }
}

#[derive(Clone, PartialEq)]
struct Verdict {
    outcome: Outcome,
    words: String,
    rest: String,
}

/// The verdict in words: the worst topics first, then how the others stand.
fn verdict_of(report: &Report) -> Verdict {
    let worst = report.badges.iter().map(|badge| badge.outcome).max().unwrap_or(Outcome::NeedsData);
    let named: Vec<&str> =
        report.badges.iter().filter(|badge| badge.outcome == worst).map(|badge| badge.topic.name()).collect();
    let all = named.len() == report.badges.len();
    let words = match worst {
        Outcome::Holds => "Everything holds".to_owned(),
        Outcome::Fails if all => "Nothing holds".to_owned(),
        _ if all => format!("All {}", plural(worst)),
        _ => {
            let verb = if named.len() == 1 { singular(worst) } else { plural(worst) };
            format!("{} {verb}", listed(&named))
        }
    };
    let number = |outcome: Outcome| report.badges.iter().filter(|badge| badge.outcome == outcome).count();
    let open = number(Outcome::NeedsData) + number(Outcome::OutOfRange);
    let mut parts = Vec::new();
    for (count, word) in [
        (number(Outcome::Fails), "fail"),
        (number(Outcome::Holds), "hold"),
        (number(Outcome::Tight), "tight"),
        (open, "open"),
    ] {
        if count > 0 {
            parts.push(format!("{count} {word}"));
        }
    }
    Verdict { outcome: worst, words, rest: format!("{}.", parts.join(", ")) }
}

/// "Fit", "Fit and Heat", "Fit, Heat and Year".
fn listed(names: &[&str]) -> String {
    match names.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        _ => names.concat(),
    }
}

const fn singular(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Holds => "holds",
        Outcome::Tight => "is tight",
        Outcome::Fails => "fails",
        Outcome::NeedsData => "needs data",
        Outcome::OutOfRange => "is out of range",
    }
}

const fn plural(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Holds => "hold",
        Outcome::Tight => "are tight",
        Outcome::Fails => "fail",
        Outcome::NeedsData => "need data",
        Outcome::OutOfRange => "are out of range",
    }
}

/// One way out, and the finding that it helps.
#[derive(Clone, PartialEq)]
struct Way {
    index: usize,
    topic: Topic,
    code: &'static str,
    outcome: Outcome,
    help: String,
    said: String,
}

/// What would help the worst findings, as their checks say it.
fn ways_out(report: &Report, units: System) -> Vec<Way> {
    let open: Vec<_> = report
        .findings
        .iter()
        .enumerate()
        .filter(|(_, finding)| finding.outcome != Outcome::Holds && !finding.help.is_empty())
        .collect();
    let mut open = ordered(open, |(_, one), (_, other)| other.outcome.cmp(&one.outcome));
    // The same advice is given once, even where several devices need it.
    let mut given: Vec<String> = Vec::new();
    open.retain(|(_, finding)| {
        let help = finding.help.first().map(|help| help.shown(units)).unwrap_or_default();
        let is_new = !given.contains(&help);
        given.push(help);
        is_new
    });
    open.into_iter()
        .take(WAYS)
        .filter_map(|(index, finding)| {
            let help = finding.help.first()?.shown(units);
            let said = format!("{} {}", finding.topic.name(), finding.said().shown(units));
            let (topic, code, outcome) = (finding.topic, finding.code, finding.outcome);
            Some(Way { index, topic, code, outcome, help, said })
        })
        .collect()
}

/// A press opens the finding.
fn way_view(way: Way) -> AnyView {
    let ViewState { topic: opened, finding: chosen, .. } = use_view();
    let Way { index, topic, code, outcome, help, said } = way;
    view! {
        <li>
            <button
                type="button"
                class=format!("remedy {}", outcome_class(outcome))
                on:click=move |_| {
                    opened.set(topic);
                    chosen.set(Some(index));
                }
            >
                <Stamp outcome size=24 />
                <span class="remedy__text">
                    <span class="remedy__title">{help}</span>
                    <span class="remedy__line"><span class="said">{said}</span><span class="remedy__worse">{code}</span></span>
                </span>
            </button>
        </li>
    }
}

#[cfg(test)]
mod tests {
    use super::listed;

    #[test]
    fn topics_are_listed_as_people_do() {
        assert_eq!(listed(&["Fit"]), "Fit");
        assert_eq!(listed(&["Fit", "Heat"]), "Fit and Heat");
        assert_eq!(listed(&["Fit", "Heat", "Year"]), "Fit, Heat and Year");
    }
}
