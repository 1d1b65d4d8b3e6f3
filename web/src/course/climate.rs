//! The climate that is reckoned with: the brief's own, or a weather file, which the worker reads and this machine keeps.

use std::sync::Arc;

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use worker::{Climate, Order};

use super::asking;
use crate::lean::{RwSignal, view};
use crate::project_menu::{FileButton, Told};
use crate::store;

/// A file larger than this is not read, bytes: ten times a usual one.
const LARGEST: f64 = 20e6;

/// The climate in use. Copy it freely; it lives in the page's context.
#[derive(Clone, Copy)]
pub(crate) struct Climates {
    used: RwSignal<Option<Arc<Climate>>>,
    trouble: RwSignal<Option<Told>>,
}

impl Climates {
    /// With the brief's own.
    pub(crate) fn new(trouble: RwSignal<Option<Told>>) -> Self {
        Self { used: RwSignal::new(None), trouble }
    }

    /// Takes what this machine has kept.
    pub(super) fn recall(&self) {
        self.used.set(store::kept_climate().map(Arc::new));
    }

    /// The weather file in use, none with the brief's own climate; tracks it.
    pub(crate) fn used(&self) -> Option<Arc<Climate>> {
        self.used.get()
    }

    /// Tells the worker which to use.
    pub(super) fn send(&self) {
        let kept = self.used.get_untracked().map(|climate| climate.kept.clone());
        asking::send(&Order::Climate(kept));
    }

    /// Takes a weather file that the worker has read.
    pub(super) fn take(&self, climate: Climate) {
        let after = if store::keep_climate(&climate) {
            "It stays on this machine until the brief’s own climate is taken again."
        } else {
            "The browser’s store is full or forbidden: it is in use until the page is left."
        };
        let head = format!("Day and year are in the weather of “{}” now", climate.name);
        self.trouble.set(Some(Told::taken(head, after).with(climate.notes.clone())));
        self.used.set(Some(Arc::new(climate)));
        self.send();
    }

    /// Tells why a weather file was not taken; nothing changes.
    pub(super) fn refuse(&self, file: &str, problems: Vec<String>) {
        self.trouble.set(Some(Told::refused(&format!("“{file}”"), problems)));
    }

    /// Drops what this machine has kept, since it cannot be used any more, and tells why.
    pub(super) fn drop_kept(&self, problems: Vec<String>) {
        store::forget_climate();
        self.used.set(None);
        self.trouble.set(Some(Told::refused("The weather kept on this machine", problems)));
    }

    /// Goes back to the brief's own climate.
    pub(crate) fn forget(&self) {
        store::forget_climate();
        self.used.set(None);
        self.send();
    }

    /// Has a file read that was chosen or dropped.
    pub(crate) fn open(self, file: web_sys::File) {
        let name = file.name();
        if file.size() > LARGEST {
            let found = format!("found {:.0} MB; allowed: up to {:.0} MB", file.size() / 1e6, LARGEST / 1e6);
            return self.refuse(&name, vec![found]);
        }
        leptos::task::spawn_local(async move {
            let bytes = wasm_bindgen_futures::JsFuture::from(file.array_buffer()).await;
            let wrong = match bytes.map(JsCast::unchecked_into::<js_sys::ArrayBuffer>) {
                Err(_) => "the browser could not read it",
                Ok(bytes) if asking::read_climate(name.clone(), js_sys::Uint8Array::new(&bytes).to_vec()) => return,
                Ok(_) => "the part of the program that reads weather is not running",
            };
            self.refuse(&name, vec![wrong.to_owned()]);
        });
    }
}

/// The climate in use, and how to use another.
#[component]
pub(crate) fn ClimateRow(
    /// Called when a file was chosen: what is told of it lies behind whatever is open.
    on_done: Callback<()>,
) -> impl IntoView {
    let climates: Climates = expect_context();
    let about = move || match climates.used() {
        None => view! {
            <p class="form__say"><b>"The brief’s own"</b>" made up from where the cabinet stands and its design temperatures."</p>
        },
        Some(climate) => {
            let notes = climate.notes.iter().map(|note| view! { <li>{note.clone()}</li> }).collect_view();
            view! {
                <p class="form__say"><b>{climate.name.clone()}</b>" "{climate.place.clone()}", from the file "{climate.file.clone()}"."</p>
                <ul class="form__say">{notes}</ul>
            }
        }
    };
    view! {
        <p class="sheetlet__head">"Climate of day and year"</p>
        {about}
        <p class="form__acts form__acts--wrap">
            <FileButton
                label="Use a weather file"
                accept=".epw"
                on_file=move |file| {
                    climates.open(file);
                    on_done.run(());
                }
            />
            <button
                type="button"
                class="press press--quiet"
                disabled=move || climates.used().is_none()
                on:click=move |_| climates.forget()
            >
                "Use the brief’s own"
            </button>
        </p>
        <p class="form__say">"An EPW file can also be dropped anywhere on the sheet. It is read here and sent nowhere."</p>
    }
}
