//! What the drawing shows, in words.

use geometry::{Model, Of};
use project::{End, Face, Side};
use rules::bay_letter;
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
    let side_word = |side| if side == Side::Left { "left" } else { "right" };
    match of {
        Of::Device(id) => {
            let spec = project.build.device(id).and_then(|device| device.resolve(&catalogue));
            spec.map_or_else(|| "Device".into(), |spec| spec.name.clone())
        }
        Of::Unit(id) => {
            let part = project.build.climate.iter().find(|unit| unit.id == id);
            let part = part.and_then(|unit| catalogue.units.get(&unit.part));
            part.map_or_else(|| "Climate unit".into(), |part| part.name.clone())
        }
        Of::Door { bay, end: End::Front } => format!("Front door {}", bay_letter(bay)),
        Of::Door { bay, end: End::Rear } => format!("Rear door {}", bay_letter(bay)),
        Of::Rail { bay, .. } => format!("Rail of bay {}", bay_letter(bay)),
        Of::Fittings { bay } => format!("Frame of bay {}", bay_letter(bay)),
        Of::Manager { bay, side } => format!("Cable management {}, {}", bay_letter(bay), side_word(side)),
        Of::GlandPlate { bay, .. } => format!("Gland plate of bay {}", bay_letter(bay)),
        Of::Body(Face::Top) => "Roof".into(),
        Of::Body(Face::Bottom) => "Floor".into(),
        Of::Body(_) => "Body".into(),
        Of::Insulation(_) => "Insulation".into(),
        Of::Eye(_) => "Lifting eye".into(),
        Of::Divider => "Divider".into(),
        Of::Shield => "Solar shield".into(),
        Of::Plinth => "Plinth".into(),
        Of::Pad => "Pad".into(),
        Of::Pallet => "Pallet".into(),
    }
}

fn shown(mm: f64, system: System) -> String {
    show(Value::new(mm, Kind::Length), system).to_string()
}
