//! What is written over the drawing: outlines of the selected, the hovered and the limiting part, and the width.

use geometry::{Of, Vec3};
use leptos::prelude::*;
use units::{Kind, Value, show};

use super::projection::Projection;
use super::words;
use crate::editor::use_editor;
use crate::lean::{Memo, RwSignal, view};
use crate::view_state::use_view;

/// Distance of the dimension line from the cabinet, CSS pixels.
const CLEAR: f64 = 16.0;

/// A dimension is not written where it appears shorter than this, CSS pixels.
const SHORT: f64 = 70.0;

/// The lines over the drawing.
#[component]
pub(crate) fn Overlay(
    /// The limiting part.
    limiting: Signal<Option<Of>>,
    /// How the frame on screen was drawn.
    projection: RwSignal<Option<Projection>>,
) -> impl IntoView {
    let (editor, view) = (use_editor(), use_view());
    // The ring round a part, and whether something lies before it: then it is dashed.
    let ring = move |of: Option<Of>| {
        let of = of?;
        projection.with(|projection| {
            let projection = projection.as_ref()?;
            Some((path(&projection.outline(of)), projection.hides(of)))
        })
    };
    let selected = Memo::new(move |_| ring(view.selected.get()));
    let hovered = Memo::new(move |_| ring(view.hovered.get().filter(|of| view.selected.get() != Some(*of))));
    let limits = Memo::new(move |_| ring(limiting.get()));
    let named = Memo::new(move |_| {
        let of = view.hovered.get()?;
        let [x, y] = projection.with(|projection| projection.as_ref()?.anchor(of))?;
        Some((words::name(of, editor), x, y))
    });
    let width = Memo::new(move |_| {
        if !view.sizes.get() {
            return None;
        }
        projection.with(|projection| Dimension::of(projection.as_ref()?, view.shield_on.get()))
    });
    view! {
        <svg class="model-view__over" aria-hidden="true">
            {move || drawn(hovered.get(), "hovered")}
            {move || drawn(limits.get(), "limiting")}
            {move || drawn(selected.get(), "selected")}
            {move || width.get().map(|line| {
                let text = show(Value::new(line.length, Kind::Length), view.units.get()).to_string();
                let [x, y] = line.middle;
                let turn = format!("rotate({:.2} {x:.1} {y:.1})", line.degrees);
                view! {
                    <path class="model-view__size" d=line.path />
                    <text class="model-view__figure" x=x y=y transform=turn dy="-6" text-anchor="middle">{text}</text>
                }
            })}
            {move || named.get().map(|(name, x, y)| view! {
                <text class="model-view__figure model-view__name" x=x y=y text-anchor="middle" dominant-baseline="middle">{name}</text>
            })}
        </svg>
    }
}

/// A ring, as the style sheet draws its kind.
fn drawn(ring: Option<(String, bool)>, kind: &str) -> impl IntoView + use<> {
    let (path, hidden) = ring.filter(|(path, _)| !path.is_empty())?;
    let hidden = if hidden { " model-view__ring--hidden" } else { "" };
    Some(view! { <path class=format!("model-view__ring model-view__ring--{kind}{hidden}") d=path /> })
}

/// A closed ring as a path.
fn path(ring: &[[f64; 2]]) -> String {
    if ring.len() < 2 {
        return String::new();
    }
    let points: Vec<_> = ring.iter().map(|[x, y]| format!("{x:.1} {y:.1}")).collect();
    format!("M{}Z", points.join("L"))
}

/// A dimension line with its extension lines and arrows.
#[derive(Clone, Debug, PartialEq)]
struct Dimension {
    length: f64,
    path: String,
    middle: [f64; 2],
    degrees: f64,
}

impl Dimension {
    /// The overall width over the upper edge that appears highest; the depth where the width is seen end on.
    fn of(projection: &Projection, with_shield: bool) -> Option<Self> {
        let over = projection.overall(with_shield)?;
        let (low, high) = (over.min, over.max);
        let edges = |a: Vec3, b: Vec3, other: Vec3| {
            let shift = other - a;
            [(a, b), (other, b + shift)]
        };
        let top = |x: f64, y: f64| Vec3::new(x, y, high.z);
        let width = edges(top(low.x, low.y), top(high.x, low.y), top(low.x, high.y));
        let depth = edges(top(low.x, low.y), top(low.x, high.y), top(high.x, low.y));
        [(high.x - low.x, width), (high.y - low.y, depth)].into_iter().find_map(|(length, edges)| {
            let seen = edges.map(|(a, b)| (projection.point(a), projection.point(b)));
            let height = |(a, b): &([f64; 2], [f64; 2])| a[1] + b[1];
            let edge = if height(&seen[0]) < height(&seen[1]) { seen[0] } else { seen[1] };
            Self::over(edge, length)
        })
    }

    /// The dimension line over an edge; `None` when it appears too short.
    fn over((a, b): ([f64; 2], [f64; 2]), length: f64) -> Option<Self> {
        let ([x1, y1], [x2, y2]) = if a[0] <= b[0] { (a, b) } else { (b, a) };
        let (across, down) = (x2 - x1, y2 - y1);
        let seen = across.hypot(down);
        if seen < SHORT {
            return None;
        }
        let (ux, uy) = (across / seen, down / seen);
        let mut path = String::new();
        for (x, y, way) in [(x1, y1, 1.0), (x2, y2, -1.0)] {
            let (end_x, end_y) = (x, y - CLEAR);
            path += &format!("M{x:.1} {:.1}V{:.1}", y - 4.0, end_y - 4.0);
            // A slender arrow head, 8 long and 3 wide.
            let (back_x, back_y) = (end_x + way * 8.0 * ux, end_y + way * 8.0 * uy);
            path += &format!(
                "M{:.1} {:.1}L{end_x:.1} {end_y:.1}L{:.1} {:.1}",
                back_x - 1.6 * uy,
                back_y + 1.6 * ux,
                back_x + 1.6 * uy,
                back_y - 1.6 * ux
            );
        }
        path += &format!("M{x1:.1} {:.1}L{x2:.1} {:.1}", y1 - CLEAR, y2 - CLEAR);
        let middle = [f64::midpoint(x1, x2), f64::midpoint(y1, y2) - CLEAR];
        Some(Self { length, path, middle, degrees: uy.atan2(ux).to_degrees() })
    }
}
