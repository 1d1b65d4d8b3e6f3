//! The discharge: voltage of the bus over the hours since the supply failed, with hot, rated and cold cells, between the ends
//! of what the loads bear. The chosen hour is a pencil line, moved by pointer or keys.

use leptos::{ev, html, prelude::*};
use rules::Case;
use rules::backup::bus_window::WINDOW;
use rules::backup::curves::{Curve as Reckoned, When, curves};
use rules::backup::discharge::Ending;
use rules::backup::plant::{NoPlant, Plant};
use units::{Kind, System, Value, show};
use wasm_bindgen::JsCast;

use crate::charts::{Plot, Scale, line, round_range, space_of, spread, ticks};
use crate::editor::{Editor, use_editor};
use crate::lean::{Memo, RwSignal, view};
use crate::view_state::use_view;

/// Left of the plot, right of it, above and below it, px.
const LEFT: f64 = 34.0;
const RIGHT: f64 = 112.0;
const TOP: f64 = 12.0;
const FOOT: f64 = 22.0;
/// Least height of the drawing, px.
const LEAST: f64 = 190.0;
/// Steps of the pencil along the hours.
const STEPS: usize = 120;

/// One curve: what its cells are, its moments as hours, volts and amperes, and why it ends.
#[derive(Clone, Debug, PartialEq)]
struct Curve {
    name: &'static str,
    cells: f64,
    moments: Vec<(f64, f64, f64)>,
    ending: &'static str,
}

/// Everything that is drawn.
#[derive(Clone, Debug, PartialEq)]
struct Drawn {
    curves: Vec<Curve>,
    cut_off: f64,
    asked: Option<f64>,
    longest: f64,
}

/// The discharge of the project as it is, or why there is none.
fn drawn(editor: Editor) -> Result<Drawn, String> {
    let (project, catalogue) = (editor.project(), editor.catalogue());
    let case = Case::new(&project, &catalogue);
    let plant = Plant::of(&case).map_err(|why| match why {
        NoPlant::NoBattery => "No battery is placed, so nothing bridges a failure of the supply.".to_owned(),
        NoPlant::Unsaid(what) => format!("Something is not known yet: {}.", what.shown(System::Metric)),
        NoPlant::NotWhole => "The batteries make no whole string of one sort.".to_owned(),
    })?;
    let curves: Vec<_> = curves(&case).iter().map(curve).collect();
    if curves.is_empty() {
        return Err("Nothing draws from the batteries, or more than the method covers.".to_owned());
    }
    let asked = project.brief.power.autonomy.map(|hours| hours.0);
    let ends = curves.iter().filter_map(|curve| curve.moments.last()).map(|(hours, ..)| *hours);
    let longest = ends.chain(asked).fold(0.1, f64::max);
    Ok(Drawn { curves, cut_off: plant.cut_off, asked, longest })
}

fn curve(of: &Reckoned) -> Curve {
    let moments = of.discharge.moments.iter().map(|moment| (moment.hours, moment.volts, moment.amperes)).collect();
    let name = match of.when {
        When::Hot => "hot",
        When::Rated => "rated",
        When::Cold => "cold",
    };
    let ending = match of.discharge.ending {
        Ending::Used => "the share that may be used is taken",
        Ending::CutOff => "the strings are taken off",
    };
    Curve { name, cells: of.cells.0, moments, ending }
}

impl Curve {
    /// Volts and amperes at an hour; none once it has ended.
    fn at(&self, hours: f64) -> Option<(f64, f64)> {
        let after = self.moments.iter().position(|(at, ..)| *at >= hours)?;
        let (end, volts, amperes) = self.moments[after];
        let Some((start, volts_before, amperes_before)) = after.checked_sub(1).map(|before| self.moments[before])
        else {
            return Some((volts, amperes));
        };
        let share = if end > start { (hours - start) / (end - start) } else { 1.0 };
        Some((volts_before + (volts - volts_before) * share, amperes_before + (amperes - amperes_before) * share))
    }

    fn hours(&self) -> f64 {
        self.moments.last().map_or(0.0, |(hours, ..)| *hours)
    }

    /// "cold, −5 °C".
    fn called(&self, units: System) -> String {
        format!("{} {}", self.name, show(Value::new(self.cells, Kind::Temperature), units))
    }
}

fn volts(volts: f64, units: System) -> String {
    show(Value::new(volts, Kind::Voltage), units).to_string()
}

fn hours(hours: f64, units: System) -> String {
    show(Value::new(hours, Kind::Time), units).to_string()
}

/// The discharge, what it says at the chosen hour, and its numbers.
#[component]
pub(crate) fn Discharge() -> impl IntoView {
    let editor = use_editor();
    let now = Memo::new(move |_| drawn(editor));
    let there = Memo::new(move |_| now.with(Result::is_ok));
    move || {
        if there.get() {
            view! { <Chart now /> }
        } else {
            view! { <p class="over-time__instead">{move || now.with(|now| now.as_ref().err().cloned())}</p> }
        }
    }
}

#[component]
fn Chart(now: Memo<Result<Drawn, String>>) -> impl IntoView {
    let units = use_view().units;
    let frame = NodeRef::<html::Div>::new();
    let space = space_of(frame);
    let step = RwSignal::new(None::<usize>);
    // Until somebody chooses, the hour that is asked, or the end of the shortest.
    let hour = Memo::new(move |_| {
        now.with(|now| {
            let Ok(drawn) = now else { return 0.0 };
            let shortest = drawn.curves.iter().map(Curve::hours).fold(drawn.longest, f64::min);
            step.get()
                .map_or_else(|| drawn.asked.unwrap_or(shortest), |step| drawn.longest * step as f64 / STEPS as f64)
        })
    });
    let said = Memo::new(move |_| {
        now.with(|now| now.as_ref().map_or_else(|_| String::new(), |drawn| moment(drawn, hour.get(), units.get())))
    });
    let value =
        move || now.with(|now| now.as_ref().map_or(0, |drawn| (hour.get() / drawn.longest * STEPS as f64) as usize));
    let key = move |event: ev::KeyboardEvent| {
        let at = step.get_untracked().unwrap_or_else(value);
        let to = match event.key().as_str() {
            "ArrowLeft" | "ArrowDown" => at.saturating_sub(1),
            "ArrowRight" | "ArrowUp" => at + 1,
            "PageDown" => at.saturating_sub(STEPS / 12),
            "PageUp" => at + STEPS / 12,
            "Home" => 0,
            "End" => STEPS,
            "Escape" => return step.set(None),
            _ => return,
        };
        event.prevent_default();
        step.set(Some(to.min(STEPS)));
    };
    let width = move || space.get().width;
    let plot = move |width: f64| (LEFT, (width - RIGHT).max(LEFT + 60.0));
    let point = move |event: &ev::PointerEvent| {
        let Some(element) = event.current_target().and_then(|target| target.dyn_into::<web_sys::Element>().ok()) else {
            return;
        };
        let (left, right) = plot(space.get_untracked().width);
        let place = f64::from(event.client_x()) - element.get_bounding_client_rect().left();
        let share = ((place - left) / (right - left)).clamp(0.0, 1.0);
        step.set(Some((share * STEPS as f64) as usize));
    };
    let height = move || space.get().height.max(LEAST);
    let drawing = move || {
        now.with(|now| now.as_ref().ok().map(|drawn| svg(drawn, (width(), height()), plot(width()), units.get())))
    };
    let pencil = move || {
        now.with(|now| {
            let drawn = now.as_ref().ok()?;
            let (left, right) = plot(width());
            let x = Scale::new((0.0, drawn.longest), (left, right)).at(hour.get());
            Some(view! { <path class="c-now" d=format!("M{x:.1} {TOP}V{:.1}", height() - FOOT) /> })
        })
    };
    view! {
        <p class="day__read">{move || said.get()}</p>
        <div
            class="chart discharge"
            node_ref=frame
            role="slider"
            tabindex="0"
            aria-label="Hours since the supply failed"
            aria-valuemin="0"
            aria-valuemax=STEPS.to_string()
            aria-valuenow=move || value().to_string()
            aria-valuetext=move || said.get()
            on:keydown=key
            on:pointerdown=move |event| point(&event)
            on:pointermove=move |event| if event.buttons() == 1 || event.pointer_type() == "mouse" { point(&event) }
            on:pointerleave=move |event: ev::PointerEvent| if event.pointer_type() == "mouse" { step.set(None) }
        >
            <svg class="chart__svg" width=width height=height aria-hidden="true">
                {move || drawing()}
                {move || pencil()}
            </svg>
        </div>
        <details class="numbers">
            <summary>"The same in numbers"</summary>
            {move || now.with(|now| now.as_ref().ok().map(|drawn| table(drawn, units.get())))}
        </details>
    }
}

/// What each curve says at an hour.
fn moment(drawn: &Drawn, at: f64, units: System) -> String {
    let curves = drawn.curves.iter().map(|curve| {
        let name = curve.called(units);
        match curve.at(at) {
            Some((of, amperes)) => {
                let amperes = show(Value::new(amperes, Kind::Current), units);
                format!("{name} {} at {amperes}", volts(of, units))
            }
            None => format!("{name} ended after {}, when {}", hours(curve.hours(), units), curve.ending),
        }
    });
    format!("After {}: {}", hours(at, units), curves.collect::<Vec<_>>().join("; "))
}

fn svg(drawn: &Drawn, (_, height): (f64, f64), (left, right): (f64, f64), units: System) -> AnyView {
    let base = height - FOOT;
    let figures = drawn.curves.iter().flat_map(|curve| curve.moments.iter().map(|(_, volts, _)| *volts));
    let (low, high) = figures
        .chain([WINDOW.0, WINDOW.1, drawn.cut_off])
        .fold((f64::MAX, f64::MIN), |(low, high), next| (low.min(next), high.max(next)));
    let range = round_range((low, high), 5);
    let plot = Plot { range, across: (left, right), top: TOP, base };
    let (up, across) = (plot.up(), Scale::new((0.0, drawn.longest), (left, right)));
    let hours = ticks((0.0, drawn.longest), 6).into_iter();
    let marks = hours.map(|hour| (across.at(hour), show(Value::new(hour, Kind::Time), units).to_string()));
    let limits = [("highest", WINDOW.1), ("cut-off", drawn.cut_off), ("lowest", WINDOW.0)];
    let mut names: Vec<(f64, String, &'static str)> = limits
        .iter()
        .map(|(name, volts)| (up.at(*volts), format!("{name} {volts:.1}"), "c-name c-name--limit"))
        .collect();
    let curves = drawn.curves.iter().map(|curve| {
        let class = match curve.name {
            "hot" => "c-hot",
            "cold" => "c-out",
            _ => "c-in",
        };
        let path = line(curve.moments.iter().map(|(hours, volts, _)| (across.at(*hours), up.at(*volts))));
        let end = curve.moments.last().map(|(hours, volts, _)| {
            view! { <circle class="c-dot" cx=across.at(*hours) cy=up.at(*volts) r="3.5" /> }
        });
        view! { <path class=class d=path />{end} }
    });
    let curves = curves.collect_view();
    names.extend(drawn.curves.iter().map(|curve| {
        let end = curve.moments.last().map_or(base, |(_, volts, _)| up.at(*volts));
        (end, curve.called(units), if curve.name == "rated" { "c-name c-name--in" } else { "c-name" })
    }));
    let places: Vec<f64> = names.iter().map(|(at, ..)| *at).collect();
    let names = names.iter().zip(spread(&places, 15.0, (TOP, base))).map(|((_, words, class), place)| {
        view! { <text class=*class x=right + 6.0 y=place + 4.5>{words.clone()}</text> }
    });
    let lines = limits.iter().map(|(name, volts)| {
        let class = if *name == "cut-off" { "c-met" } else { "c-limit" };
        view! { <path class=class d=plot.level(up.at(*volts)) /> }
    });
    let asked = drawn.asked.map(|asked| {
        let x = across.at(asked);
        view! {
            <path class="c-asked" d=format!("M{x:.1} {TOP}V{base:.1}") />
            <text class="c-name c-name--on" x=x + 4.0 y=TOP + 9.0>"asked"</text>
        }
    });
    view! {
        {plot.grid(marks, units)}
        <text class="ax" x=left + 5.0 y=TOP + 9.0>"V"</text>
        {plot.axes()}
        {lines.collect_view()}
        {asked}
        {curves}
        {names.collect_view()}
    }
}

/// Twelve hours of each curve, and its end.
fn table(drawn: &Drawn, units: System) -> AnyView {
    const ROWS: usize = 12;
    let heads = drawn.curves.iter().map(|curve| view! { <th scope="col">{format!("{}, V", curve.called(units))}</th> });
    let number = |of: f64| show(Value::new(of, Kind::Voltage), units).number;
    let rows = (0..=ROWS).map(|row| {
        let at = drawn.longest * row as f64 / ROWS as f64;
        let cells = drawn.curves.iter().map(|curve| {
            view! { <td>{curve.at(at).map_or_else(|| "ended".to_owned(), |(of, _)| number(of))}</td> }
        });
        view! { <tr><th scope="row">{hours(at, units)}</th>{cells.collect_view()}</tr> }
    });
    let ends = drawn.curves.iter().map(|curve| {
        let end = curve.moments.last().map_or(0.0, |(_, of, _)| *of);
        view! { <td>{format!("{} at {}", hours(curve.hours(), units), volts(end, units))}</td> }
    });
    view! {
        <table class="numbers__table">
            <thead><tr><th scope="col">"since failure"</th>{heads.collect_view()}</tr></thead>
            <tbody>{rows.collect_view()}<tr><th scope="row">"ends"</th>{ends.collect_view()}</tr></tbody>
        </table>
    }
}
