//! Call-outs: the build's main choices, written beside the drawing.

use leptos::prelude::*;
use project::Build;
use units::{Kind, Value, show};

use super::choices::cover_words;
use super::{eye_options, paint_options, plinth_options, shield_options, skin_options};
use crate::editor::use_editor;
use crate::parts::{ChoiceBlank, Stamp};
use crate::view_state::use_view;

/// The call-outs.
#[component]
pub fn Callouts(
    /// The part that the worst failing finding is about.
    limiting: Signal<Option<geometry::Of>>,
) -> impl IntoView {
    let editor = use_editor();
    let units = use_view().units;
    let text = move |words: fn(&Build, &catalogue::Catalogue) -> String| {
        Signal::derive(move || words(&editor.project().build, &editor.catalogue()))
    };
    let plinth = Signal::derive(move || {
        let project = editor.project();
        project.build.plinth.as_ref().map_or_else(
            || "none".to_owned(),
            |plinth| show(Value::new(plinth.height.0, Kind::Length), units.get()).to_string(),
        )
    });
    let flag = Memo::new(move |_| flag_of(editor, limiting.get(), units.get()));
    view! {
        <div class="notes">
            {move || flag.get().map(|(said, about)| view! {
                <div class="note note--flag">
                    <span class="note__flag">
                        <Stamp outcome=rules::Outcome::Fails size=26 />
                        <span><span class="note__say">{said}</span><span class="note__part">{about}</span></span>
                    </span>
                </div>
            })}
            <div class="note"><span class="note__part">"Shield"</span>
                <ChoiceBlank label="Solar shield" options=shield_options(editor) text=text(|build, catalogue| {
                    let part = build.shield.as_ref().and_then(|shield| catalogue.shields.get(&shield.part));
                    part.map_or("none", |part| cover_words(part.covers)).to_owned()
                }) />
            </div>
            <div class="note"><span class="note__part">"Skin"</span>
                <ChoiceBlank label="Skin" options=skin_options(editor) text=text(|build, catalogue| {
                    catalogue.skins.get(&build.skin).map_or_else(|| build.skin.to_string(), |part| part.material.clone())
                }) />
            </div>
            <div class="note"><span class="note__part">"Paint"</span>
                <ChoiceBlank label="Paint" options=paint_options(editor) text=text(|build, catalogue| {
                    catalogue.paints.get(&build.paint).map_or_else(|| build.paint.to_string(), |part| part.name.clone())
                }) />
            </div>
            <div class="note"><span class="note__part">"Lifting eyes"</span>
                <ChoiceBlank label="Lifting eyes" options=eye_options(editor) text=text(|build, catalogue| {
                    let part = build.lifting_eyes.as_ref().and_then(|id| catalogue.lifting_eyes.get(id));
                    part.map_or_else(|| "none".to_owned(), |part| part.name.clone())
                }) />
            </div>
            <div class="note"><span class="note__part">"Plinth"</span>
                <ChoiceBlank label="Plinth" options=plinth_options(editor) text=plinth />
            </div>
        </div>
    }
}

/// The flag: the worst failing figure and what it is about.
fn flag_of(editor: crate::editor::Editor, limiting: Option<geometry::Of>, units: units::System) -> Option<(String, String)> {
    let limiting = limiting?;
    let report = editor.report();
    let finding = report
        .badges
        .iter()
        .filter(|badge| badge.outcome == rules::Outcome::Fails)
        .filter_map(|badge| report.findings.get(badge.finding))
        .find(|finding| match finding.subject {
            rules::Subject::Device(id) => limiting == geometry::Of::Device(id),
            rules::Subject::Unit(id) => limiting == geometry::Of::Unit(id),
            _ => false,
        })?;
    let said = match (finding.given, finding.allowed) {
        (Some(given), Some(allowed)) => format!("{}, limit {}", show(given, units), show(allowed, units)),
        _ => finding.said().shown(units),
    };
    Some((said, finding.about.shown(units)))
}
