//! Built: the build's main choices written on the drawing, the model, and what it shows.

mod callouts;
mod choices;

use leptos::prelude::*;
use project::Edit;
use units::{Kind, Millimetres, Value, show};

use crate::charts::Compass;
use crate::editor::use_editor;
use crate::elevations::FlatModel;
use crate::lean::{RwSignal, view};
use crate::model_view::ModelView;
use crate::parts::{Choice, ChoiceBlank, QuantityBlank, Typed};
use crate::view_state::{Camera, ViewState, use_view};
use callouts::Callouts;
pub(crate) use choices::{
    door_options, eye_options, family_options, paint_options, pallet_options, plinth_options, shield_options,
    skin_options, unit_options,
};

/// The sides the model can be turned to.
const CAMERAS: [(Camera, &str); 5] = [
    (Camera::Corner, "Corner"),
    (Camera::Front, "Front"),
    (Camera::Rear, "Rear"),
    (Camera::Side, "Side"),
    (Camera::Above, "Above"),
];

/// The middle of the sheet.
#[component]
pub fn Built(
    /// Opens the whole build.
    #[prop(into)]
    on_all: Callback<()>,
) -> impl IntoView {
    let editor = use_editor();
    let view_state = use_view();
    let ViewState { units, camera, .. } = view_state;
    let bays = editor.part(|project| project.build.bays.len());
    let height = editor.part(|project| project.build.units);
    let depth = editor.part(|project| project.build.depth.0);
    let views = CAMERAS
        .into_iter()
        .map(|(each, name)| {
            view! {
                <button
                    type="button"
                    class="word"
                    aria-pressed=move || (camera.get() == each).to_string()
                    on:click=move |_| camera.set(each)
                >
                    {name}
                </button>
            }
        })
        .collect_view();
    let projection = RwSignal::new(None);
    let limiting = Signal::derive(move || limiting(&editor.report()));
    view! {
        <section class="built" aria-labelledby="h-built">
            <div class="built__head">
                <h2 id="h-built" class="head">"Built"</h2>
                <p class="built__sum">
                    <ChoiceBlank
                        label="Family"
                        text=Signal::derive(move || if bays.get() == 1 { "one bay".to_owned() } else { "two bays".to_owned() })
                        options=Choice::Family
                    />
                    ", "
                    <QuantityBlank
                        label="Height in rack units"
                        text=Signal::derive(move || format!("{}\u{a0}U", height.get()))
                        kind=Kind::RackUnits
                        value=Signal::derive(move || Some(f64::from(height.get())))
                        on_commit=move |number: Typed| match number {
                            Some(number) if number.fract() == 0.0 && (0.0..=999.0).contains(&number) => {
                                editor.try_apply(&Edit::SetUnits(number as u32))
                            }
                            _ => Err("A whole number of units".to_owned()),
                        }
                    />
                    ", "
                    <QuantityBlank
                        label="Depth over the skin"
                        text=Signal::derive(move || show(Value::new(depth.get(), Kind::Length), units.get()).to_string())
                        kind=Kind::Length
                        value=Signal::derive(move || Some(depth.get()))
                        on_commit=move |number: Typed| editor.try_apply(&Edit::SetDepth(Millimetres(number.unwrap_or_default())))
                    />
                    <span class="wide-only">" deep"</span>
                </p>
                <div class="views" role="group" aria-label="View">{views}</div>
            </div>
            <div class="drawing__fit">
                {move || if view_state.drawable.get() {
                    view! {
                        <div class="drawing">
                            <div class="drawing__model"><ModelView limiting projection /></div>
                            <Compass projection />
                            <Callouts limiting projection on_all />
                        </div>
                    }.into_any()
                } else {
                    view! { <FlatModel /> }.into_any()
                }}
            </div>
            <div class="shows" role="group" aria-label="Show">
                <Toggle name="Doors" on=view_state.doors_open />
                <Toggle name="Shield" on=view_state.shield_on />
                <Toggle name="Ghost" on=view_state.ghosted />
                <Toggle name="Wires" on=view_state.wires />
                <Toggle name="Sizes" on=view_state.sizes />
            </div>
        </section>
    }
}

/// A word that is pressed or not.
#[component]
fn Toggle(
    /// The word.
    name: &'static str,
    /// Whether it is on.
    on: RwSignal<bool>,
) -> impl IntoView {
    view! {
        <button
            type="button"
            class="word"
            aria-pressed=move || on.get().to_string()
            on:click=move |_| on.update(|on| *on = !*on)
        >
            {name}
        </button>
    }
}

/// The part that the worst failing finding is about.
pub(crate) fn limiting(report: &rules::Report) -> Option<geometry::Of> {
    report
        .badges
        .iter()
        .filter(|badge| badge.outcome == rules::Outcome::Fails)
        .filter_map(|badge| report.findings.get(badge.finding))
        .find_map(|finding| match finding.subject {
            rules::Subject::Device(id) => Some(geometry::Of::Device(id)),
            rules::Subject::Unit(id) => Some(geometry::Of::Unit(id)),
            _ => None,
        })
}
