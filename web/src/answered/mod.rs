//! Answered: the badges as bars against one limit line, and below each what does not hold.

use leptos::prelude::*;
use rules::{Badge, Outcome, Report, Topic};
use units::{System, show};

use crate::bench::SideOf;
use crate::editor::use_editor;
use crate::later::use_arrival;
use crate::lean::{Memo, ordered, view};
use crate::parts::{Stamp, outcome_class};
use crate::view_state::{ViewState, use_view};

/// Beyond this share of the limit a bar ends in a break.
const BREAK: f64 = 1.225;

/// How many findings stand under a badge before the rest is only counted.
const LISTED: usize = 4;

/// All badges.
#[component]
pub fn Answered() -> impl IntoView {
    let editor = use_editor();
    let arrival = use_arrival();
    let topics = Topic::ALL
        .into_iter()
        .map(|topic| {
            let badge = Memo::new(move |_| badge_of(&editor.report(), topic));
            // A topic over time has no badge, and so no row, while there is no run over time.
            let answered = Memo::new(move |_| badge.with(Option::is_some));
            move || {
                answered.get().then(|| {
                    view! { <li class="answers__row">{move || badge.get().map(|badge| view! { <BadgeRow badge /> })}<Findings topic /></li> }
                })
            }
        })
        .collect_view();
    view! {
        <section class="answered" aria-labelledby="h-answered">
            <div class="answered__head">
                <h2 id="h-answered" class="head">"Answered"</h2>
                <span class="answered__limit">"limit"</span>
            </div>
            <ol class="answers">{topics}{move || arrival.here().map(|later| (later.news)())}</ol>
        </section>
    }
}

fn badge_of(report: &Report, topic: Topic) -> Option<Badge> {
    report.badges.iter().find(|badge| badge.topic == topic).cloned()
}

/// One badge: stamp, topic, outcome with margin, leading figure, bar.
#[component]
fn BadgeRow(
    /// The badge.
    badge: Badge,
) -> impl IntoView {
    let editor = use_editor();
    let view_state = use_view();
    let ViewState { units, topic, finding, side, .. } = view_state;
    let Badge { topic: own, outcome, figure, said, used, reserve, .. } = badge;
    // Over time the worker answers, a moment later; until then it is said that what stands here is of the project before.
    let old = Memo::new(move |_| own == Topic::Year && editor.course().is_working());
    let bare = matches!(outcome, Outcome::NeedsData | Outcome::OutOfRange);
    // Where nothing is divided the bar runs as far as its word says: to the limit, past it, or not at all.
    let without_figure = match outcome {
        Outcome::Holds => 0.0,
        Outcome::Fails => BREAK,
        Outcome::Tight | Outcome::NeedsData | Outcome::OutOfRange => 1.0,
    };
    let share = if bare { without_figure } else { used.unwrap_or(without_figure) };
    let class = format!(
        "answer {} {}",
        outcome_class(outcome),
        match outcome {
            Outcome::NeedsData => "answer--needs",
            Outcome::OutOfRange => "answer--beyond",
            _ => "",
        }
    );
    let figure_view = move || match (outcome, figure) {
        (Outcome::NeedsData, None) => view! { <span class="answer__blank"></span> }.into_any(),
        (_, None) => view! { <span class="answer__figure answer__none">"–"</span> }.into_any(),
        (_, Some(figure)) => {
            let shown = show(figure, units.get());
            view! { <span class="answer__figure">{shown.number}<span class="sr">" "</span><span class="answer__unit">{shown.unit}</span></span> }
                .into_any()
        }
    };
    let over =
        (!bare && share > 1.0).then(|| view! { <span class="bar__over" class:bar__over--cut={share > BREAK}></span> });
    view! {
        <button
            type="button"
            class=class
            class:answer--old=move || old.get()
            style=("--used", share.min(BREAK + 0.025).to_string())
            style=("--reserve", reserve.unwrap_or_default().to_string())
            aria-current=move || (topic.get() == own).to_string()
            on:click=move |_| {
                topic.set(own);
                finding.set(None);
                side.set(None);
            }
        >
            <span class="answer__body">
                <Stamp outcome />
                <span class="answer__text">
                    <span class="answer__topic">{own.name()}</span>
                    <span class="answer__said">{move || if old.get() { "working…".to_owned() } else { said.shown(units.get()) }}</span>
                </span>
                {move || figure_view()}
            </span>
            <span class="bar" aria-hidden="true">
                <span class="bar__fill hatch"></span>
                {over}
                {reserve.filter(|_| !bare).map(|_| view! { <span class="bar__reserve"></span> })}
            </span>
        </button>
    }
}

/// One line of a finding below its badge.
#[derive(Clone, PartialEq)]
struct Line {
    index: usize,
    name: String,
    about: String,
    more: usize,
    outcome: Outcome,
}

/// What does not hold in a topic, worst first, and how many checks hold.
#[component]
fn Findings(
    /// The topic.
    topic: Topic,
) -> impl IntoView {
    let editor = use_editor();
    let ViewState { units, topic: opened, finding: chosen, side, .. } = use_view();
    let lines = Memo::new(move |_| lines_of(&editor.report(), topic, units.get()));
    let choose = move |index: Option<usize>| {
        opened.set(topic);
        chosen.set(index);
        side.set(index.is_none().then_some(SideOf::Questions));
    };
    let row = move |line: Line| {
        let Line { index, name, about, more, outcome } = line;
        let words = if more > 0 { format!("{name}: {more} more and {about}") } else { format!("{name}: {about}") };
        view! {
            <li>
                <button
                    type="button"
                    class=format!("owing {}", outcome_class(outcome))
                    aria-current=move || (opened.get() == topic && chosen.get() == Some(index)).to_string()
                    on:click=move |_| choose(Some(index))
                >
                    <Stamp outcome size=16 />
                    <span class="owing__words">{words}</span>
                </button>
            </li>
        }
    };
    view! {
        <ul class="owings">
            {move || {
                let lines = lines.get();
                let rest = lines.open.len().saturating_sub(LISTED);
                let shown = lines.open.into_iter().take(LISTED).map(row).collect_view();
                let more = (rest > 0).then(|| format!("{rest} more do not hold, "));
                view! {
                    {shown}
                    <li>
                        <button type="button" class="owing owing--rest" on:click=move |_| choose(None)>
                            {more} {format!("{} of {} checks hold", lines.holding, lines.asked)}
                        </button>
                    </li>
                }
            }}
        </ul>
    }
}

#[derive(Clone, PartialEq)]
struct Lines {
    open: Vec<Line>,
    holding: usize,
    asked: usize,
}

fn lines_of(report: &Report, topic: Topic, units: System) -> Lines {
    let mut open: Vec<Line> = Vec::new();
    let (mut holding, mut asked) = (0, 0);
    let mut last = None;
    for (index, finding) in report.findings.iter().enumerate() {
        if finding.topic != topic {
            continue;
        }
        let first_of_check = last != Some(finding.code);
        last = Some(finding.code);
        asked += usize::from(first_of_check);
        if finding.outcome == Outcome::Holds {
            holding += usize::from(first_of_check);
            continue;
        }
        // One line for each check: the first finding that does not hold, and how many more there are.
        let name = finding.name.replace('-', " ");
        if let Some(line) = open.last_mut().filter(|line| line.name == name && line.outcome == finding.outcome) {
            line.more += 1;
            continue;
        }
        let about = if finding.about.is_empty() { finding.said().shown(units) } else { finding.about.shown(units) };
        open.push(Line { index, name, about, more: 0, outcome: finding.outcome });
    }
    let open = ordered(open, |one, other| other.outcome.cmp(&one.outcome));
    Lines { open, holding, asked }
}
