//! What the drawing shows, in words.

use geometry::Model;
use units::{Kind, System, Value, show};

use crate::view_state::{Camera, ViewState};
use leptos::prelude::Get;

/// The accessible name of the drawing.
pub(crate) fn label(model: Option<&Model>, view: ViewState) -> String {
    let Some(model) = model else { return "No drawing: the catalogue lacks a part of the body.".into() };
    let from = match view.camera.get() {
        Camera::Corner => "from the front right",
        Camera::Front => "from the front",
        Camera::Rear => "from the rear",
        Camera::Side => "from the right",
        Camera::Above => "from above",
    };
    let size = model.overall(view.shield_on.get()).size();
    let length = |mm: f64| shown(mm, view.units.get());
    let bays = if model.layout.bays.len() == 1 { "one bay" } else { "two bays" };
    let doors = if view.doors_open.get() { "open" } else { "shut" };
    let shield = match (model.solids.iter().any(|solid| solid.of == geometry::Of::Shield), view.shield_on.get()) {
        (false, _) => "",
        (true, true) => ", shield on",
        (true, false) => ", shield off",
    };
    format!(
        "The cabinet {from}: {bays} of {} rack units, {} wide, {} deep, {} high, doors {doors}{shield}",
        model.layout.units,
        length(size.x),
        length(size.y),
        length(size.z)
    )
}

fn shown(mm: f64, system: System) -> String {
    show(Value::new(mm, Kind::Length), system).to_string()
}
