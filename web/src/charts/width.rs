//! How wide an element is, so that a chart's letters stay their size.

use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::{JsCast, prelude::Closure};
use web_sys::{Element, ResizeObserver};

use crate::lean::{RwSignal, effect};

/// What a chart is drawn for before it has been measured, px.
const BEFORE: f64 = 500.0;

/// The width of an element, px, measured again whenever it changes.
pub(super) fn width_of(element: NodeRef<html::Div>) -> RwSignal<f64> {
    let width = RwSignal::new(BEFORE);
    effect(move |_| {
        let Some(element) = element.get() else { return };
        let element: Element = element.unchecked_into();
        let measured = element.clone();
        let measure = move || {
            let now = f64::from(measured.client_width());
            if now > 0.0 && width.try_get_untracked().is_some_and(|before| (before - now).abs() > 0.5) {
                width.try_set(now);
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
    width
}
