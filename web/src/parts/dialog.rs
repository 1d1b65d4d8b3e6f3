//! One mechanism for everything that opens: a native dialog, so that focus stays inside, Escape closes it and focus returns.

use leptos::{ev, html, prelude::*};

use crate::later::use_arrival;
use crate::lean::{RwSignal, effect, view};
use wasm_bindgen::JsCast;

/// Where a small dialog opens: under the thing that was pressed, in CSS pixels of the window.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Anchor {
    /// Left edge of what was pressed.
    pub left: f64,
    /// Its upper edge.
    pub top: f64,
    /// Its lower edge.
    pub bottom: f64,
}

/// Where the thing stands whose event this is.
#[must_use]
pub fn anchor_of(event: &web_sys::Event) -> Anchor {
    let target = event.current_target().and_then(|target| target.dyn_into::<web_sys::Element>().ok());
    target.map_or_else(Anchor::default, |element| {
        let place = element.get_bounding_client_rect();
        Anchor { left: place.left(), top: place.top(), bottom: place.bottom() }
    })
}

/// A dialog that is open while `open` is set. With an anchor it stands under what was pressed, else in the middle.
#[component]
pub fn Sheetlet(
    /// Whether it is open, and where.
    open: RwSignal<Option<Anchor>>,
    /// Its name.
    #[prop(into)]
    label: Signal<String>,
    /// Whether it is large and stands in the middle.
    #[prop(default = false)]
    large: bool,
    /// What is in it, made anew each time it opens.
    children: ChildrenFn,
) -> impl IntoView {
    let dialog = NodeRef::<html::Dialog>::new();
    let arrival = use_arrival();
    effect(move |_| {
        let Some(element) = dialog.get() else { return };
        // What is in it may arrive after it was opened, and has its size and its focus only then.
        let _ = arrival.here();
        match open.get() {
            Some(anchor) => {
                if !element.open() {
                    // A dialog that cannot be shown as modal is still shown.
                    if element.show_modal().is_err() {
                        element.set_open(true);
                    }
                }
                // Its content is filled and laid out by the next frame; only then has it a size, and a text to select.
                request_animation_frame(move || {
                    if let Some(element) = dialog.get_untracked() {
                        if !large {
                            place_at(&element, anchor);
                        }
                        focus_content(&element);
                        select_focused(&element);
                    }
                });
            }
            None => {
                if element.open() {
                    element.close();
                }
            }
        }
    });
    let on_pointer = move |event: ev::PointerEvent| {
        // A press on the dialog element itself, outside its content, is a press on what lies behind it.
        let Some(element) = dialog.get_untracked() else { return };
        let place = element.get_bounding_client_rect();
        let (x, y) = (f64::from(event.client_x()), f64::from(event.client_y()));
        let inside = x >= place.left() && x <= place.right() && y >= place.top() && y <= place.bottom();
        if !inside {
            open.set(None);
        }
    };
    view! {
        <dialog
            node_ref=dialog
            class="sheetlet"
            class:sheetlet--large=large
            aria-label=move || label.get()
            on:close=move |_| open.set(None)
            on:pointerdown=on_pointer
            // Keys inside a dialog are its own: they must not move a device behind it.
            on:keydown=|event: ev::KeyboardEvent| event.stop_propagation()
        >
            {move || {
                open.get().is_some().then(|| {
                    view! {
                        {children()}
                        // After the content, so that focus begins with the content and not with leaving it.
                        <button type="button" class="blank sheetlet__away" on:click=move |_| open.set(None)>"Put away"</button>
                    }
                })
            }}
        </dialog>
    }
}

/// Puts the focus on what asks for it, or on what comes first, where the dialog was opened before its content was there.
fn focus_content(element: &web_sys::HtmlDialogElement) {
    let away = document().active_element().is_some_and(|focused| focused.class_name().contains(AWAY));
    let first = |what: &str| element.query_selector(what).ok().flatten()?.dyn_into::<web_sys::HtmlElement>().ok();
    if let Some(content) = first("[autofocus]").or_else(|| first("input, textarea, button")).filter(|_| away) {
        // Focus can only be refused by an element that is gone.
        let _ = content.focus();
    }
}

/// The class of the button that puts a dialog away.
const AWAY: &str = "sheetlet__away";

/// Selects the text of the field that took the focus when the dialog opened, so that typing replaces it.
fn select_focused(element: &web_sys::HtmlDialogElement) {
    let focused = document().active_element().filter(|focused| element.contains(Some(focused)));
    if let Some(field) = focused.and_then(|focused| focused.dyn_into::<web_sys::HtmlInputElement>().ok()) {
        field.select();
    }
}

/// Puts a dialog under its anchor, or above it where there is no room, and never past the window's edge.
fn place_at(element: &web_sys::HtmlDialogElement, anchor: Anchor) {
    let Some(window) = web_sys::window() else { return };
    let of = |size: Result<wasm_bindgen::JsValue, _>| size.ok().and_then(|size| size.as_f64()).unwrap_or(800.0);
    let (width, height) = (of(window.inner_width()), of(window.inner_height()));
    let own = element.get_bounding_client_rect();
    let left = anchor.left.min(width - own.width() - 12.0).max(8.0);
    let below = anchor.bottom + 6.0;
    let top = if below + own.height() > height - 8.0 {
        let above = anchor.top - own.height() - 6.0;
        if above >= 8.0 { above } else { (height - own.height() - 8.0).max(8.0) }
    } else {
        below
    };
    let style = web_sys::HtmlElement::style(element);
    // Setting a style by name cannot fail for these names.
    let _ = style.set_property("left", &format!("{left}px"));
    let _ = style.set_property("top", &format!("{top}px"));
}
