//! Turning, shifting and magnifying with mouse, pen and fingers; selecting with a click.

use geometry::Of;
use wasm_bindgen::JsCast;
use web_sys::{HtmlCanvasElement, PointerEvent, WheelEvent};

use super::stage::Shared;
use crate::lean::RwSignal;

/// Degrees for a pixel.
const TURN: f32 = 0.4;

/// A press that travels less than this is a click, CSS pixels.
const CLICK: f32 = 5.0;

/// The pointers that are down, and what they have done so far.
#[derive(Default)]
pub(crate) struct Pointers {
    down: Vec<(i32, [f32; 2])>,
    travelled: f32,
}

impl Pointers {
    /// A pointer goes down.
    pub(crate) fn press(&mut self, event: &PointerEvent) {
        if let Some(canvas) = canvas_of(event) {
            // Without the capture a drag ends at the canvas's edge.
            let _ = canvas.set_pointer_capture(event.pointer_id());
        }
        if self.down.is_empty() {
            self.travelled = 0.0;
        }
        self.down.retain(|(id, _)| *id != event.pointer_id());
        self.down.push((event.pointer_id(), place(event)));
    }

    /// A pointer moves: it turns or shifts the model when it is down, and points at a part when it is not.
    pub(crate) fn travel(&mut self, event: &PointerEvent, stage: &Shared, hovered: RwSignal<Option<Of>>) {
        let to = place(event);
        let Some(index) = self.down.iter().position(|(id, _)| *id == event.pointer_id()) else {
            if event.pointer_type() != "touch" {
                point_at(hovered, stage.borrow().at(to));
            }
            return;
        };
        let before: Vec<_> = self.down.iter().map(|(_, at)| *at).collect();
        let from = before[index];
        self.down[index].1 = to;
        let (across, down) = (to[0] - from[0], to[1] - from[1]);
        self.travelled += across.hypot(down);
        if self.travelled < CLICK {
            return;
        }
        let mut stage = stage.borrow_mut();
        match self.down.as_slice() {
            [(_, a), (_, b)] => {
                let (middle, reach) = span(*a, *b);
                let (middle_before, reach_before) = span(before[0], before[1]);
                stage.pan(middle[0] - middle_before[0], middle[1] - middle_before[1]);
                if reach_before > 1.0 && reach > 1.0 {
                    stage.zoom(reach / reach_before, Some(middle));
                }
            }
            [_] if event.shift_key() || event.buttons() & 6 != 0 => stage.pan(across, down),
            [_] => stage.orbit(-across * TURN, down * TURN),
            _ => {}
        }
    }

    /// A pointer comes up: a click selects what is under it, or nothing.
    pub(crate) fn lift(&mut self, event: &PointerEvent, stage: &Shared, selected: RwSignal<Option<Of>>) {
        let was_alone = self.down.len() == 1;
        self.cancel(event);
        if was_alone && self.travelled < CLICK && event.button() == 0 {
            let of = stage.borrow().at(place(event));
            selected.set(of);
        }
    }

    /// A pointer is taken away.
    pub(crate) fn cancel(&mut self, event: &PointerEvent) {
        self.down.retain(|(id, _)| *id != event.pointer_id());
    }
}

/// The wheel magnifies about the pointer; where the page scrolls, only when the drawing has the focus or Ctrl is held, so
/// that scrolling past the drawing does not stop there.
pub(crate) fn wheel(event: &WheelEvent, stage: &Shared) {
    let Some(canvas) = event.current_target().and_then(|target| target.dyn_into::<HtmlCanvasElement>().ok()) else {
        return;
    };
    let document = leptos::prelude::document();
    let focused = document.active_element().is_some_and(|element| element.is_same_node(Some(&canvas)));
    let scrolls = document.document_element().is_some_and(|root| root.scroll_height() > root.client_height());
    if scrolls && !focused && !event.ctrl_key() {
        return;
    }
    event.prevent_default();
    // Lines and pages, where a browser counts in them, as so many pixels.
    let unit = match event.delta_mode() {
        WheelEvent::DOM_DELTA_PIXEL => 1.0,
        WheelEvent::DOM_DELTA_LINE => 18.0,
        _ => 200.0,
    };
    let factor = (-event.delta_y() as f32 * unit * 0.0015).clamp(-0.7, 0.7).exp();
    stage.borrow_mut().zoom(factor, Some(place(event)));
}

/// Sets what is hovered, when it is something else than before.
pub(crate) fn point_at(hovered: RwSignal<Option<Of>>, of: Option<Of>) {
    if hovered.get_untracked() != of {
        hovered.set(of);
    }
}

fn span(a: [f32; 2], b: [f32; 2]) -> ([f32; 2], f32) {
    ([f32::midpoint(a[0], b[0]), f32::midpoint(a[1], b[1])], (a[0] - b[0]).hypot(a[1] - b[1]))
}

fn canvas_of(event: &web_sys::Event) -> Option<HtmlCanvasElement> {
    event.current_target()?.dyn_into().ok()
}

/// Where an event is on the canvas, CSS pixels.
fn place(event: &web_sys::MouseEvent) -> [f32; 2] {
    let corner = canvas_of(event).map(|canvas| canvas.get_bounding_client_rect());
    let (left, top) = corner.map_or((0.0, 0.0), |corner| (corner.left(), corner.top()));
    [(f64::from(event.client_x()) - left) as f32, (f64::from(event.client_y()) - top) as f32]
}
