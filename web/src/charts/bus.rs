//! The bus while the supply is lost: its voltage over the minutes since, until the strings give no more and all that hangs on
//! them is shed.

use leptos::prelude::*;
use rules::backup::bus_window::WINDOW;
use rules::course::GridLost;
use units::{Kind, System, Value, show};

use super::axes::{FOOT, LEFT, Plot, TOP, along};
use super::drawn::line;
use super::scale::{Scale, round_range};
use super::standstill::{PLOT, RIGHT, duration, minutes_or_hours};
use crate::lean::view;

/// What becomes of the bus, in words.
fn verdict(lost: &GridLost, units: System) -> String {
    let watts = |at: usize| lost.load.at(at).map(|watts| show(Value::new(watts, Kind::Power), units).to_string());
    let last = lost.volts.len().saturating_sub(1);
    match lost.minutes {
        _ if !lost.because.is_empty() => lost.because.clone(),
        Some(minutes) => {
            let how = if lost.taken_off { "taken off" } else { "used up" };
            let shed = watts(last).map(|watts| format!(", {watts} shed")).unwrap_or_default();
            format!("strings {how} after {}{shed}", duration(minutes as usize))
        }
        None => {
            let load = watts(0).map(|watts| format!(", {watts} at first")).unwrap_or_default();
            format!("strings last {} and longer{load}", duration(last))
        }
    }
}

/// The voltage as one curve over the minutes, between the ends of what loads bear.
pub(super) fn bus(lost: &GridLost, width: f64, units: System) -> AnyView {
    let words = verdict(lost, units);
    let minutes = lost.volts.len().saturating_sub(1).max(1);
    let drawing = (lost.volts.len() > 1).then(|| {
        let (low, high) = lost
            .volts
            .0
            .iter()
            .map(|volts| f64::from(*volts))
            .chain([WINDOW.0])
            .fold((f64::MAX, f64::MIN), |(low, high), next| (low.min(next), high.max(next)));
        let plot =
            Plot { range: round_range((low, high), 5), across: (LEFT, width - RIGHT), top: TOP, base: TOP + PLOT };
        let (across, up) = (Scale::new((0.0, minutes as f64), plot.across), plot.up());
        let (each, unit) = minutes_or_hours(minutes);
        let times = along((0.0, minutes as f64 / each), 4, unit, units);
        let times = times.into_iter().map(|(tick, words)| (across.at(tick * each), words));
        let points = lost.volts.0.iter().enumerate();
        let curve = line(points.map(|(minute, volts)| (across.at(minute as f64), up.at(f64::from(*volts)))));
        let met = lost.minutes.map(|met| {
            let x = across.at(met.min(minutes as f64));
            view! { <path class="c-met" d=format!("M{x:.1} {TOP}V{}", plot.base) /> }
        });
        view! {
            <svg class="chart__svg" width=width height=plot.base + FOOT aria-hidden="true">
                {plot.grid(times, units)}
                <text class="ax" x=LEFT + 5.0 y=TOP + 9.0>"V"</text>
                {plot.axes()}
                <path class="c-limit" d=plot.level(up.at(WINDOW.0)) />
                <path class="c-in" d=curve />
                {met}
            </svg>
        }
    });
    view! {
        <figure class="still">
            <figcaption><b>"Bus meanwhile"</b> <span class="still__said">{words}</span></figcaption>
            {drawing}
        </figure>
    }
    .into_any()
}

#[cfg(test)]
mod tests {
    use rules::course::{Series, Transient};

    use super::*;

    fn check(minutes: Option<f64>, taken_off: bool, because: &str, said: &str) {
        let lost = GridLost {
            heat: Transient { minutes: None, room: 0, device: None, air: vec![], because: String::new() },
            minutes,
            taken_off,
            volts: Series(vec![50.0, 48.0, 46.0]),
            load: Series(vec![900.0, 950.0, 960.0]),
            because: because.to_owned(),
        };
        assert_eq!(verdict(&lost, System::Metric).replace(['\u{a0}', '\u{202f}'], " "), said);
    }

    #[test]
    fn the_end_of_the_strings_is_told_with_what_is_shed() {
        check(Some(2.0), true, "", "strings taken off after 2 min, 960 W shed");
        check(Some(150.0), false, "", "strings used up after 2 h 30 min, 960 W shed");
        check(None, false, "", "strings last 2 min and longer, 900 W at first");
        check(None, false, "no battery is fitted", "no battery is fitted");
    }
}
