//! The line to the worker: starts it, carries orders there and hands over its words.

use std::cell::RefCell;

use js_sys::{Array, Function, Reflect, Uint8Array};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{MessageEvent, Worker};
use worker::{Order, Word, packed, unpacked};

/// What the page's loader calls the function that starts the worker: `crates/xtask/src/page/worker.rs`.
const START: &str = "baywrightWorker";

thread_local! {
    static WORKER: RefCell<Option<Worker>> = const { RefCell::new(None) };
}

/// What comes over the line.
pub(super) enum Heard {
    /// A word of the worker.
    Word(Word),
    /// The worker is gone, or never came; why.
    Lost(String),
}

/// Starts the worker, whatever became of the one before.
pub(super) fn start(hear: impl Fn(Heard) + Clone + 'static) {
    hang_up();
    let worker = match started() {
        Ok(worker) => worker,
        Err(why) => return hear(Heard::Lost(why)),
    };
    let on_word = {
        let hear = hear.clone();
        Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
            let data = event.data();
            let word = data.dyn_ref::<Uint8Array>().and_then(|bytes| unpacked(&bytes.to_vec()));
            hear(match word {
                Some(word) => Heard::Word(word),
                None => Heard::Lost(data.as_string().unwrap_or_default()),
            });
        })
    };
    let on_error = Closure::<dyn Fn(web_sys::Event)>::new(move |event: web_sys::Event| {
        let why = Reflect::get(&event, &"message".into()).ok().and_then(|why| why.as_string());
        hear(Heard::Lost(why.unwrap_or_default()));
    });
    worker.set_onmessage(Some(on_word.into_js_value().unchecked_ref()));
    worker.set_onerror(Some(on_error.into_js_value().unchecked_ref()));
    WORKER.set(Some(worker));
}

fn started() -> Result<Worker, String> {
    let words = |wrong: JsValue| js_sys::Object::from(wrong).to_string().into();
    let start = Reflect::get(&js_sys::global(), &START.into()).map_err(words)?;
    let start: Function = start.dyn_into().map_err(|_| "this page came without one".to_owned())?;
    start.call0(&JsValue::NULL).map_err(words)?.dyn_into().map_err(words)
}

/// Sends an order; it is lost when there is no worker.
pub(super) fn send(order: &Order) {
    let bytes = Uint8Array::from(packed(order).as_slice());
    WORKER.with_borrow(|worker| {
        if let Some(worker) = worker {
            // Bytes can always be handed over once.
            let _ = worker.post_message_with_transfer(&bytes, &Array::of1(&bytes.buffer()));
        }
    });
}

/// Ends the worker, if there is one.
pub(super) fn hang_up() {
    if let Some(worker) = WORKER.take() {
        worker.set_onmessage(None);
        worker.set_onerror(None);
        worker.terminate();
    }
}
