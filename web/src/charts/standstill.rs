//! What happens when something is missing: a door stands open with the units stopped, cooling has no supply, or nothing has
//! but what hangs on batteries. And where the heat of the worst hour comes from.

use climate::date;
use leptos::{html, prelude::*};
use rules::course::{Course, Peak, Transient};
use units::{Kind, System, Value, number_in, show};

use super::axes::{FOOT, LEFT, Plot, TOP, along, inside_curves};
use super::bus::bus;
use super::calendar::DAY;
use super::course_drawn;
use super::drawn::line;
use super::scale::{Scale, round_range};
use super::space::space_of;
use super::words::{inside, temperature};
use crate::editor::use_editor;
use crate::lean::view;
use crate::view_state::use_view;

/// Right of the plot: half of the last figure of the foot.
pub(super) const RIGHT: f64 = 24.0;
/// Height of the plot.
pub(super) const PLOT: f64 = 62.0;
/// From so many minutes on the foot counts hours.
const IN_HOURS: usize = 180;

/// The standstills and the peak.
#[component]
pub(crate) fn Standstill() -> impl IntoView {
    let (course, units) = (course_drawn(), use_view().units);
    let frame = NodeRef::<html::Div>::new();
    let space = space_of(frame);
    let all = move || {
        course.with(|kept| {
            let course = kept.0.as_ref()?;
            let (units, wide) = (units.get(), space.get().width);
            // One below the other where two do not fit beside each other.
            let each = if wide < 416.0 { wide } else { (wide - 16.0) / 2.0 };
            let peaks = course.peaks.iter().enumerate().map(|(room, peak)| peak_bar(course, room, peak, units));
            Some(view! {
                <div class="stills">
                    {still(course, "Door open, units stopped", &course.door_open, each, units)}
                    {still(course, "Cooling lost, devices run on", &course.cooling_lost, each, units)}
                    {still(course, "Supply lost, strings carry on", &course.grid_lost.heat, each, units)}
                    {bus(&course.grid_lost, each, units)}
                </div>
                {peaks.collect_view()}
            })
        })
    };
    view! { <div node_ref=frame>{move || all()}</div> }
}

/// The name of the device that meets its limit first.
fn device_name(transient: &Transient) -> Option<String> {
    let id = transient.device?;
    let (project, catalogue) = (use_editor().project_now(), use_editor().catalogue_now());
    let device = project.build.device(id)?;
    Some(device.resolve(&catalogue)?.name.clone())
}

/// How long it takes, in words.
fn verdict(course: &Course, transient: &Transient) -> String {
    let span = transient.air.first().map_or(0, |air| air.len().saturating_sub(1));
    match transient.minutes {
        _ if !transient.because.is_empty() => transient.because.clone(),
        Some(minutes) => {
            let room = course.rooms.get(transient.room).map_or("", |room| room.name.as_str());
            let place = match (device_name(transient), room) {
                (Some(device), _) => format!(" of {device}"),
                (None, "") => String::new(),
                (None, room) => format!(" in {room}"),
            };
            let minutes = if minutes < 1.0 { "under 1".to_owned() } else { libm::floor(minutes).to_string() };
            format!("{minutes}\u{a0}min to the limit{place}")
        }
        None => format!("no limit met within {}", duration(span)),
    }
}

pub(super) fn duration(minutes: usize) -> String {
    match (minutes / 60, minutes % 60) {
        (hours, 0) if hours > 1 => format!("{hours}\u{a0}h"),
        (hours, rest) if hours > 1 => format!("{hours}\u{a0}h {rest}\u{a0}min"),
        _ => format!("{minutes}\u{a0}min"),
    }
}

/// What a tick of the foot stands for: minutes and their unit.
pub(super) const fn minutes_or_hours(minutes: usize) -> (f64, &'static str) {
    if minutes >= IN_HOURS { (60.0, "h") } else { (1.0, "min") }
}

/// One curve over the minutes.
fn still(course: &Course, title: &'static str, transient: &Transient, width: f64, units: System) -> AnyView {
    let words = verdict(course, transient);
    let minutes = transient.air.iter().map(|air| air.len()).max().unwrap_or(0).saturating_sub(1);
    // Past the limit the curve only says that it goes on.
    let minutes = transient.minutes.map_or(minutes, |met| minutes.min((met * 1.6) as usize + 10)).max(1);
    let limit = course.rooms.get(transient.room).and_then(|room| room.hot_limit);
    let figures = transient.air.iter().flat_map(|air| air.0.iter().take(minutes + 1)).map(|figure| f64::from(*figure));
    let (low, high) =
        figures.chain(limit).fold((f64::MAX, f64::MIN), |(low, high), next| (low.min(next), high.max(next)));
    let drawing = (low <= high && !transient.air.is_empty()).then(|| {
        let shown = |celsius: f64| number_in(Value::new(celsius, Kind::Temperature), units);
        let range = round_range((shown(low), shown(high)), 5);
        let plot = Plot { range, across: (LEFT, width - RIGHT), top: TOP, base: TOP + PLOT };
        let (across, up) = (Scale::new((0.0, minutes as f64), plot.across), plot.up());
        let (each, unit) = minutes_or_hours(minutes);
        let times = along((0.0, minutes as f64 / each), 4, unit, units);
        let times = times.into_iter().map(|(tick, words)| (across.at(tick * each), words));
        let curves: Vec<String> = transient
            .air
            .iter()
            .map(|air| {
                let points = air.0.iter().take(minutes + 1).enumerate();
                line(points.map(|(minute, figure)| (across.at(minute as f64), up.at(shown(f64::from(*figure))))))
            })
            .collect();
        let limit = limit.map(|limit| view! { <path class="c-limit" d=plot.level(up.at(shown(limit))) /> });
        let met = transient.minutes.map(|met| {
            let x = across.at(met);
            view! { <path class="c-met" d=format!("M{x:.1} {TOP}V{}", plot.base) /> }
        });
        view! {
            <svg class="chart__svg" width=width height=plot.base + FOOT aria-hidden="true">
                {plot.grid(times, units)}
                {plot.degrees(units)}
            {plot.axes()}
                {limit}
                {inside_curves(&curves)}
                {met}
            </svg>
        }
    });
    view! {
        <figure class="still">
            <figcaption><b>{title}</b> <span class="still__said">{words}</span></figcaption>
            {drawing}
        </figure>
    }
}

/// Where the heat of the worst hour comes from and goes to, as two rows that are equally long.
fn peak_bar(course: &Course, room: usize, peak: &Peak, units: System) -> AnyView {
    let hour = peak.hour as usize;
    let shares = [
        ("devices", peak.devices, "devices"),
        ("sun", peak.sun, "sun"),
        ("walls", peak.envelope, "walls"),
        ("next bay", peak.divider, "bay"),
        ("units", peak.units, "units"),
        ("stored", peak.stored, "stored"),
    ];
    let whole = |sign: f64| shares.iter().map(|(_, power, _)| (power * sign).max(0.0)).sum::<f64>();
    let longest = whole(1.0).max(whole(-1.0)).max(1e-9);
    let row = |head: &'static str, sign: f64| {
        let pieces: Vec<_> = shares.iter().filter(|(_, power, _)| power * sign > longest * 0.004).collect();
        let bars = pieces.iter().map(|(_, power, class)| {
            view! { <i class=format!("share share--{class}") style:flex-grow=(power.abs() / longest).to_string()></i> }
        });
        let rest = (1.0 - whole(sign) / longest).max(0.0);
        let words = pieces.iter().map(|(name, power, class)| {
            let watts = show(Value::new(power.abs(), Kind::Power), units).to_string();
            view! { <li><i class=format!("share share--{class}") aria-hidden="true"></i>{*name}" "<b>{watts}</b></li> }
        });
        view! {
            <div class="peak__row">
                <span class="peak__head">{head}</span>
                <div class="shares" aria-hidden="true">{bars.collect_view()}<i style:flex-grow=rest.to_string()></i></div>
                <ul class="share-words">{words.collect_view()}</ul>
            </div>
        }
    };
    let name = inside(course, room);
    let air = course.year.highest.get(room).and_then(|series| series.at(hour));
    let air = air.map_or_else(String::new, |air| format!(" {}", temperature(air, units)));
    view! {
        <div class="peak" role="group" aria-label="Heat of the hottest hour">
            <p><b>"Hottest hour"</b> {format!(" {name}{air}, {}, {}\u{2060}\u{2013}\u{2060}{}\u{a0}h", date(hour / DAY), hour % DAY, hour % DAY + 1)}</p>
            {row("in", 1.0)}
            {row("out", -1.0)}
        </div>
    }
}
