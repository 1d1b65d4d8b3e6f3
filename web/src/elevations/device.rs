//! One device on the drawing: it is selected, moved and removed here, by pointer and by key.

use leptos::{ev, prelude::*};
use project::{Edit, End, ItemId, Place, Way, is_free, next_unit};
use rules::{Outcome, Subject, Topic};
use wasm_bindgen::JsCast;

use super::drag::{Drag, Dragging, on_rails};
use super::frame::{Frame, Rect};
use super::marks::{Mark, fitted, glyph, mark_of, other_end};
use crate::devices::kind_class;
use crate::editor::{Editor, use_editor};
use crate::lean::{Memo, RwSignal, view};
use crate::view_state::use_view;

/// Least height in which a name is written.
const NAMED: f64 = 11.4;

/// One device.
#[component]
pub(super) fn Device(
    /// Which.
    id: ItemId,
    /// How it is drawn where it is now; none while it is held beside the strips.
    mark: RwSignal<Option<Mark>>,
    /// The part that the worst failing finding is about.
    limiting: RwSignal<Option<geometry::Of>>,
    /// What is held.
    dragging: Dragging,
) -> impl IntoView {
    let editor = use_editor();
    let view_state = use_view();
    let of = geometry::Of::Device(id);
    let held =
        Memo::new(move |_| dragging.held.with(|held| held.as_ref().is_some_and(|held| held.id == id && held.moved)));
    let selected = move || view_state.selected.get() == Some(of);
    let class = move || {
        let kind = mark.with(|mark| mark.as_ref().map_or("", |mark| kind_class(mark.kind)));
        let mut class = format!("elev__device e-dev e-dev--{kind}");
        for (is, name) in [
            (held.get(), " elev__device--held"),
            (limiting.get() == Some(of), " e-dev--limiting"),
            (selected(), " elev__device--selected"),
            (view_state.hovered.get() == Some(of), " elev__device--hovered"),
        ] {
            if is {
                class.push_str(name);
            }
        }
        class
    };
    // Held beside the strips it is not drawn, and keeps its words.
    let words = Memo::new(move |before: Option<&String>| {
        let now = mark.with(|mark| mark.as_ref().map(Mark::words));
        now.or_else(|| before.cloned()).unwrap_or_default()
    });
    let label = move || {
        let words = words.get();
        if limiting.get() == Some(of) { format!("{words}, sets the limit") } else { words }
    };
    let press = move |event: ev::PointerEvent| {
        if let Some(mark) = mark.get_untracked() {
            dragging.press(&event, id, mark);
        }
    };
    let hover = move |on: bool| {
        if on {
            view_state.hovered.set(Some(of));
        } else if view_state.hovered.get_untracked() == Some(of) {
            view_state.hovered.set(None);
        }
    };
    view! {
        <g
            id=dom_id(id)
            class=move || class()
            role="button"
            tabindex="0"
            aria-label=move || label()
            aria-pressed=move || selected().to_string()
            aria-describedby="elev-keys"
            on:pointerdown=press
            on:pointermove=move |event: ev::PointerEvent| dragging.follow(&event)
            on:pointerup=move |_| dragging.release()
            on:pointercancel=move |_| {
                dragging.give_up();
            }
            on:pointerenter=move |_| hover(true)
            on:pointerleave=move |_| hover(false)
            on:click=move |_| {
                if !dragging.was_drag() {
                    view_state.selected.set(Some(of));
                }
            }
            on:keydown=move |event: ev::KeyboardEvent| {
                if event.ctrl_key() || event.meta_key() || event.alt_key() {
                    return;
                }
                let taken = match event.key().as_str() {
                    "Enter" | " " => {
                        view_state.selected.set(Some(of));
                        true
                    }
                    "Delete" | "Backspace" => {
                        remove(editor, id);
                        if selected() {
                            view_state.selected.set(None);
                        }
                        true
                    }
                    key => moved_by_key(editor, id, key),
                };
                if taken {
                    event.prevent_default();
                    event.stop_propagation();
                }
            }
        >
            <title>{move || label()}</title>
            {move || mark.get().map(|mark| drawn(&mark))}
        </g>
    }
}

/// The rectangle with its name, or what stands for it where there is no room.
fn drawn(mark: &Mark) -> impl IntoView + use<> {
    let Rect { x, y, width, height } = mark.rect;
    let inside = if mark.named && height >= NAMED {
        let name = fitted(&mark.name, width - 10.0);
        view! { <text x=x + 6.0 y=y + height / 2.0 + 4.7>{name}</text> }.into_any()
    } else if !mark.named && height >= 6.0 {
        view! { <path class="e-thin" d=glyph(mark.kind, &mark.rect) /> }.into_any()
    } else {
        ().into_any()
    };
    view! { <rect x=x y=y width=width height=height />{inside} }
}

/// What is held, over everything else: where it would be, or at the pointer beside the strips; and where it came from.
#[component]
pub(super) fn Ghost(
    /// What is held.
    dragging: Dragging,
    /// How the devices are drawn where they are now.
    marks: Memo<Vec<(ItemId, Mark)>>,
    /// The frame of the drawing.
    frame: Memo<Option<Frame>>,
) -> impl IntoView {
    let editor = use_editor();
    let held = move || dragging.held.get().filter(|held| held.moved);
    let from = move || {
        let from = held()?.from.rect;
        Some(view! { <rect class="elev__phantom" x=from.x y=from.y width=from.width height=from.height /> })
    };
    let ghost = move || {
        let held = held()?;
        let mark =
            marks.with(|marks| mark_of(marks, held.id).cloned()).or_else(|| Some(beside(&held, &frame.get()?)))?;
        let class =
            if does_not_fit(editor, held.id) { "elev__ghost elev__ghost--fails" } else { "elev__ghost e-ghost" };
        Some(view! { <g class=class>{drawn(&mark)}</g> })
    };
    view! { {move || from()}{move || ghost()} }
}

/// How a device is drawn while it is held beside the strips: at the pointer.
fn beside(held: &Drag, frame: &Frame) -> Mark {
    let size = frame.strips.first().map_or(Rect::default(), |strip| strip.rect);
    let (width, height) = (size.width - 4.0, f64::from(held.from.units) * frame.unit - 1.2);
    let rect = Rect { x: held.pointer.0 - width / 2.0, y: held.pointer.1 - height / 2.0, width, height };
    Mark { at: Place::Unplaced, named: true, rect, ..held.from.clone() }
}

/// Whether its place is taken, or a Fit check fails for it.
fn does_not_fit(editor: Editor, id: ItemId) -> bool {
    let (project, catalogue) = (editor.project(), editor.catalogue());
    let Some(device) = project.build.device(id) else { return false };
    let taken = match (device.at, device.resolve(&catalogue)) {
        (Place::Rack { bay, rails, unit, .. }, Some(spec)) => {
            !is_free(&project.build, spec, Some(id), (bay, rails, unit), &catalogue)
        }
        _ => false,
    };
    taken
        || editor.report().findings.iter().any(|finding| {
            finding.subject == Subject::Device(id) && finding.outcome == Outcome::Fails && finding.topic == Topic::Fit
        })
}

/// Moves a device on rails by a key. Answers whether the key means anything.
fn moved_by_key(editor: Editor, id: ItemId, key: &str) -> bool {
    let (project, catalogue) = (editor.project_now(), editor.catalogue_now());
    let Some(device) = project.build.device(id) else { return false };
    let Place::Rack { bay, rails, unit, .. } = device.at else { return false };
    let Some(spec) = device.resolve(&catalogue) else { return false };
    let step = |way| (bay, rails, next_unit(&project.build, spec, unit, way));
    // Seen from behind, the next bay lies on the other side.
    let (left, right) = match rails {
        End::Front => (bay.checked_sub(1), bay.checked_add(1)),
        End::Rear => (bay.checked_add(1), bay.checked_sub(1)),
    };
    let (bay, rails, unit) = match key {
        "ArrowUp" => step(Way::Up),
        "ArrowDown" => step(Way::Down),
        "ArrowLeft" => (left.filter(|bay| *bay < project.build.bays.len()).unwrap_or(bay), rails, unit),
        "ArrowRight" => (right.filter(|bay| *bay < project.build.bays.len()).unwrap_or(bay), rails, unit),
        "f" | "F" if rails == End::Rear => (bay, other_end(rails), unit),
        "r" | "R" if rails == End::Front => (bay, other_end(rails), unit),
        "f" | "F" | "r" | "R" => (bay, rails, unit),
        _ => return false,
    };
    // A refusal leaves it where it is and is told where all refusals are.
    editor.apply(&Edit::MoveDevice { device: id, to: on_rails(&device.at, bay, rails, unit) });
    true
}

fn dom_id(id: ItemId) -> String {
    format!("elev-device-{}", id.0)
}

/// Removes a device; the next one drawn takes the focus, or the one before it.
fn remove(editor: Editor, id: ItemId) {
    let here = document().get_element_by_id(&dom_id(id));
    let next = here.and_then(|here| here.next_element_sibling().or_else(|| here.previous_element_sibling()));
    if editor.apply(&Edit::RemoveDevice(id))
        && let Some(next) = next
    {
        focus(&next);
    }
}

/// Gives the focus to an element of the drawing.
fn focus(element: &web_sys::Element) {
    if let Some(element) = element.dyn_ref::<web_sys::SvgElement>() {
        // Focus can only be refused by an element that is gone.
        let _ = element.focus();
    }
}
