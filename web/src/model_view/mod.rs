//! The 3D model: the solids of the build as ink edges over flat tones, on a canvas of our own.
//!
//! **Invariant:** draws what the geometry says and nothing else; no frame is drawn while nothing changes.
// Drawing only: nothing computed here enters a figure, so the platform's trigonometry will do.
#![allow(clippy::disallowed_methods)]

mod camera;
mod gpu;
mod ink;
mod keys;
mod motion;
mod overlay;
mod pace;
mod palette;
mod pick;
mod pointer;
mod projection;
mod scene;
#[cfg(test)]
mod scene_tests;
mod stage;
mod words;

use std::cell::RefCell;
use std::rc::Rc;

use geometry::Of;
use leptos::ev;
use leptos::html::Canvas;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{HtmlCanvasElement, ResizeObserver};

use crate::charts::sun_now;
use crate::editor::use_editor;
use crate::lean::{RwSignal, effect, view};
use crate::view_state::use_view;
use overlay::Overlay;
use pointer::Pointers;
pub use projection::Projection;
pub use stage::drawn;
use stage::{Shared, Stage};

/// The model of the build. It fills its parent.
#[component]
pub fn ModelView(
    /// The part that a failing finding is about.
    #[prop(into)]
    limiting: Signal<Option<Of>>,
    /// Set after each frame to how it was drawn, so that call-outs can follow parts.
    #[prop(default = RwSignal::new(None))]
    projection: RwSignal<Option<Projection>>,
) -> impl IntoView {
    let (editor, view) = (use_editor(), use_view());
    let canvas = NodeRef::<Canvas>::new();
    let stage = StoredValue::new_local(None::<Shared>);
    let pointers = Rc::new(RefCell::new(Pointers::default()));
    let with = move |act: &dyn Fn(&Shared)| stage.with_value(|stage| stage.iter().for_each(act));

    effect(move |_| {
        let Some(canvas) = canvas.get() else { return };
        let shared = Stage::new(canvas.clone(), projection);
        let lit = shared.borrow_mut().light_up();
        if !lit {
            view.drawable.set(false);
            return;
        }
        watch(&canvas, &shared);
        stage.set_value(Some(shared));
        follow(stage);
    });
    on_cleanup(move || stage.set_value(None));

    let label = move || words::label(editor.model().as_deref(), view);
    let (press, travel, lift, cancel) = (pointers.clone(), pointers.clone(), pointers.clone(), pointers);
    view! {
        <div class="model-view">
            <canvas
                node_ref=canvas
                class="model-view__canvas"
                tabindex="0"
                role="application"
                aria-roledescription="3D model"
                aria-label=move || label()
                aria-describedby="model-view-help"
                on:pointerdown=move |event| press.borrow_mut().press(&event)
                on:pointermove=move |event| with(&|stage| travel.borrow_mut().travel(&event, stage, view.hovered))
                on:pointerup=move |event| with(&|stage| lift.borrow_mut().lift(&event, stage, view.selected))
                on:pointercancel=move |event| cancel.borrow_mut().cancel(&event)
                on:pointerleave=move |_| pointer::point_at(view.hovered, None)
                on:contextmenu=move |event: ev::MouseEvent| event.prevent_default()
                on:wheel=move |event| with(&|stage| pointer::wheel(&event, stage))
                on:keydown=move |event| with(&|stage| {
                    if keys::press(&event, &mut stage.borrow_mut(), view.camera.get_untracked()) {
                        event.prevent_default();
                        event.stop_propagation();
                    }
                })
            ></canvas>
            <p id="model-view-help" class="model-view__help">{keys::HELP}</p>
            <Overlay limiting projection />
        </div>
    }
}

/// Keeps a stage in step with the build and the view.
fn follow(stage: StoredValue<Option<Shared>, LocalStorage>) {
    let (editor, view) = (use_editor(), use_view());
    let with = move |act: &dyn Fn(&mut Stage)| {
        stage.with_value(|stage| stage.iter().for_each(|stage| act(&mut stage.borrow_mut())));
    };
    effect(move |_| {
        let model = editor.model();
        let wires = if view.wires.get() { editor.wires() } else { Vec::new() };
        with(&|stage| stage.show(model.clone(), wires.clone()));
    });
    effect(move |_| {
        let camera = view.camera.get();
        with(&|stage| stage.turn_to(camera));
    });
    effect(move |_| {
        let open = view.doors_open.get();
        with(&|stage| stage.set_doors(open));
    });
    effect(move |_| {
        let on = view.shield_on.get();
        with(&|stage| stage.set_shield(on));
    });
    effect(move |_| {
        let ghosted = view.ghosted.get();
        with(&|stage| stage.set_ghosted(ghosted));
    });
    let sun = sun_now();
    effect(move |_| {
        let sun = sun.get();
        with(&|stage| stage.set_sun(sun));
    });
    effect(move |_| {
        view.sheet.track();
        with(&|stage| stage.restyle());
    });
}

/// Listens to what the browser does to the canvas: its size, its colours, its context lost and given back. All of it goes
/// with the canvas; the stage is held weakly.
fn watch(canvas: &HtmlCanvasElement, stage: &Shared) {
    let on = |act: fn(&mut Stage)| {
        let stage = Rc::downgrade(stage);
        move || {
            if let Some(stage) = stage.upgrade() {
                act(&mut stage.borrow_mut());
            }
        }
    };
    let resized = Closure::<dyn FnMut()>::new(on(Stage::resize)).into_js_value();
    if let Ok(observer) = ResizeObserver::new(resized.unchecked_ref()) {
        observer.observe(canvas);
    }
    let listen = |target: &web_sys::EventTarget, event: &str, act: Box<dyn FnMut(web_sys::Event)>| {
        let act = Closure::<dyn FnMut(web_sys::Event)>::new(act).into_js_value();
        // Only an unknown option could make it fail.
        let _ = target.add_event_listener_with_callback(event, act.unchecked_ref());
    };
    let lost = on(Stage::go_dark);
    listen(
        canvas,
        "webglcontextlost",
        Box::new(move |event| {
            // Only then does the browser give it back.
            event.prevent_default();
            lost();
        }),
    );
    let restored = on(|stage| {
        stage.light_up();
    });
    listen(canvas, "webglcontextrestored", Box::new(move |_| restored()));
    let resized = on(Stage::resize);
    listen(&window(), "resize", Box::new(move |_| resized()));
    for query in ["(prefers-color-scheme: dark)", "(forced-colors: active)", "(prefers-contrast: more)"] {
        if let Ok(Some(list)) = window().match_media(query) {
            let restyled = on(Stage::restyle);
            listen(&list, "change", Box::new(move |_| restyled()));
        }
    }
}
