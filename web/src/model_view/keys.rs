//! Turning, shifting and magnifying with the keyboard.

use web_sys::KeyboardEvent;

use super::stage::Stage;
use crate::view_state::Camera;

/// What the keys do, for the description of the drawing.
pub(crate) const HELP: &str =
    "Arrow keys turn the model, with Shift they shift it. Plus and minus magnify. Home turns back.";

/// Degrees for a press.
const TURN: f32 = 7.5;
/// CSS pixels for a press.
const SHIFT: f32 = 24.0;
/// Magnification for a press.
const ZOOM: f32 = 1.2;

/// Does what a key says; false when it says nothing to the drawing.
pub(crate) fn press(event: &KeyboardEvent, stage: &mut Stage, camera: Camera) -> bool {
    if event.ctrl_key() || event.alt_key() || event.meta_key() {
        return false;
    }
    let (across, up) = match event.key().as_str() {
        "ArrowLeft" => (-1.0, 0.0),
        "ArrowRight" => (1.0, 0.0),
        "ArrowUp" => (0.0, 1.0),
        "ArrowDown" => (0.0, -1.0),
        "+" | "=" => {
            stage.zoom(ZOOM, None);
            return true;
        }
        "-" | "_" => {
            stage.zoom(1.0 / ZOOM, None);
            return true;
        }
        "Home" => {
            stage.turn_to(camera);
            return true;
        }
        _ => return false,
    };
    if event.shift_key() {
        stage.pan(across * SHIFT, -up * SHIFT);
    } else {
        stage.orbit(across * TURN, up * TURN);
    }
    true
}
