//! The cabinet drawn flat, where there is no 3D: the same solids as outlines, in the same tones.

use std::fmt::Write;
use std::sync::Arc;

use geometry::{Layer, Model, Tone, View, ViewOutline, elevation, extent};
use leptos::prelude::*;
use project::End;

use crate::editor::use_editor;
use crate::lean::{Memo, view};
use crate::view_state::{Camera, use_view};

/// Between two elevations, mm.
const GAP: f64 = 350.0;
/// Round the drawing, mm.
const MARGIN: f64 = 60.0;

/// One elevation on the drawing.
#[derive(Clone, PartialEq)]
struct Side {
    shapes: Vec<(String, &'static str, bool)>,
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
}

/// Two elevations in the model's place.
#[component]
pub fn FlatModel() -> impl IntoView {
    let editor = use_editor();
    let view_state = use_view();
    let sides = Memo::new(move |_| {
        let model = editor.model()?;
        let (doors_open, shield_on) = (view_state.doors_open.get(), view_state.shield_on.get());
        let views = match view_state.camera.get() {
            Camera::Rear => [View::Rear, View::Left],
            Camera::Above => [View::Front, View::Plan],
            Camera::Corner | Camera::Front | Camera::Side => [View::Front, View::Right],
        };
        Some(views.map(|view| side(&model, view, doors_open, shield_on)))
    });
    let name = move || match view_state.camera.get() {
        Camera::Rear => "The cabinet from the rear and the left, drawn flat",
        Camera::Above => "The cabinet from the front and from above, drawn flat",
        Camera::Corner | Camera::Front | Camera::Side => "The cabinet from the front and the right, drawn flat",
    };
    view! {
        <div class="flat">
            {move || sides.get().map(|sides| view! { <Drawing sides=Arc::new(sides) name=name() /> })}
            <p class="flat__say">
                "This browser gives no 3D (WebGL 2 is off). The elevations take the model’s place; every answer is the same."
            </p>
        </div>
    }
}

/// Both elevations side by side on one ground line.
#[component]
fn Drawing(sides: Arc<[Side; 2]>, name: &'static str) -> impl IntoView {
    let [first, second] = sides.as_ref();
    let width = (first.right - first.left) + GAP + (second.right - second.left);
    let (top, bottom) = (first.top.max(second.top), first.bottom.min(second.bottom));
    let shift = first.right + GAP - second.left;
    let frame = format!(
        "{:.0} {:.0} {:.0} {:.0}",
        first.left - MARGIN,
        -top - MARGIN,
        width + 2.0 * MARGIN,
        top - bottom + 2.0 * MARGIN
    );
    let shapes = |side: &Side| {
        side.shapes
            .iter()
            .map(|(path, tone, detail)| {
                let class =
                    if *detail { format!("flat__detail flat--{tone}") } else { format!("flat__part flat--{tone}") };
                view! { <path class=class d=path.clone() fill-rule="evenodd" /> }
            })
            .collect_view()
    };
    let ground = format!("M{:.0} 0H{:.0}", first.left - MARGIN, first.left + width + MARGIN);
    view! {
        <svg class="flat__svg" viewBox=frame role="img" aria-label=name>
            <path class="flat__ground" d=ground />
            <g>{shapes(first)}</g>
            <g transform=format!("translate({shift:.1} 0)")>{shapes(second)}</g>
        </svg>
    }
}

fn side(model: &Model, view: View, doors_open: bool, shield_on: bool) -> Side {
    let end = match view {
        View::Front => Some(End::Front),
        View::Rear => Some(End::Rear),
        View::Left | View::Right | View::Plan => None,
    };
    // What hangs on the doors of this end is out of the way while they stand open.
    let away: Vec<usize> = model
        .hinges()
        .iter()
        .filter(|hinge| doors_open && Some(hinge.end) == end)
        .flat_map(|hinge| hinge.solids.iter().copied())
        .collect();
    let shown = |one: &ViewOutline| {
        !one.hidden
            && one.layer != Layer::Ground
            && (shield_on || one.layer != Layer::Shield)
            && !away.contains(&one.solid)
    };
    let outlines: Vec<ViewOutline> = elevation(model, view).into_iter().filter(shown).collect();
    let (low, high) = extent(&outlines).unwrap_or(([0.0, 0.0], [1.0, 1.0]));
    // The room behind an open door is dark, so that what stands in it reads.
    let room = end.map(|_| {
        let ([left, bottom], [right, top]) = view.rectangle(&model.layout.inside);
        (format!("M{left:.1} {:.1}H{right:.1}V{:.1}H{left:.1}Z", -bottom, -top), "room", false)
    });
    let parts = outlines.iter().map(|one| (path(one), tone_class(one.tone), one.detail));
    let shapes = room.into_iter().chain(parts).collect();
    Side { shapes, left: low[0], right: high[0], top: high[1], bottom: low[1].min(0.0) }
}

fn path(one: &ViewOutline) -> String {
    let mut path = String::new();
    for ring in std::iter::once(&one.outline.outer).chain(&one.outline.holes) {
        for (index, [x, y]) in ring.iter().enumerate() {
            let letter = if index == 0 { 'M' } else { 'L' };
            // Writing to a string cannot fail.
            let _ = write!(path, "{letter}{x:.1} {:.1}", -y);
        }
        path.push('Z');
    }
    path
}

const fn tone_class(tone: Tone) -> &'static str {
    match tone {
        Tone::Body => "body",
        Tone::Plinth => "plinth",
        Tone::Shield => "shield",
        Tone::Leaf => "leaf",
        Tone::Unit => "unit",
        Tone::Dark => "dark",
        Tone::Metal => "metal",
        Tone::Inner => "inner",
        Tone::Pad => "pad",
        Tone::Timber => "timber",
        Tone::Network => "net",
        Tone::Fibre => "fibre",
        Tone::Compute => "comp",
        Tone::Power => "power",
        Tone::Battery => "batt",
        Tone::Cable => "tray",
    }
}
