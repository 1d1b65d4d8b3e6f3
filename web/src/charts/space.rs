//! How much space an element has, so that a chart fills it and its letters stay their size.

use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::{JsCast, prelude::Closure};
use web_sys::{Element, ResizeObserver};

use crate::lean::{RwSignal, effect};

/// The space for a drawing, px.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Space {
    /// From left to right.
    pub(crate) width: f64,
    /// From top to bottom.
    pub(crate) height: f64,
}

/// What a chart is drawn for before its space has been measured.
const BEFORE: Space = Space { width: 500.0, height: 0.0 };

/// The space within an element, measured again whenever it changes.
pub(crate) fn space_of(element: NodeRef<html::Div>) -> RwSignal<Space> {
    let space = RwSignal::new(BEFORE);
    effect(move |_| {
        let Some(element) = element.get() else { return };
        let element: Element = element.unchecked_into();
        let measured = element.clone();
        let measure = move || {
            let now = Space { width: measured.client_width().into(), height: measured.client_height().into() };
            if now.width > 0.0 && space.try_get_untracked().is_some_and(|before| before != now) {
                space.try_set(now);
            }
        };
        measure();
        let on_change = Closure::<dyn FnMut()>::new(measure);
        if let Ok(observer) = ResizeObserver::new(on_change.as_ref().unchecked_ref()) {
            observer.observe(&element);
            let kept = StoredValue::new_local((observer, on_change));
            on_cleanup(move || {
                kept.try_with_value(|(observer, _)| observer.disconnect());
            });
        }
    });
    space
}
