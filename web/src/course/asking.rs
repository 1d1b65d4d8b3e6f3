//! Asks the worker after each change, as soon as changes rest, and keeps what it answers. The latest ask alone counts.

use std::cell::{Cell, RefCell};
use std::sync::Arc;
use std::time::Duration;

use leptos::leptos_dom::helpers::TimeoutHandle;
use leptos::prelude::*;
use project::{Project, to_json};
use worker::{Order, Word};

use super::climate::Climates;
use super::line::{self, Heard};
use super::state::{CourseState, Known};
use crate::editor::Editor;
use crate::lean::effect;
use crate::store;

thread_local! {
    /// The number of the latest ask.
    static NUMBER: Cell<u32> = const { Cell::new(0) };
    /// Whether the worker takes orders.
    static READY: Cell<bool> = const { Cell::new(false) };
    /// When the first change came that the worker has not been asked about, and what will ask.
    static DUE: Cell<Option<(f64, TimeoutHandle)>> = const { Cell::new(None) };
    /// The text of the catalogue of one's own that is in use.
    static CATALOGUE: RefCell<Option<String>> = const { RefCell::new(None) };
    /// Waits for what the worker measured.
    static MEASURED: RefCell<Option<js_sys::Function>> = const { RefCell::new(None) };
}

/// Starts the worker, and asks it after every change from then on.
pub(crate) fn begin(editor: Editor) {
    let climates: Climates = expect_context();
    climates.recall();
    CATALOGUE.set(store::own_catalogue());
    super::drop::listen(climates);
    line::start(move |heard| hear(editor, climates, heard));
    effect(move |_| {
        let _ = (editor.project(), editor.catalogue());
        let _ = climates.used();
        due(editor);
    });
}

/// So long changes have to rest before the worker is asked: during a drag it would be at work beside every frame.
const REST: Duration = Duration::from_millis(50);
/// So long they are waited for while they go on, ms.
const AT_MOST: f64 = 250.0;

/// Asks as soon as changes rest, once for all of them.
fn due(editor: Editor) {
    if !READY.get() {
        return;
    }
    let now = js_sys::Date::now();
    let since = DUE.take().map_or(now, |(since, handle)| {
        handle.clear();
        since
    });
    let rest = if now - since < AT_MOST { REST } else { Duration::ZERO };
    let asks = move || {
        DUE.set(None);
        ask(editor);
    };
    match set_timeout_with_handle(asks, rest) {
        Ok(handle) => DUE.set(Some((since, handle))),
        Err(_) => ask(editor),
    }
}

/// Asks for the course of what is open.
pub(crate) fn ask(editor: Editor) {
    if !READY.get() {
        return;
    }
    let (project, catalogue) = (editor.project_now(), editor.catalogue_now());
    let number = NUMBER.get().wrapping_add(1);
    NUMBER.set(number);
    line::send(&Order::Run { number, project: to_json(&project) });
    let old = editor.known_course().state.shown();
    tell(editor, Some((project, catalogue)), CourseState::Working { share: 0.0, old });
}

/// Drops what the worker is at.
pub(crate) fn stop(editor: Editor) {
    line::send(&Order::Stop);
    NUMBER.set(NUMBER.get().wrapping_add(1));
    let of = editor.known_course().of.clone();
    tell(editor, of, CourseState::Stopped);
}

fn tell(editor: Editor, of: Option<(Arc<Project>, Arc<catalogue::Catalogue>)>, state: CourseState) {
    editor.set_course(Known { of, state });
}

/// What the worker is told before it is asked anything.
fn ready(editor: Editor, climates: Climates) {
    READY.set(true);
    CATALOGUE.with_borrow(|text| line::send(&Order::Catalogue(text.clone())));
    climates.send();
    ask(editor);
}

/// Marks that the worker is there, or will not come: from then on the page fetches nothing.
fn mark() {
    // Without the mark only tests and the bench miss something.
    let _ = window().performance().map(|performance| performance.mark("baywright:worker"));
}

fn hear(editor: Editor, climates: Climates, heard: Heard) {
    let known = editor.known_course();
    match heard {
        Heard::Word(Word::Ready) => {
            ready(editor, climates);
            mark();
        }
        Heard::Word(Word::Progress { number, share }) if number == NUMBER.get() => {
            let old = known.state.shown();
            tell(editor, known.of.clone(), CourseState::Working { share, old });
        }
        Heard::Word(Word::Answer { number, course }) if number == NUMBER.get() => {
            tell(editor, known.of.clone(), CourseState::Ready(Arc::new(*course)));
        }
        Heard::Word(Word::Problem { number, text }) if number == NUMBER.get() => {
            tell(editor, known.of.clone(), CourseState::Problem(text));
        }
        // Of an ask that is no longer the latest.
        Heard::Word(Word::Progress { .. } | Word::Answer { .. } | Word::Problem { .. }) => {}
        Heard::Word(Word::Climate(climate)) => climates.take(climate),
        Heard::Word(Word::NoClimate { file, problems }) => climates.refuse(&file, problems),
        Heard::Word(Word::Unkept { problems }) => climates.drop_kept(problems),
        Heard::Word(Word::Measured { rooms, preparing, days, running }) => {
            let times = js_sys::Object::new();
            for (name, list) in [("preparing", preparing), ("days", days), ("running", running)] {
                let list: js_sys::Array = list.into_iter().map(wasm_bindgen::JsValue::from).collect();
                // Setting a property of a plain object cannot fail.
                let _ = js_sys::Reflect::set(&times, &name.into(), &list);
            }
            let _ = js_sys::Reflect::set(&times, &"rooms".into(), &rooms.into());
            if let Some(resolve) = MEASURED.take() {
                let _ = resolve.call1(&wasm_bindgen::JsValue::NULL, &times);
            }
        }
        Heard::Lost(why) => {
            let came = READY.replace(false);
            line::hang_up();
            let text = if came {
                "The part of the program that runs day and year has stopped. Load the page again to go on with them; \
                 everything else works."
            } else {
                "The part of the program that runs day and year could not start in this browser; everything else works."
            };
            let text = if why.is_empty() { text.to_owned() } else { format!("{text} It said: {why}") };
            tell(editor, None, CourseState::Problem(text));
            mark();
        }
    }
}

/// Lets the worker run a project so many times; how long each took, `{ rooms, preparing, days, running }` with times in ms.
pub(crate) fn measured(project: &Project, times: u32) -> js_sys::Promise {
    js_sys::Promise::new(&mut |resolve, _| {
        MEASURED.set(Some(resolve));
        line::send(&Order::Measure { project: to_json(project), times });
    })
}

/// Lets the worker read a weather file; false when there is no worker to do it.
pub(super) fn read_climate(name: String, bytes: Vec<u8>) -> bool {
    if READY.get() {
        line::send(&Order::Read { name, bytes });
    }
    READY.get()
}

/// From now on the worker takes parts from this text of a catalogue; from the shipped one with none.
pub(crate) fn take_catalogue(text: Option<String>) {
    send(&Order::Catalogue(text.clone()));
    CATALOGUE.set(text);
}

/// Tells the worker what has changed beside the project.
pub(super) fn send(order: &Order) {
    if READY.get() {
        line::send(order);
    }
}
