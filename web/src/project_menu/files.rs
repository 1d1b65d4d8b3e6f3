//! Files in and out: projects and catalogues.

use std::sync::Arc;

use catalogue::Catalogue;
use leptos::{html, prelude::*};
use project::{Edit, from_json};
use wasm_bindgen::JsCast;

use super::{Told, Trouble};
use crate::course;
use crate::editor::use_editor;
use crate::lean::{Memo, view};
use crate::store;

/// A file larger than this is not read, bytes.
const LARGEST: f64 = 5e6;

/// Offers a text as a file.
pub(crate) fn download(name: &str, media_type: &str, text: &str) {
    // Each step fails only in a browser that offers no files at all; then nothing is written and nothing is lost.
    let parts = js_sys::Array::of1(&text.into());
    let options = web_sys::BlobPropertyBag::new();
    options.set_type(media_type);
    let Ok(blob) = web_sys::Blob::new_with_str_sequence_and_options(&parts, &options) else { return };
    let Ok(address) = web_sys::Url::create_object_url_with_blob(&blob) else { return };
    if let Ok(link) = document().create_element("a")
        && let Ok(link) = link.dyn_into::<web_sys::HtmlAnchorElement>()
    {
        link.set_href(&address);
        link.set_download(name);
        link.click();
    }
    let _ = web_sys::Url::revoke_object_url(&address);
}

/// The file that was chosen.
fn chosen(event: &web_sys::Event) -> Option<web_sys::File> {
    let input = event.target()?.dyn_into::<web_sys::HtmlInputElement>().ok()?;
    let file = input.files()?.get(0)?;
    // So that the same file can be chosen again.
    input.set_value("");
    Some(file)
}

/// Reads a file and hands over its name and text, or what is wrong with it.
fn read_text(file: &web_sys::File, take: impl FnOnce(String, Result<String, String>) + 'static) {
    let name = file.name();
    if file.size() > LARGEST {
        take(name, Err(format!("found {:.0} MB; allowed: up to {:.0} MB", file.size() / 1e6, LARGEST / 1e6)));
        return;
    }
    let text = file.text();
    leptos::task::spawn_local(async move {
        let text = wasm_bindgen_futures::JsFuture::from(text).await;
        let text =
            text.ok().and_then(|text| text.as_string()).ok_or_else(|| "the browser could not read it".to_owned());
        take(name, text);
    });
}

/// Opens a project file.
#[component]
pub(super) fn OpenButton(
    /// Called when a project was opened.
    on_done: Callback<()>,
) -> impl IntoView {
    let editor = use_editor();
    let Trouble(trouble) = expect_context();
    let on_file = move |name: String, text: Result<String, String>| {
        let opened = text
            .map_err(|why| vec![why])
            .and_then(|text| from_json(&text).map_err(|problems| crate::start::lines(&problems)));
        match opened {
            Ok(project) => {
                trouble.set(None);
                editor.apply(&Edit::Replace(Box::new(project)));
            }
            Err(lines) => trouble.set(Some(Told::refused(&format!("“{name}”"), lines))),
        }
        on_done.run(());
    };
    view! { <FileButton label="Open a file" accept=".json,application/json" on_file=move |file| read_text(&file, on_file) /> }
}

/// The catalogue in use, and how to use another.
#[component]
pub(super) fn CatalogueRow() -> impl IntoView {
    let editor = use_editor();
    let Trouble(trouble) = expect_context();
    let about = Memo::new(move |_| editor.catalogue().about.clone());
    let on_file = move |name: String, text: Result<String, String>| {
        let loaded = text.map_err(|why| vec![why]).and_then(|text| match catalogue::load(&[(&name, &text)]) {
            Ok(catalogue) => Ok((catalogue, text)),
            Err(problems) => Err(problems.iter().map(ToString::to_string).collect()),
        });
        match loaded {
            Ok((catalogue, text)) => {
                let after = if store::keep_catalogue(&text) {
                    "It stays on this machine until the shipped one is taken again."
                } else {
                    "The browser’s store is full or forbidden: it is in use until the page is left."
                };
                let head = format!("Catalogue “{}” is in use", catalogue.about.name);
                course::take_catalogue(Some(text));
                editor.set_catalogue(Arc::new(catalogue));
                trouble.set(Some(Told::taken(head, after)));
            }
            Err(lines) => trouble.set(Some(Told::refused(&format!("“{name}”"), lines))),
        }
    };
    let back = move |_| {
        store::forget_catalogue();
        course::take_catalogue(None);
        editor.set_catalogue(Arc::new(shipped()));
    };
    view! {
        <p class="sheetlet__head">"Catalogue"</p>
        <p class="form__say"><b>{move || about.get().name}</b>" "{move || about.get().note}</p>
        <p class="form__acts form__acts--wrap">
            <FileButton label="Use another catalogue" accept=".toml" on_file=move |file| read_text(&file, on_file) />
            <button type="button" class="press press--quiet" on:click=back>"Use the shipped one"</button>
        </p>
    }
}

fn shipped() -> Catalogue {
    catalogue::sample()
}

/// A button that asks for a file.
#[component]
pub(crate) fn FileButton(
    /// What it says.
    label: &'static str,
    /// The kinds of file it offers.
    accept: &'static str,
    /// Called with the file that was chosen.
    on_file: impl Fn(web_sys::File) + Send + Sync + 'static,
) -> impl IntoView {
    let input = NodeRef::<html::Input>::new();
    view! {
        <button
            type="button"
            class="press press--quiet"
            on:click=move |_| {
                if let Some(input) = input.get_untracked() {
                    input.click();
                }
            }
        >
            {label}
        </button>
        <input
            node_ref=input
            type="file"
            accept=accept
            hidden
            aria-label=label
            on:change=move |event| {
                if let Some(file) = chosen(&event) {
                    on_file(file);
                }
            }
        />
    }
}
