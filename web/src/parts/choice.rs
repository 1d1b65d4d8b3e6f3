//! A choice of options, each judged before it is chosen.

use leptos::prelude::*;
use project::{Edit, ItemId};
use rules::{Badge, Outcome, Phrase, Report, Topic};
use units::{System, Value, show};

use crate::editor::{Editor, use_editor};
use crate::lean::{RwSignal, view};
use crate::parts::{Anchor, Stamp, outcome_class};
use crate::{asked, built};

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
    /// How much heavier the equipped cabinet would be.
    pub heavier: Option<Value>,
}

/// The options of a blank: name, edit, whether it is the present one.
#[derive(Clone, Copy)]
pub enum Options {
    /// Those of a choice on the sheet.
    Of(Choice),
    /// These, made when the list opens.
    These(Callback<(), Vec<(String, Edit, bool)>>),
}

/// A choice that stands on the sheet from the first look.
#[derive(Clone, Copy)]
pub enum Choice {
    /// Family.
    Family,
    /// Sheet.
    Skin,
    /// Paint.
    Paint,
    /// Plinth.
    Plinth,
    /// Solar shield.
    Shield,
    /// Lifting eyes.
    Eyes,
    /// Which climate unit sits where this one does.
    Unit(ItemId),
    /// Bearing of the front.
    Bearing,
    /// How the cabinet stands.
    Installation,
    /// Sun at the design hour.
    Sun,
    /// Supply.
    Supply,
    /// Whether a generator can be plugged in.
    Generator,
}

impl From<Choice> for Options {
    fn from(choice: Choice) -> Self {
        Self::Of(choice)
    }
}

impl From<Callback<(), Vec<(String, Edit, bool)>>> for Options {
    fn from(make: Callback<(), Vec<(String, Edit, bool)>>) -> Self {
        Self::These(make)
    }
}

/// A list of options in its dialog.
pub struct Choosing {
    /// Name of the list.
    pub label: String,
    /// The options.
    pub options: Options,
    /// Closed when one was taken.
    pub open: RwSignal<Option<Anchor>>,
}

fn options_of(editor: Editor, choice: Choice) -> Callback<(), Vec<(String, Edit, bool)>> {
    match choice {
        Choice::Family => built::family_options(editor),
        Choice::Skin => built::skin_options(editor),
        Choice::Paint => built::paint_options(editor),
        Choice::Plinth => built::plinth_options(editor),
        Choice::Shield => built::shield_options(editor),
        Choice::Eyes => built::eye_options(editor),
        Choice::Unit(id) => built::unit_options(editor, id),
        Choice::Bearing => asked::bearing_options(editor),
        Choice::Installation => asked::installation_options(editor),
        Choice::Sun => asked::sun_options(editor),
        Choice::Supply => asked::supply_options(editor),
        Choice::Generator => asked::generator_options(editor),
    }
}

/// The list in its dialog.
pub(crate) fn choose(Choosing { label, options, open }: Choosing) -> AnyView {
    let editor = use_editor();
    let options = match options {
        Options::These(make) => make,
        Options::Of(choice) => options_of(editor, choice),
    };
    let on_choose = move |edit: Edit| {
        if editor.apply(&edit) {
            open.set(None);
        }
    };
    view! {
        <p class="sheetlet__head">{label.clone()}</p>
        <Choices label options=judge(editor, options.run(())) on_choose />
    }
}

/// The equipped mass, where the report gives it.
fn mass(report: &Report) -> Option<Value> {
    report.badges.iter().find(|badge| badge.topic == Topic::Weight)?.figure
}

/// The worst badge of what an edit changes; of everything when it changes no badge.
fn worst_changed<'r>(then: &'r Report, now: &Report) -> Option<&'r Badge> {
    let stays = |badge: &Badge| now.badges.iter().any(|old| (old.topic, &old.said) == (badge.topic, &badge.said));
    let changed = then.badges.iter().filter(|badge| !stays(badge)).max_by_key(|badge| badge.outcome);
    changed.or_else(|| then.badges.iter().max_by_key(|badge| badge.outcome))
}

/// Tries each edit out before it is offered.
#[must_use]
pub fn judge(editor: Editor, options: Vec<(String, Edit, bool)>) -> Vec<Judged> {
    let report = untrack(|| editor.report());
    let now = mass(&report);
    options
        .into_iter()
        .map(|(name, edit, fitted)| {
            let tried = editor.tried(&edit);
            let heavier = tried.as_ref().and_then(|derived| mass(&derived.report)).zip(now);
            let heavier = heavier.map(|(then, now)| Value::new(then.number - now.number, now.kind));
            let would = tried.and_then(|derived| {
                let worst = worst_changed(&derived.report, &report)?;
                let all_hold = derived.report.badges.iter().all(|badge| badge.outcome == Outcome::Holds);
                let words = if all_hold {
                    Phrase::from("everything holds")
                } else {
                    Phrase::from(worst.topic.name()).text(" ").then(worst.said.clone())
                };
                Some((worst.outcome, words))
            });
            Judged { name, edit, fitted, would, heavier }
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
            let Judged { name, edit, fitted, would, heavier } = option;
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
                        <span class="option__cost">{move || if fitted { "fitted".to_owned() } else { heavier_words(heavier, units.get()) }}</span>
                    </button>
                </li>
            }
        })
        .collect_view();
    view! { <ul class="options" aria-label=label>{rows}</ul> }
}

/// "19 kg heavier", "3 kg lighter", or nothing where it weighs the same.
fn heavier_words(heavier: Option<Value>, units: System) -> String {
    let Some(heavier) = heavier else { return String::new() };
    let shown = show(Value::new(heavier.number.abs(), heavier.kind), units);
    match heavier.number {
        more if more > 0.05 => format!("{shown} heavier"),
        less if less < -0.05 => format!("{shown} lighter"),
        _ => String::new(),
    }
}
