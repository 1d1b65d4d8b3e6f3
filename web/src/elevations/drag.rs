//! Moving a device by pointer: live, as one undo step, given up by Escape.

use leptos::{ev, prelude::*};
use project::{Edit, End, ItemId, Place};
use units::Millimetres;
use wasm_bindgen::JsCast;

use super::frame::Frame;
use super::marks::{Mark, other_end};
use crate::editor::Editor;
use crate::lean::{Memo, RwSignal};

/// How far the pointer must go before a press becomes a drag, drawing pixels.
const THRESHOLD: f64 = 4.0;

/// A device that is held.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Drag {
    /// Which.
    pub(super) id: ItemId,
    /// As it was.
    pub(super) from: Mark,
    /// Where the pointer is.
    pub(super) pointer: (f64, f64),
    /// Whether it has moved.
    pub(super) moved: bool,
    /// Where the pointer went down.
    start: (f64, f64),
    /// Units from its lower edge to where it is held.
    grab: f64,
}

/// What the pointer does, for all devices alike.
#[derive(Clone, Copy)]
pub(super) struct Dragging {
    editor: Editor,
    frame: Memo<Option<Frame>>,
    /// What is held.
    pub(super) held: RwSignal<Option<Drag>>,
    /// Whether the press that ended last was a drag, so that its click is none.
    dragged: StoredValue<bool>,
}

impl Dragging {
    /// Escape lets go and puts back.
    pub(super) fn new(editor: Editor, frame: Memo<Option<Frame>>, held: RwSignal<Option<Drag>>) -> Self {
        let dragging = Self { editor, frame, held, dragged: StoredValue::new(false) };
        let listener = window_event_listener(ev::keydown, move |event| {
            if event.key() == "Escape" && dragging.give_up() {
                event.prevent_default();
            }
        });
        on_cleanup(move || listener.remove());
        dragging
    }

    /// Takes a device up.
    pub(super) fn press(&self, event: &ev::PointerEvent, id: ItemId, mark: Mark) {
        self.dragged.set_value(false);
        if event.button() != 0 || !event.is_primary() {
            return;
        }
        let Some(pointer) = self.pointer(event) else { return };
        if let Some(element) = target(event) {
            // Without capture the drag ends when the pointer leaves the device, which is still no fault.
            let _ = element.set_pointer_capture(event.pointer_id());
        }
        let above = self.frame.with_untracked(|frame| frame.as_ref().map(|frame| frame.units_above(pointer.1)));
        let grab = match (above, mark.at) {
            (Some(above), Place::Rack { unit, .. }) => {
                (above - f64::from(unit) + 1.0).clamp(0.0, f64::from(mark.units))
            }
            _ => f64::from(mark.units) / 2.0,
        };
        self.held.set(Some(Drag { id, from: mark, pointer, moved: false, start: pointer, grab }));
    }

    /// Follows the pointer.
    pub(super) fn follow(&self, event: &ev::PointerEvent) {
        let (Some(mut drag), Some(pointer)) = (self.held.get_untracked(), self.pointer(event)) else { return };
        drag.pointer = pointer;
        if !drag.moved {
            let (x, y) = (pointer.0 - drag.start.0, pointer.1 - drag.start.1);
            if x.hypot(y) < THRESHOLD {
                return;
            }
            drag.moved = true;
            self.editor.begin();
        }
        let to = self.frame.with_untracked(|frame| {
            let frame = frame.as_ref()?;
            frame.place_at(pointer.0, pointer.1, drag.grab, drag.from.units)
        });
        let to = to.map_or(Place::Unplaced, |(bay, rails, unit)| on_rails(&drag.from.at, bay, rails, unit));
        let id = drag.id;
        self.held.set(Some(drag));
        // While it is refused, as for a shelf that carries something, it stays where it was.
        self.editor.apply(&Edit::MoveDevice { device: id, to });
    }

    /// Puts it down where it is.
    pub(super) fn release(&self) {
        let Some(drag) = self.held.get_untracked() else { return };
        self.held.set(None);
        self.dragged.set_value(drag.moved);
        if drag.moved {
            self.editor.end();
        }
    }

    /// Puts it back where it was. Answers whether anything was held.
    pub(super) fn give_up(&self) -> bool {
        let Some(drag) = self.held.get_untracked() else { return false };
        self.held.set(None);
        self.dragged.set_value(drag.moved);
        if drag.moved {
            self.editor.abort();
        }
        true
    }

    /// Whether a click is only the end of a drag.
    pub(super) fn was_drag(&self) -> bool {
        self.dragged.try_update_value(std::mem::take).unwrap_or(false)
    }

    /// The pointer in drawing pixels.
    fn pointer(&self, event: &ev::PointerEvent) -> Option<(f64, f64)> {
        let drawing = target(event)?.closest("svg").ok().flatten()?.get_bounding_client_rect();
        let width = self.frame.with_untracked(|frame| frame.as_ref().map(|frame| frame.width))?;
        let scale = width / drawing.width().max(1.0);
        Some((
            (f64::from(event.client_x()) - drawing.left()) * scale,
            (f64::from(event.client_y()) - drawing.top()) * scale,
        ))
    }
}

fn target(event: &ev::PointerEvent) -> Option<web_sys::Element> {
    event.current_target().and_then(|target| target.dyn_into().ok())
}

/// A place on rails for a device that was somewhere else; its face turns with the rails, its distance to them stays.
pub(super) fn on_rails(from: &Place, bay: usize, rails: End, unit: u32) -> Place {
    let (facing, forward) = match *from {
        Place::Rack { rails: was, facing, forward, .. } => {
            (if facing == was { rails } else { other_end(rails) }, forward)
        }
        _ => (rails, Millimetres(0.0)),
    };
    Place::Rack { bay, rails, unit, facing, forward }
}
