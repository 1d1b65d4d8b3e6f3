//! The empty drawing: strips with their names, the scale, the plinth.

use leptos::prelude::*;

use crate::lean::view;
use project::End;
use rules::bay_letter;

use super::frame::{Frame, Rect, Strip};

/// Everything that is drawn under the devices.
pub(super) fn backdrop(frame: &Frame) -> impl IntoView + use<> {
    let strips = frame
        .strips
        .iter()
        .map(|strip| {
            let Rect { x, y, width, height } = strip.rect;
            let end = if strip.end == End::Front { "front" } else { "rear" };
            view! {
                <rect class="e-bay" x=x y=y width=width height=height />
                <path class="e-u" d=unit_lines(frame, strip) />
                <text class="e-head" x=x + width / 2.0 y="18">{format!("{} {end}", bay_letter(strip.bay))}</text>
            }
        })
        .collect_view();
    let groups = [End::Front, End::Rear].map(|end| group(frame, end)).into_iter().flatten().collect_view();
    view! {
        {scale(frame)}
        {strips}
        {groups}
    }
}

/// The dotted lines between the units of a strip.
fn unit_lines(frame: &Frame, strip: &Strip) -> String {
    (1..frame.units)
        .map(|unit| {
            format!("M{:.1} {:.1}h{:.1}", strip.rect.x, frame.base - f64::from(unit) * frame.unit, strip.rect.width)
        })
        .collect()
}

/// Least height between two numbers of the scale.
const BETWEEN_NUMBERS: f64 = 15.0;

/// Ticks at every unit, numbers at every second, or every fourth where units are low.
fn scale(frame: &Frame) -> impl IntoView + use<> {
    let ticks: String = (0..=frame.units)
        .map(|unit| {
            let from = if unit % 4 == 0 { 17.0 } else { 21.0 };
            format!("M{from} {:.1}H24.5", frame.base - f64::from(unit) * frame.unit)
        })
        .collect();
    let step = if 2.0 * frame.unit < BETWEEN_NUMBERS { 4 } else { 2 };
    let numbers = (step..=frame.units)
        .step_by(step as usize)
        .map(|unit| {
            let y = frame.base - (f64::from(unit) - 0.5) * frame.unit + 4.6;
            view! { <text x="17" y=y>{unit}</text> }
        })
        .collect_view();
    view! { <g class="e-scale" aria-hidden="true"><path d=ticks />{numbers}</g> }
}

/// The body round the strips of one end, its bracket, the posts between bays, and the plinth below.
fn group(frame: &Frame, end: End) -> Option<impl IntoView + use<>> {
    let of_end: Vec<&Strip> = frame.strips.iter().filter(|strip| strip.end == end).collect();
    let (first, last) = (of_end.first()?.rect, of_end.last()?.rect);
    let (left, right, top, base) = (first.x - 2.0, last.x + last.width + 2.0, first.y - 3.0, frame.base);
    let posts: String = of_end
        .windows(2)
        .map(|pair| {
            let x = (pair[0].rect.x + pair[0].rect.width + pair[1].rect.x) / 2.0;
            format!("M{x:.1} {top:.1}V{base:.1}")
        })
        .collect();
    let room = frame.room.map(|room| {
        let foot = frame.height;
        let (from, to) = (left + 3.0, right - 3.0);
        if !room.cut {
            return view! { <path class="e-thick" d=format!("M{from:.1} {foot:.1}V{base:.1}H{to:.1}V{foot:.1}") /> }.into_any();
        }
        let (above, below) = (base + 11.7, base + 23.7);
        let broken = |x: f64| format!("M{x:.1} {:.1}v3l-4.5 2.5l9 4l-4.5 2.5v3", above - 1.0);
        view! {
            <path class="e-thick" d=format!("M{from:.1} {foot:.1}V{below:.1}M{from:.1} {above:.1}V{base:.1}H{to:.1}V{above:.1}M{to:.1} {below:.1}V{foot:.1}") />
            <path class="e-thin" d=broken(from) />
            <path class="e-thin" d=broken(to) />
        }
        .into_any()
    });
    Some(view! {
        <path class="e-thin" d=format!("M{:.1} {:.1}v-5H{:.1}v5", left - 5.0, top - 2.0, right + 5.0) />
        <path class="e-thick" d=format!("M{left:.1} {base:.1}V{top:.1}H{right:.1}V{base:.1}Z") />
        <path class="e-thick" d=posts />
        {room}
    })
}
