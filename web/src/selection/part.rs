//! A part of the cabinet that is selected: what of the build concerns it.

use geometry::Of;
use leptos::prelude::*;
use project::{Build, Edit, Face, FittedPlinth, FittedShield, Insulated};
use rules::{Subject, bay_letter};
use units::{Kind, Millimetres};

use super::Panel;
use super::bay_part::{DoorFields, GlandPlateFields, ManagerFields, RailFields};
use super::findings::Findings;
use crate::build_list::{FACES, InsulationRow, Part};
use crate::built::{eye_options, paint_options, pallet_options, plinth_options, shield_options, skin_options};
use crate::editor::{Editor, use_editor};
use crate::lean::view;
use crate::parts::{ChoiceBlank, QuantityField, Typed};

/// The panel of a part that is neither a device nor a climate unit.
pub(super) fn part_panel(of: Of) -> AnyView {
    let named = |name: String, fields: AnyView| {
        view! { <Panel name=Signal::derive(move || name.clone())>{fields}</Panel> }.into_any()
    };
    match of {
        Of::Device(_) | Of::Unit(_) => ().into_any(),
        Of::Body(face) | Of::Insulation(face) => {
            named(face_name(face), view! { <Findings subject=Subject::Face(face) /><FaceFields face /> }.into_any())
        }
        Of::Shield => named("Solar shield".to_owned(), view! { <ShieldFields /> }.into_any()),
        Of::Plinth => {
            named("Plinth".to_owned(), view! { <Findings subject=Subject::Base /><PlinthFields /> }.into_any())
        }
        Of::Pad => named("Pad".to_owned(), view! { <Findings subject=Subject::Base /> }.into_any()),
        Of::Pallet => named("Pallet".to_owned(), view! { <PalletFields /> }.into_any()),
        Of::Eye(_) => {
            named("Lifting eyes".to_owned(), view! { <Findings subject=Subject::Eyes /><EyeFields /> }.into_any())
        }
        Of::Divider => named("Divider between the bays".to_owned(), view! { <DividerFields /> }.into_any()),
        Of::Door { bay, end } => {
            let name = format!(
                "{} of bay {}",
                if end == project::End::Front { "Front door" } else { "Rear door" },
                bay_letter(bay)
            );
            named(name, view! { <DoorFields bay end /> }.into_any())
        }
        Of::Rail { bay, .. } | Of::Fittings { bay } => {
            let fields = view! { <Findings subject=Subject::Bay(bay) /><RailFields bay /> }.into_any();
            named(format!("Rails of bay {}", bay_letter(bay)), fields)
        }
        Of::Manager { bay, side } => {
            let side_words = if side == project::Side::Left { "left" } else { "right" };
            let name = format!("Cable management of bay {}, {side_words}", bay_letter(bay));
            named(name, view! { <ManagerFields bay side /> }.into_any())
        }
        Of::GlandPlate { bay, plate } => {
            let fields = view! { <Findings subject=Subject::GlandPlates /><GlandPlateFields bay plate /> }.into_any();
            named(format!("Gland plate of bay {}", bay_letter(bay)), fields)
        }
    }
}

fn face_name(face: Face) -> String {
    let words = FACES.iter().find(|(each, _)| *each == face).map_or("", |(_, words)| words);
    match face {
        Face::Left | Face::Right => format!("Body, {words} wall"),
        Face::Front | Face::Rear | Face::Top | Face::Bottom => format!("Body, {words}"),
    }
}

/// A name of a part of the build, in words.
pub(super) fn name_of(editor: Editor, name: fn(&Build, &catalogue::Catalogue) -> Option<String>) -> Signal<String> {
    Signal::derive(move || name(&editor.project().build, &editor.catalogue()).unwrap_or_else(|| "none".to_owned()))
}

#[component]
fn FaceFields(face: Face) -> impl IntoView {
    let editor = use_editor();
    let words = FACES.iter().find(|(each, _)| *each == face).map_or("", |(_, words)| *words);
    let laid = editor.part(move |project| project.build.insulation.get(face).clone());
    let thickness = Signal::derive(move || laid.with(|laid| laid.as_ref().map(|laid| laid.thickness.0)));
    let take = move |number: Typed| match (laid.get_untracked(), number) {
        (Some(laid), Some(number)) => {
            let insulation = Some(Insulated { thickness: Millimetres(number), ..laid });
            editor.try_apply(&Edit::SetInsulation { face: Some(face), insulation })
        }
        (None, Some(_)) => Err("There is no insulation: choose one first".to_owned()),
        (_, None) => Ok(()),
    };
    let skin = name_of(editor, |build, catalogue| catalogue.skins.get(&build.skin).map(|part| part.name.clone()));
    let paint = name_of(editor, |build, catalogue| catalogue.paints.get(&build.paint).map(|part| part.name.clone()));
    view! {
        <dl class="parts">
            <InsulationRow face name="Insulation" />
            <Part name="Skin"><ChoiceBlank label="Skin of the whole body" text=skin options=skin_options(editor) /></Part>
            <Part name="Paint"><ChoiceBlank label="Paint of the whole body" text=paint options=paint_options(editor) /></Part>
        </dl>
        <div class="form__grid">
            <QuantityField label=format!("Insulation, {words}: thickness") kind=Kind::Length value=thickness on_commit=take />
        </div>
    }
}

#[component]
fn ShieldFields() -> impl IntoView {
    let editor = use_editor();
    let text = name_of(editor, |build, catalogue| {
        build.shield.as_ref().and_then(|shield| catalogue.shields.get(&shield.part)).map(|part| part.name.clone())
    });
    let length = move |get: fn(&FittedShield) -> Millimetres| {
        editor.part(move |project| project.build.shield.as_ref().map(|shield| get(shield).0))
    };
    let set = move |change: fn(&mut FittedShield, Millimetres)| {
        move |number: Typed| match (editor.project_now().build.shield.clone(), number) {
            (Some(mut shield), Some(number)) => {
                change(&mut shield, Millimetres(number));
                editor.try_apply(&Edit::SetShield(Some(shield)))
            }
            (None, Some(_)) => Err("There is no shield: choose one first".to_owned()),
            (_, None) => Ok(()),
        }
    };
    view! {
        <dl class="parts"><Part name="Shield"><ChoiceBlank label="Solar shield" text options=shield_options(editor) /></Part></dl>
        <div class="form__grid">
            <QuantityField label="Gap under it" kind=Kind::Length value=length(|shield| shield.gap) on_commit=set(|shield, to| shield.gap = to) />
            <QuantityField
                label="Past the door seal"
                kind=Kind::Length
                value=length(|shield| shield.overhang)
                on_commit=set(|shield, to| shield.overhang = to)
            />
        </div>
    }
}

#[component]
fn PlinthFields() -> impl IntoView {
    let editor = use_editor();
    let text = name_of(editor, |build, catalogue| {
        build.plinth.as_ref().and_then(|plinth| catalogue.plinths.get(&plinth.part)).map(|part| part.name.clone())
    });
    let height = editor.part(|project| project.build.plinth.as_ref().map(|plinth| plinth.height.0));
    let take = move |number: Typed| match (editor.project_now().build.plinth.clone(), number) {
        (Some(plinth), Some(number)) => {
            editor.try_apply(&Edit::SetPlinth(Some(FittedPlinth { height: Millimetres(number), ..plinth })))
        }
        (None, Some(_)) => Err("There is no plinth: choose one first".to_owned()),
        (_, None) => Ok(()),
    };
    view! {
        <dl class="parts"><Part name="Plinth"><ChoiceBlank label="Plinth" text options=plinth_options(editor) /></Part></dl>
        <div class="form__grid"><QuantityField label="Height" kind=Kind::Length value=height on_commit=take /></div>
    }
}

#[component]
fn PalletFields() -> impl IntoView {
    let editor = use_editor();
    let text = name_of(editor, |build, catalogue| {
        build.pallet.as_ref().and_then(|pallet| catalogue.pallets.get(pallet)).map(|part| part.name.clone())
    });
    view! { <dl class="parts"><Part name="Pallet"><ChoiceBlank label="Pallet" text options=pallet_options(editor) /></Part></dl> }
}

#[component]
fn EyeFields() -> impl IntoView {
    let editor = use_editor();
    let text = name_of(editor, |build, catalogue| {
        build.lifting_eyes.as_ref().and_then(|eyes| catalogue.lifting_eyes.get(eyes)).map(|part| part.name.clone())
    });
    let removed = editor.part(|project| project.build.eyes_removed);
    view! {
        <dl class="parts"><Part name="Eyes"><ChoiceBlank label="Lifting eyes" text options=eye_options(editor) /></Part></dl>
        <p class="form__acts">
            <button type="button" class="word" aria-pressed=move || removed.get().to_string() on:click=move |_| {
                editor.apply(&Edit::SetEyesRemoved(!removed.get_untracked()));
            }>"Eyes come off after setting down"</button>
        </p>
    }
}

#[component]
fn DividerFields() -> impl IntoView {
    let editor = use_editor();
    let divider = editor.part(|project| project.build.divider);
    view! {
        <p class="form__acts">
            <button type="button" class="word" aria-pressed=move || divider.get().to_string() on:click=move |_| {
                editor.apply(&Edit::SetDivider(!divider.get_untracked()));
            }>"Divider between the bays"</button>
        </p>
    }
}
