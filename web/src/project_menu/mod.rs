//! The project as a whole: undo and redo, sharing, and what can be opened, saved or begun.

mod files;
mod told;

use leptos::prelude::*;
use project::{Edit, new_project, samples, to_json, to_link};

use crate::course::{ClimateRow, Climates};
use crate::editor::{Editor, use_editor};
use crate::later::use_arrival;
use crate::lean::{Memo, RwSignal, view};
use crate::parts::{Anchor, Sheetlet, TextField, anchor_of};
pub(crate) use files::FileButton;
use files::{OpenButton, download};
pub(crate) use told::{Told, ToldView};

/// What could not be opened or kept, from the context.
#[derive(Clone, Copy)]
pub(crate) struct Trouble(pub(crate) RwSignal<Option<Told>>);

/// The words at the upper right.
#[component]
pub fn Acts() -> impl IntoView {
    let editor = use_editor();
    let Trouble(trouble) = expect_context();
    let arrival = use_arrival();
    let share = RwSignal::new(None::<Anchor>);
    let menu = RwSignal::new(None::<Anchor>);
    let close = Callback::new(move |()| menu.set(None));
    let put_away = Callback::new(move |()| trouble.set(None));
    view! {
        <nav class="acts" aria-label="Project">
            <button type="button" class="word" disabled=move || !editor.can_undo() on:click=move |_| editor.undo()>"Undo"</button>
            <button type="button" class="word" disabled=move || !editor.can_redo() on:click=move |_| editor.redo()>"Redo"</button>
            <span class="acts__gap"></span>
            <button type="button" class="word" aria-haspopup="dialog" on:click=move |event| share.set(Some(anchor_of(&event)))>"Share"</button>
            <button type="button" class="word" aria-haspopup="dialog" on:click=move |event| menu.set(Some(anchor_of(&event)))>"Project"</button>
        </nav>
        <Sheetlet open=share label="Share">{arrival.show(|later| (later.share)())}</Sheetlet>
        <Sheetlet open=menu label="Project">{arrival.show(move |later| (later.menu)(close))}</Sheetlet>
        {move || trouble.get().zip(arrival.here()).map(|(told, later)| (later.told)(told, put_away))}
    }
}

/// The dialog that shares, as the table of what comes later holds it.
pub(crate) fn share() -> AnyView {
    view! { <Share /> }
}

/// The menu, as the table of what comes later holds it.
pub(crate) fn menu(close: Callback<()>) -> AnyView {
    view! { <Menu close /> }
}

/// A link that carries the whole project.
#[component]
fn Share() -> impl IntoView {
    let editor = use_editor();
    let copied = RwSignal::new(None::<bool>);
    let link = Memo::new(move |_| link_of(&to_link(&editor.project())));
    let copy = move |_| {
        let promise = window().navigator().clipboard().write_text(&link.get_untracked());
        leptos::task::spawn_local(async move {
            copied.set(Some(wasm_bindgen_futures::JsFuture::from(promise).await.is_ok()));
        });
    };
    view! {
        <div class="form">
            <p class="sheetlet__head">"Share by link"</p>
            <p class="form__say">"The whole project is packed into the link itself. Nothing is sent anywhere until you send the link."</p>
            <WeatherStays />
            <TextField label="Link" value=link on_commit=|_: String| Ok(()) focus=true />
            <p class="form__acts">
                <button type="button" class="press" on:click=copy>"Copy the link"</button>
                <span role="status">
                    {move || copied.get().map(|copied| if copied { "Copied." } else { "The browser did not let it be copied: select it and copy by hand." })}
                </span>
            </p>
        </div>
    }
}

/// That a weather file goes with neither link nor file, while one is in use.
#[component]
fn WeatherStays() -> impl IntoView {
    let climates: Climates = expect_context();
    move || {
        climates.used().map(|climate| {
            let words = format!(
                "The weather file “{}” stays here: elsewhere day and year are in the brief’s own climate, until the file is \
                 used there too.",
                climate.file
            );
            view! { <p class="form__say">{words}</p> }
        })
    }
}

/// The page's own address with the project as its fragment.
fn link_of(fragment: &str) -> String {
    let href = window().location().href().unwrap_or_default();
    let page = href.split('#').next().unwrap_or_default();
    format!("{page}#{fragment}")
}

/// New, open, save, samples, catalogue.
#[component]
fn Menu(
    /// Closes the menu.
    #[prop(into)]
    close: Callback<()>,
) -> impl IntoView {
    let editor = use_editor();
    let take = move |project: project::Project| {
        editor.apply(&Edit::Replace(Box::new(project)));
        close.run(());
    };
    let began = samples()
        .into_iter()
        .map(|sample| {
            let project = sample.project;
            view! {
                <li>
                    <button type="button" class="option option--plain" on:click=move |_| take(project.clone())>
                        <span class="option__text"><span class="option__name">{sample.name}</span><span>{sample.about}</span></span>
                    </button>
                </li>
            }
        })
        .collect_view();
    view! {
        <div class="form">
            <p class="sheetlet__head">"Project"</p>
            <p class="form__acts form__acts--wrap">
                <button type="button" class="press press--quiet" autofocus on:click=move |_| take(new_project(&editor.catalogue_now()))>"New"</button>
                <OpenButton on_done=close />
                <button type="button" class="press press--quiet" on:click=move |_| save(editor)>"Save to a file"</button>
            </p>
            <p class="form__say">"A project replaced here comes back with Undo."</p>
            <WeatherStays />
            <p class="sheetlet__head">"Begin with a finished one"</p>
            <ul class="options">{began}</ul>
            <files::CatalogueRow />
            <ClimateRow on_done=close />
        </div>
    }
}

fn save(editor: Editor) {
    let project = editor.project_now();
    let name: String = project
        .name
        .chars()
        .map(|letter| if letter.is_alphanumeric() { letter.to_ascii_lowercase() } else { '-' })
        .collect();
    let name = name.split('-').filter(|word| !word.is_empty()).collect::<Vec<_>>().join("-");
    let name = if name.is_empty() { "project".to_owned() } else { name };
    download(&format!("{name}.baywright.json"), "application/json", &to_json(&project));
}
