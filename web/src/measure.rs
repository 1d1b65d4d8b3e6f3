//! Figures for `cargo xtask bench`, offered only when the address ends in `#measure`. The contract stands in
//! `crates/xtask/src/bench/mod.rs`.

use std::sync::Arc;

use catalogue::Catalogue;
use leptos::prelude::*;
use project::{DeviceWhat, Edit, Place, Project, apply, first_free_place};
use units::Millimetres;
use wasm_bindgen::{JsValue, closure::Closure};

use crate::editor::Editor;

/// The devices that the budgets are stated for.
const DEVICES: usize = 60;

/// Whether the page was asked to offer its figures.
pub(crate) fn is_asked() -> bool {
    window().location().hash().is_ok_and(|hash| hash == "#measure")
}

/// The first sample with two bays.
fn sample(catalogue: &Catalogue) -> Project {
    let sample = project::samples().into_iter().find(|sample| sample.project.build.bays.len() == 2);
    sample.map_or_else(|| project::new_project(catalogue), |sample| sample.project)
}

/// The same with a divider, so that it has two compartments.
fn two_rooms(catalogue: &Catalogue) -> Project {
    let mut project = sample(catalogue);
    project.build.divider = true;
    project
}

/// The project that is measured: the first sample with two bays, filled up with its own devices.
pub(crate) fn project(catalogue: &Catalogue) -> Project {
    let mut project = sample(catalogue);
    let own: Vec<DeviceWhat> = project.build.devices.iter().map(|device| device.what.clone()).collect();
    for what in own.iter().cycle().take(DEVICES.saturating_sub(own.len())) {
        let at = match what {
            DeviceWhat::Part(part) => catalogue
                .devices
                .get(part)
                .map_or(Place::Unplaced, |spec| first_free_place(&project.build, spec, catalogue)),
            DeviceWhat::Own(spec) => first_free_place(&project.build, spec, catalogue),
        };
        // What cannot be added is missing from `devices()`, which the bench prints.
        let _ = apply(&mut project, &Edit::AddDevice { what: what.clone(), at }, catalogue);
    }
    project
}

/// Offers the measuring hook.
pub(crate) fn offer(editor: Editor) {
    let hook = js_sys::Object::new();
    let put = |name: &str, function: JsValue| {
        // Setting a property of a plain object cannot fail.
        let _ = js_sys::Reflect::set(&hook, &name.into(), &function);
    };
    put("report_ms", function(move |n| times(editor, n as usize).into()));
    put("paint_ms", function(move |n| wasm_bindgen_futures::future_to_promise(painted(editor, n as usize)).into()));
    put("course_ms", function(move |n| wasm_bindgen_futures::future_to_promise(courses(editor, n as usize)).into()));
    put("project", function(move |_| project::to_json(&two_rooms(&editor.catalogue_now())).into()));
    put("year_ms", function(move |n| crate::course::measured(&two_rooms(&editor.catalogue_now()), n as u32).into()));
    put("devices", function(move |_| (editor.project_now().build.devices.len() as f64).into()));
    put(
        "draw",
        function(|_| {
            let drawn = crate::model_view::drawn();
            let object = js_sys::Object::new();
            let _ = js_sys::Reflect::set(&object, &"calls".into(), &drawn.calls.into());
            let _ = js_sys::Reflect::set(&object, &"triangles".into(), &drawn.triangles.into());
            object.into()
        }),
    );
    put("frames", function(|_| crate::model_view::drawn().frames.into()));
    let _ = js_sys::Reflect::set(&window(), &"baywrightMeasure".into(), &hook);
}

/// A function of one number that lives as long as the page.
fn function(answer: impl Fn(f64) -> JsValue + 'static) -> JsValue {
    Closure::<dyn Fn(f64) -> JsValue>::new(answer).into_js_value()
}

fn now() -> f64 {
    window().performance().map_or(0.0, |performance| performance.now())
}

/// One edit of the kind a user makes, the `index`-th of a sequence that comes back to where it began.
fn edit(editor: Editor, index: usize) -> Option<Edit> {
    let project = editor.project_now();
    let inch = if index.is_multiple_of(4) { 25.4 } else { -25.4 };
    if index.is_multiple_of(2) {
        return Some(Edit::SetDepth(Millimetres(project.build.depth.0 + inch)));
    }
    let device = project.build.devices.iter().find(|device| matches!(device.at, Place::Rack { .. }))?;
    let Place::Rack { bay, rails, unit, facing, forward } = device.at else { return None };
    let unit = if index % 4 == 1 { unit + 1 } else { unit.saturating_sub(1) };
    Some(Edit::MoveDevice { device: device.id, to: Place::Rack { bay, rails, unit, facing, forward } })
}

/// Times from just before an edit until the whole report on the edited project is there, ms.
fn times(editor: Editor, n: usize) -> js_sys::Array {
    let times = js_sys::Array::new();
    for index in 0..n {
        let Some(edit) = edit(editor, index) else { continue };
        let start = now();
        editor.apply(&edit);
        let report: Arc<rules::Report> = untrack(|| editor.report());
        times.push(&(now() - start).into());
        drop(report);
    }
    times
}

/// Times from just before an edit, at the start of a frame, until a message posted in that frame has arrived, ms.
async fn painted(editor: Editor, n: usize) -> Result<JsValue, JsValue> {
    let times = js_sys::Array::new();
    for index in 0..n {
        let Some(edit) = edit(editor, index) else { continue };
        let frame = js_sys::Promise::new(&mut |resolve, _| {
            // Without a frame the promise never settles, and the bench's own time limit says so.
            let _ = window().request_animation_frame(&resolve);
        });
        wasm_bindgen_futures::JsFuture::from(frame).await?;
        let start = now();
        editor.apply(&edit);
        // What follows from the edit runs as soon as this task lets go, still within the frame.
        wasm_bindgen_futures::JsFuture::from(js_sys::Promise::resolve(&JsValue::NULL)).await?;
        wasm_bindgen_futures::JsFuture::from(next_message()?).await?;
        times.push(&(now() - start).into());
    }
    Ok(times.into())
}

/// Times from just before an edit of two compartments until the report with the new year is there, ms.
async fn courses(editor: Editor, n: usize) -> Result<JsValue, JsValue> {
    // Filled up, the cabinet is far too hot to have a year.
    editor.apply(&Edit::Replace(Box::new(two_rooms(&editor.catalogue_now()))));
    let times = js_sys::Array::new();
    for index in 0..n {
        let Some(edit) = edit(editor, index) else { continue };
        let start = now();
        editor.apply(&edit);
        while untrack(|| editor.course().is_working()) {
            wasm_bindgen_futures::JsFuture::from(next_message()?).await?;
        }
        let report: Arc<rules::Report> = untrack(|| editor.report());
        if report.badges.iter().any(|badge| badge.topic == rules::Topic::Year) {
            times.push(&(now() - start).into());
        }
    }
    Ok(times.into())
}

/// Settles when a message posted now arrives: within a frame's callbacks, that is after the frame has been painted.
fn next_message() -> Result<js_sys::Promise, JsValue> {
    let channel = web_sys::MessageChannel::new()?;
    let arrived = js_sys::Promise::new(&mut |resolve, _| channel.port1().set_onmessage(Some(&resolve)));
    channel.port2().post_message(&JsValue::NULL)?;
    Ok(arrived)
}
