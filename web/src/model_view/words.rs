//! What the drawing shows, in words.

use geometry::{Model, Of};
use rules::fit::part_words;
use units::{Kind, System, Value, show};

use crate::editor::Editor;
use crate::view_state::{Camera, ViewState};

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

/// What is written beside the part under the pointer.
pub(crate) fn name(of: Of, editor: Editor) -> String {
    let (project, catalogue) = (editor.project(), editor.catalogue());
    let own = match of {
        Of::Device(id) => {
            let device = project.build.device(id).and_then(|device| device.resolve(&catalogue));
            device.map(|device| device.name.clone())
        }
        Of::Unit(id) => {
            let part = project.build.climate.iter().find(|unit| unit.id == id);
            part.and_then(|unit| catalogue.units.get(&unit.part)).map(|part| part.name.clone())
        }
        _ => None,
    };
    own.unwrap_or_else(|| capitalised(&part_words(of)))
}

fn capitalised(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|first| first.to_ascii_uppercase());
    first.into_iter().chain(letters).collect()
}

fn shown(mm: f64, system: System) -> String {
    show(Value::new(mm, Kind::Length), system).to_string()
}
