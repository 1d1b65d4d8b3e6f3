//! How much room the drawing has, measured again whenever it changes.

use leptos::{html, prelude::*};

use crate::lean::{Memo, RwSignal, effect};
use wasm_bindgen::{JsCast, prelude::Closure};

use super::frame::Stage;

/// Below this width of the window the page scrolls (as in the style sheet).
const SCROLLS_BELOW: f64 = 1120.0;
/// The letter size that a drawing pixel is a sixteenth of, before anything is measured.
const ROOT: f64 = 16.0;

/// The room inside an element.
pub(super) fn stage_of(element: NodeRef<html::Div>) -> Memo<Stage> {
    let measured = RwSignal::new(Stage { width: 392.0, height: None });
    effect(move |_| {
        let Some(element) = element.get() else { return };
        let observed: web_sys::Element = element.clone().unchecked_into();
        measured.set(measure(&observed));
        let watched = observed.clone();
        let on_change = Closure::<dyn FnMut()>::new(move || {
            measured.try_set(measure(&watched));
        });
        // The elevations stand as long as the page, so the closure is left to the browser's own tidying.
        if let Ok(observer) = web_sys::ResizeObserver::new(on_change.into_js_value().unchecked_ref()) {
            observer.observe(&observed);
        }
    });
    Memo::new(move |_| measured.get())
}

fn measure(element: &web_sys::Element) -> Stage {
    let pixel = root_letter() / ROOT;
    let (width, height) = (f64::from(element.client_width()) / pixel, f64::from(element.client_height()) / pixel);
    let window = window().inner_width().ok().and_then(|width| width.as_f64()).unwrap_or(SCROLLS_BELOW);
    Stage { width, height: (window >= SCROLLS_BELOW).then_some(height) }
}

fn root_letter() -> f64 {
    let size = document()
        .document_element()
        .and_then(|root| window().get_computed_style(&root).ok().flatten())
        .and_then(|style| style.get_property_value("font-size").ok());
    size.and_then(|size| size.trim_end_matches("px").parse().ok()).filter(|size| *size > 0.0).unwrap_or(ROOT)
}
