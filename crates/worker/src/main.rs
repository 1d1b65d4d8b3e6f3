//! The wasm module: carries orders from the page to the desk, and its words back. All work is done in turns, so that an
//! order that comes meanwhile is looked at before the next.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use js_sys::{Array, Uint8Array};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{DedicatedWorkerGlobalScope, MessageChannel, MessageEvent, MessagePort};
use worker::{Desk, Word, packed, unpacked};

fn main() {
    console_error_panic_hook::set_once();
    let scope: DedicatedWorkerGlobalScope = js_sys::global().unchecked_into();
    // A browser that has workers has message channels.
    let Ok(channel) = MessageChannel::new() else { return };
    let desk = Rc::new(RefCell::new(Desk::default()));
    let turns = Rc::new(Turns { asked: Cell::new(false), to: channel.port2() });

    let (on_turn_desk, on_turn_turns) = (Rc::clone(&desk), Rc::clone(&turns));
    let on_turn = forever(move |_| {
        on_turn_turns.asked.set(false);
        let word = on_turn_desk.borrow_mut().work(now);
        if let Some(word) = word {
            say(&word);
        }
        if on_turn_desk.borrow().is_busy() {
            on_turn_turns.ask();
        }
    });
    channel.port1().set_onmessage(Some(&on_turn));

    let on_order = forever(move |event| {
        let bytes = event.data().dyn_into::<Uint8Array>().map(|bytes| bytes.to_vec()).unwrap_or_default();
        let Some(order) = unpacked(&bytes) else { return };
        let word = desk.borrow_mut().take(order, now);
        if let Some(word) = word {
            say(&word);
        }
        if desk.borrow().is_busy() {
            turns.ask();
        }
    });
    scope.set_onmessage(Some(&on_order));
    say(&Word::Ready);
}

/// Turns of work, one asked for at a time.
struct Turns {
    asked: Cell<bool>,
    to: MessagePort,
}

impl Turns {
    /// Asks for a turn, which comes after whatever has arrived by now.
    fn ask(&self) {
        if !self.asked.replace(true) {
            // Nothing is carried, so nothing can fail to be cloned.
            let _ = self.to.post_message(&JsValue::NULL);
        }
    }
}

/// A handler of messages that lives as long as the worker.
fn forever(handle: impl FnMut(MessageEvent) + 'static) -> js_sys::Function {
    Closure::<dyn FnMut(MessageEvent)>::new(handle).into_js_value().unchecked_into()
}

/// Sends a word to the page; its bytes are handed over and not copied.
fn say(word: &Word) {
    let scope: DedicatedWorkerGlobalScope = js_sys::global().unchecked_into();
    let bytes = Uint8Array::from(packed(word).as_slice());
    // Bytes can always be handed over once.
    let _ = scope.post_message_with_transfer(&bytes, &Array::of1(&bytes.buffer()));
}

/// Milliseconds since the worker began.
fn now() -> f64 {
    let scope: DedicatedWorkerGlobalScope = js_sys::global().unchecked_into();
    scope.performance().map_or(0.0, |performance| performance.now())
}
