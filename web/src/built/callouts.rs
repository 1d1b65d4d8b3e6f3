//! Call-outs: the build's main choices, written beside the drawing with a leader to the part they name.

use geometry::Of;
use leptos::prelude::*;
use project::{Face, ItemId, UnitAt};
use units::{Kind, System, Value, show};

use super::choices::cover_words;
use crate::build_list::unit_place_words;
use crate::editor::{Editor, use_editor};
use crate::lean::{self, Memo, RwSignal, lower, rows, view};
use crate::model_view::Projection;
use crate::parts::{Choice, ChoiceBlank, Stamp};
use crate::view_state::use_view;

/// Height that a call-out takes at most and at least, CSS pixels. Below the middle its two lines become one.
const ROW: (f64, f64) = (50.0, 25.0);

/// Height left free below the call-outs for the words that say what is shown, CSS pixels.
const BELOW: f64 = 64.0;

/// How far from its text a leader ends, CSS pixels.
const CLEAR: f64 = 6.0;

/// How many climate units are called out; the others stand in the list of all parts.
const UNITS: usize = 3;

/// What a call-out names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Note {
    Shield,
    Eyes,
    Skin,
    Paint,
    Plinth,
    Unit(ItemId),
}

impl Note {
    /// The part its leader ends on; paint is everywhere and has none.
    const fn part(self) -> Option<Of> {
        match self {
            Self::Shield => Some(Of::Shield),
            Self::Eyes => Some(Of::Eye(1)),
            Self::Skin => Some(Of::Body(Face::Right)),
            Self::Paint => None,
            Self::Plinth => Some(Of::Plinth),
            Self::Unit(id) => Some(Of::Unit(id)),
        }
    }
}

/// The call-outs and their leaders.
#[component]
pub fn Callouts(
    /// The part that the worst failing finding is about.
    limiting: Signal<Option<Of>>,
    /// How the frame on screen was drawn.
    projection: RwSignal<Option<Projection>>,
    /// Opens the whole build.
    on_all: Callback<()>,
) -> impl IntoView {
    let editor = use_editor();
    let units = use_view().units;
    let notes = editor.part(|project| {
        let climate = project.build.climate.iter().take(UNITS).map(|unit| Note::Unit(unit.id));
        [Note::Shield, Note::Eyes, Note::Skin, Note::Paint, Note::Plinth].into_iter().chain(climate).collect::<Vec<_>>()
    });
    // From the top down as the parts appear, so that leaders do not cross.
    let ordered = Memo::new(move |_| {
        let notes = notes.get();
        projection.with(|projection| {
            let Some(projection) = projection else { return notes };
            let height =
                |note: &Note| note.part().and_then(|of| anchor(projection, of)).map_or(f64::MAX, |point| point[1]);
            lean::ordered(notes, |one, other| height(one).total_cmp(&height(other)))
        })
    });
    let row = Memo::new(move |_| {
        let height = projection.with(|projection| projection.as_ref().map_or(0.0, |projection| projection.size()[1]));
        // One more stands below them: everything else.
        ((height - BELOW) / (ordered.read().len() + 1) as f64).clamp(ROW.1, ROW.0)
    });
    let leaders = move || {
        projection.with(|projection| {
            let projection = projection.as_ref()?;
            let [width, _] = projection.size();
            let lines = ordered.get().into_iter().enumerate().filter_map(|(index, note)| {
                let [x, y] = anchor(projection, note.part()?)?;
                let from = [width - CLEAR, (index as f64 + 0.5) * row.get()];
                Some(view! { <path class="lead" d=format!("M{:.1} {:.1}L{x:.1} {y:.1}", from[0], from[1]) /><circle class="lead-dot" cx=x cy=y r="2.6" /> })
            });
            Some(lines.collect_view())
        })
    };
    let flag = Memo::new(move |_| flag_of(editor, limiting.get(), units.get()));
    let flag_leader = move || {
        flag.get()?;
        let [x, y] = projection.with(|projection| anchor(projection.as_ref()?, limiting.get()?))?;
        Some(
            view! { <path class="lead lead--fails" d=format!("M96 40L{x:.1} {y:.1}") /><circle class="lead-dot lead-dot--fails" cx=x cy=y r="3" /> },
        )
    };
    view! {
        <svg class="leads" aria-hidden="true">{move || leaders()}{move || flag_leader()}</svg>
        {move || flag.get().map(|(said, about)| view! {
            <div class="note note--flag">
                <span class="note__flag">
                    <Stamp outcome=rules::Outcome::Fails size=26 />
                    <span><span class="note__say">{said}</span><span class="note__part">{about}</span></span>
                </span>
            </div>
        })}
        <div class="notes" class:notes--close=move || row.get() < f64::midpoint(ROW.0, ROW.1)>
            {rows(
                move || ordered.get().into_iter().map(|note| (format!("{note:?}"), note)).collect(),
                move |&note| {
                    let index = Memo::new(move |_| ordered.read().iter().position(|each| *each == note).unwrap_or_default());
                    view! { <div class="note" style:top=move || format!("{:.0}px", index.get() as f64 * row.get())><NoteText note /></div> }
                },
            )}
            <div class="note" style:top=move || format!("{:.0}px", ordered.read().len() as f64 * row.get())>
                <span class="note__part">"Everything else"</span>
                <button type="button" class="blank" aria-haspopup="dialog" on:click=move |_| on_all.run(())>"all parts"</button>
            </div>
        </div>
    }
}

/// Where a leader to a part ends; nothing where a unit is hidden. Skin, plinth and eyes are meant as a whole, so that what
/// lies before one point of them does not matter.
fn anchor(projection: &Projection, of: Of) -> Option<[f64; 2]> {
    let hidden = matches!(of, Of::Unit(_)) && projection.hides(of);
    projection.anchor(of).filter(|_| !hidden).filter(|point| point.iter().all(|each| each.is_finite()))
}

/// The part's name and what was chosen.
#[component]
fn NoteText(note: Note) -> impl IntoView {
    let editor = use_editor();
    let units = use_view().units;
    let text = move |words: fn(&project::Build, &catalogue::Catalogue, System) -> String| {
        Signal::derive(move || words(&editor.project().build, &editor.catalogue(), units.get()))
    };
    match note {
        Note::Shield => view! {
            <span class="note__part">"Shield"</span>
            <ChoiceBlank label="Solar shield" options=Choice::Shield text=text(|build, catalogue, _| {
                let part = build.shield.as_ref().and_then(|shield| catalogue.shields.get(&shield.part));
                part.map_or("none", |part| cover_words(part.covers)).to_owned()
            }) />
        }
        .into_any(),
        Note::Skin => view! {
            <span class="note__part">"Skin"</span>
            <ChoiceBlank label="Skin" options=Choice::Skin text=text(|build, catalogue, _| {
                catalogue.skins.get(&build.skin).map_or_else(|| build.skin.to_string(), |part| part.material.clone())
            }) />
        }
        .into_any(),
        Note::Paint => view! {
            <span class="note__part">"Paint"</span>
            <ChoiceBlank label="Paint" options=Choice::Paint text=text(|build, catalogue, _| {
                catalogue.paints.get(&build.paint).map_or_else(|| build.paint.to_string(), |part| lower(&part.name))
            }) />
        }
        .into_any(),
        Note::Eyes => view! {
            <span class="note__part">"Lifting eyes"</span>
            <ChoiceBlank label="Lifting eyes" options=Choice::Eyes text=text(|build, catalogue, units| {
                let part = build.lifting_eyes.as_ref().and_then(|id| catalogue.lifting_eyes.get(id));
                part.map_or_else(|| "none".to_owned(), |part| format!("4 at {}", show(part.rating.into(), units)))
            }) />
        }
        .into_any(),
        Note::Plinth => view! {
            <span class="note__part">"Plinth"</span>
            <ChoiceBlank label="Plinth" options=Choice::Plinth text=text(|build, _, units| {
                build.plinth.as_ref().map_or_else(
                    || "none".to_owned(),
                    |plinth| show(Value::new(plinth.height.0, Kind::Length), units).to_string(),
                )
            }) />
        }
        .into_any(),
        Note::Unit(id) => view! { <UnitNote id /> }.into_any(),
    }
}

/// A climate unit: where it sits, and which it is.
#[component]
fn UnitNote(id: ItemId) -> impl IntoView {
    let editor = use_editor();
    let at = editor.part(move |project| project.build.unit(id).map(|unit| unit.at));
    let place = Signal::derive(move || at.get().map_or_else(String::new, place_word));
    let text = Signal::derive(move || {
        let project = editor.project();
        let part = project.build.unit(id).map(|unit| unit.part.clone()).unwrap_or_default();
        editor.catalogue().units.get(&part).map_or_else(|| part.to_string(), |part| sort_word(part.sort).to_owned())
    });
    let label = at.get_untracked().map_or_else(String::new, |at| format!("Unit, {}", unit_place_words(at)));
    view! {
        <span class="note__part">{place}</span>
        <ChoiceBlank label text options=Choice::Unit(id) />
    }
}

fn place_word(at: UnitAt) -> String {
    let mut words = unit_place_words(at);
    if let Some(first) = words.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    words
}

const fn sort_word(sort: catalogue::UnitSort) -> &'static str {
    match sort {
        catalogue::UnitSort::FilterFan => "filter fan",
        catalogue::UnitSort::Exchanger => "exchanger",
        catalogue::UnitSort::AirConditioner => "air conditioner",
        catalogue::UnitSort::Heater => "heater",
    }
}

/// The flag: the worst failing figure and what it is about.
fn flag_of(editor: Editor, limiting: Option<Of>, units: System) -> Option<(String, String)> {
    let limiting = limiting?;
    let report = editor.report();
    let finding = report
        .badges
        .iter()
        .filter(|badge| badge.outcome == rules::Outcome::Fails)
        .filter_map(|badge| report.findings.get(badge.finding))
        .find(|finding| match finding.subject {
            rules::Subject::Device(id) => limiting == Of::Device(id),
            rules::Subject::Unit(id) => limiting == Of::Unit(id),
            _ => false,
        })?;
    let said = match (finding.given, finding.allowed) {
        (Some(given), Some(allowed)) => format!("{}, limit {}", show(given, units), show(allowed, units)),
        _ => finding.said().shown(units),
    };
    Some((said, finding.about.shown(units)))
}
