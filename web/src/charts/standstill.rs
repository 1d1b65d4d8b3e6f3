//! What happens when something is missing: a door stands open with the units stopped, or cooling has no supply. And where
//! the heat of the worst hour comes from.

use leptos::{html, prelude::*};
use rules::course::{Course, Peak, Transient};
use units::{Kind, System, Value, number_in, show, unit_name};

use super::calendar::{DAY, date};
use super::course_drawn;
use super::drawn::line;
use super::scale::{Scale, round_range, ticks};
use super::width::width_of;
use super::words::{inside, temperature};
use crate::editor::use_editor;
use crate::lean::view;
use crate::view_state::use_view;

const LEFT: f64 = 34.0;
const RIGHT: f64 = 14.0;
const TOP: f64 = 10.0;
const PLOT: f64 = 64.0;
const FOOT: f64 = 22.0;

/// Both standstills and the peak.
#[component]
pub(crate) fn Standstill() -> impl IntoView {
    let (course, units) = (course_drawn(), use_view().units);
    let frame = NodeRef::<html::Div>::new();
    let width = width_of(frame);
    let all = move || {
        course.with(|kept| {
            let course = kept.0.as_ref()?;
            let (units, each) = (units.get(), ((width.get() - 16.0) / 2.0).max(200.0));
            let peaks = course.peaks.iter().enumerate().map(|(room, peak)| peak_bar(course, room, peak, units));
            Some(view! {
                <div class="stills">
                    {still(course, "Door open, units stopped", &course.door_open, each, units)}
                    {still(course, "Cooling lost, devices run on", &course.cooling_lost, each, units)}
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
            let where_to = device_name(transient).unwrap_or_else(|| inside(course, transient.room));
            format!("{}\u{a0}min to the limit of {where_to}", libm::floor(minutes))
        }
        None => format!("no limit within {}", duration(span)),
    }
}

fn duration(minutes: usize) -> String {
    if minutes >= 120 { format!("{}\u{a0}h", minutes / 60) } else { format!("{minutes}\u{a0}min") }
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
        let range = round_range((shown(low), shown(high)), 4);
        let (across, up) = (Scale::new((0.0, minutes as f64), (LEFT, width - RIGHT)), Scale::new(range, (TOP + PLOT, TOP)));
        let (left, right, base) = (LEFT, width - RIGHT, TOP + PLOT);
        let grid = ticks(range, 4).into_iter().map(|tick| {
            let y = up.at(tick);
            view! {
                <path class="c-grid" d=format!("M{left} {y:.1}H{right:.1}") />
                <text class="ax" x=left - 6.0 y=y + 4.8 text-anchor="end">{format!("{tick:.0}").replace('-', "\u{2212}")}</text>
            }
        });
        let times = ticks((0.0, minutes as f64), 4).into_iter().map(|tick| {
            let x = across.at(tick);
            view! {
                <path class="c-tick" d=format!("M{x:.1} {base}v5") />
                <text class="ax" x=x y=base + 19.0 text-anchor="middle">{format!("{tick:.0}")}</text>
            }
        });
        let curves = transient.air.iter().enumerate().map(|(room, air)| {
            let points = air.0.iter().take(minutes + 1).enumerate();
            let path = line(points.map(|(minute, figure)| (across.at(minute as f64), up.at(shown(f64::from(*figure))))));
            let core = (room > 0).then(|| view! { <path class="c-core" d=path.clone() /> });
            view! { <path class="c-in" d=path.clone() />{core} }
        });
        let limit = limit.map(|limit| view! { <path class="c-limit" d=format!("M{left} {:.1}H{right:.1}", up.at(shown(limit))) /> });
        let met = transient.minutes.map(|met| {
            let x = across.at(met);
            view! { <path class="c-met" d=format!("M{x:.1} {TOP}V{base}") /> }
        });
        view! {
            <svg class="chart__svg" width=width height=base + FOOT aria-hidden="true">
                {grid.collect_view()}
                <text class="ax" x=left + 5.0 y=TOP + 9.0>{unit_name(Kind::Temperature, units)}</text>
                {times.collect_view()}
                <text class="ax" x=right y=base - 5.0 text-anchor="end">"min"</text>
                <path class="c-axis" d=format!("M{left} {TOP}V{base}H{right:.1}") />
                {limit}
                {curves.collect_view()}
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
        let pieces =
            shares.iter().filter(|(_, power, _)| power * sign > longest * 0.004).map(|(name, power, class)| {
                let watts = show(Value::new(power.abs(), Kind::Power), units).to_string();
                view! {
                    <li class=format!("share share--{class}") style:flex-grow=(power.abs() / longest).to_string()>
                        <span class="share__bar" aria-hidden="true"></span>
                        <span class="share__name">{*name}</span> <b class="share__figure">{watts}</b>
                    </li>
                }
            });
        let rest = (1.0 - whole(sign) / longest).max(0.0);
        let rest = (rest > 0.004)
            .then(|| view! { <li class="share share--rest" style:flex-grow=rest.to_string() aria-hidden="true"></li> });
        view! { <div class="peak__row"><span class="peak__head">{head}</span><ul class="shares">{pieces.collect_view()}{rest}</ul></div> }
    };
    let name = inside(course, room);
    let air = course.year.highest.get(room).and_then(|series| series.at(hour));
    let air = air.map_or_else(String::new, |air| format!(" {}", temperature(air, units)));
    view! {
        <div class="peak" role="group" aria-label="Heat of the hottest hour">
            <p><b>"Hottest hour"</b> {format!(" {name}{air}, {}, {}\u{2013}{}\u{a0}h", date(hour / DAY), hour % DAY, hour % DAY + 1)}</p>
            {row("in", 1.0)}
            {row("out", -1.0)}
        </div>
    }
}
