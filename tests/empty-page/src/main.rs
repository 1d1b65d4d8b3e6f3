//! The least that Leptos and three-d can be: one line of text and one cleared canvas. `cargo xtask bench` loads it beside
//! the real page, so that "first badges visible" is a ratio and not the speed of a machine.

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use std::sync::Arc;
use three_d::{ClearState, Context, RenderTarget};

/// The mark that the real page sets too, once its badges have been painted.
const VISIBLE: &str = "baywright:visible";

fn main() {
    mount_to_body(EmptyPage);
}

#[component]
fn EmptyPage() -> impl IntoView {
    let canvas = NodeRef::<leptos::html::Canvas>::new();
    Effect::new(move || {
        if let Some(canvas) = canvas.get() {
            clear(&canvas);
            mark_when_painted();
        }
    });
    view! {
        <main>
            <h1>"Empty"</h1>
            <canvas node_ref=canvas width="640" height="430"></canvas>
        </main>
    }
}

/// Clears the canvas through three-d; without WebGL2 the page stays blank there.
#[expect(clippy::arc_with_non_send_sync, reason = "three-d asks for an Arc, even where there are no threads")]
fn clear(canvas: &web_sys::HtmlCanvasElement) {
    let Ok(Some(context)) = canvas.get_context("webgl2") else { return };
    let Ok(context) = context.dyn_into::<web_sys::WebGl2RenderingContext>() else { return };
    let gl = three_d::context::Context::from_webgl2_context(context);
    let Ok(context) = Context::from_gl_context(Arc::new(gl)) else { return };
    let target = RenderTarget::screen(&context, canvas.width(), canvas.height());
    target.clear(ClearState::color_and_depth(1.0, 1.0, 1.0, 1.0, 1.0));
}

/// Sets the mark two frames from now: by then the first one has been painted.
fn mark_when_painted() {
    request_animation_frame(|| {
        request_animation_frame(|| {
            if let Some(performance) = window().performance() {
                let _ = performance.mark(VISIBLE);
            }
        });
    });
}
