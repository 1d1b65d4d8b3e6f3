//! Everything that is asked, also what the sentence leaves out, as a form.

use leptos::prelude::*;
use project::Brief;
use units::{Celsius, Degrees, Kelvins, Kilograms, Kilopascals, Kind, Metres, Millimetres};

use super::months::Months;
use super::power::SupplyFields;
use super::site::{CURRENCY, PLACE, WordRows};
use super::words::{COLD_DAYS, HOT_DAYS, said};
use super::{brief_options, brief_text, number_of, set_brief};
use crate::build_list::Part;
use crate::editor::use_editor;
use crate::lean::view;
use crate::parts::{ChoiceBlank, QuantityField, Typed};

/// A quantity of the brief: label, kind, help, whether it may be empty, and how it is read and set.
pub(super) type Row =
    (&'static str, Kind, &'static str, bool, fn(&Brief) -> Option<f64>, fn(&mut Brief, f64), fn(&mut Brief));

pub(super) const fn keep(_: &mut Brief) {}

/// How it stands there.
const STANDING: &[Row] = &[
    (
        "Height above the sea",
        Kind::Elevation,
        "",
        false,
        |b| number_of(b.elevation),
        |b, n| b.elevation = Metres(n),
        keep,
    ),
    (
        "Bearing of the front",
        Kind::Angle,
        "Clockwise from north.",
        false,
        |b| number_of(b.bearing),
        |b, n| b.bearing = Degrees(n),
        keep,
    ),
    (
        "Ground reflectance",
        Kind::Ratio,
        "0.2 for soil and grass, 0.35 for bright sand, 0.7 for snow.",
        false,
        |b| Some(b.albedo),
        |b, n| b.albedo = n,
        keep,
    ),
];

/// The weather it is made for.
const WEATHER: &[Row] = &[
    (
        "Hottest outdoor air",
        Kind::Temperature,
        "",
        false,
        |b| number_of(b.hottest),
        |b, n| b.hottest = Celsius(n),
        keep,
    ),
    (
        "Daily range on the hottest day",
        Kind::TemperatureDifference,
        "From the coolest to the hottest hour.",
        false,
        |b| number_of(b.daily_range),
        |b, n| b.daily_range = Kelvins(n),
        keep,
    ),
    (
        "Coldest outdoor air",
        Kind::Temperature,
        "",
        false,
        |b| number_of(b.coldest),
        |b, n| b.coldest = Celsius(n),
        keep,
    ),
    (
        "Lowest inside air",
        Kind::Temperature,
        "Where no device asks for more.",
        false,
        |b| number_of(b.keep_above),
        |b, n| b.keep_above = Celsius(n),
        keep,
    ),
];

/// What electricity costs.
const TARIFF: &[Row] = &[(
    "Price of a kWh",
    Kind::Ratio,
    "Empty: no cost is told.",
    true,
    |b| b.tariff,
    |b, n| b.tariff = Some(n),
    |b| b.tariff = None,
)];

/// How much it may weigh, and how it gets there.
const LOADS: &[Row] = &[
    (
        "Greatest equipped mass",
        Kind::Mass,
        "Empty: no limit.",
        true,
        |b| b.mass_limit.map(|m| m.0),
        |b, n| b.mass_limit = Some(Kilograms(n)),
        |b| b.mass_limit = None,
    ),
    (
        "One person lifts",
        Kind::Mass,
        "23 kg is the load constant of NIOSH 1991.",
        false,
        |b| number_of(b.one_person_lift),
        |b, n| b.one_person_lift = Kilograms(n),
        keep,
    ),
    (
        "Pad or soil may carry",
        Kind::Pressure,
        "Empty: not asked.",
        true,
        |b| b.bearing_limit.map(|p| p.0),
        |b, n| b.bearing_limit = Some(Kilopascals(n)),
        |b| b.bearing_limit = None,
    ),
    (
        "Greatest shipping mass",
        Kind::Mass,
        "Empty: no limit.",
        true,
        |b| b.transport_mass.map(|m| m.0),
        |b, n| b.transport_mass = Some(Kilograms(n)),
        |b| b.transport_mass = None,
    ),
    (
        "Greatest shipping height",
        Kind::Length,
        "On its pallet. Empty: no limit.",
        true,
        |b| b.transport_height.map(|h| h.0),
        |b, n| b.transport_height = Some(Millimetres(n)),
        |b| b.transport_height = None,
    ),
    (
        "Hook above the lifting eyes",
        Kind::Length,
        "",
        false,
        |b| number_of(b.hook_height),
        |b, n| b.hook_height = Millimetres(n),
        keep,
    ),
    ("Least tip angle", Kind::Angle, "", false, |b| number_of(b.tip_angle), |b, n| b.tip_angle = Degrees(n), keep),
];

/// Everything asked, as a form.
#[component]
pub fn EverythingAsked() -> impl IntoView {
    view! {
        <div class="form">
            <h2 class="head">"Everything asked"</h2>
            <h3 class="head">"Site"</h3>
            <div class="form__grid"><WordRows rows=PLACE /><Figures rows=STANDING /></div>
            <h3 class="head">"Weather"</h3>
            <div class="form__grid"><Figures rows=WEATHER /></div>
            <DayCycles />
            <Months />
            <h3 class="head">"Supply and backup"</h3>
            <SupplyFields />
            <h3 class="head">"What electricity costs"</h3>
            <div class="form__grid"><Figures rows=TARIFF /><WordRows rows=CURRENCY /></div>
            <h3 class="head">"Weight and transport"</h3>
            <div class="form__grid"><Figures rows=LOADS /></div>
        </div>
    }
}

/// Which days are run through. A cycle takes the place of the design temperature over the day, not at the design hour.
#[component]
fn DayCycles() -> impl IntoView {
    let editor = use_editor();
    let hot = brief_options(editor, HOT_DAYS, |brief| brief.hot_day, |brief, day| brief.hot_day = day);
    let cold = brief_options(editor, COLD_DAYS, |brief| brief.cold_day, |brief, day| brief.cold_day = day);
    view! {
        <dl class="parts">
            <Part name="Hottest day">
                <ChoiceBlank
                    label="Hottest day, hour by hour"
                    text=brief_text(editor, |brief| said(HOT_DAYS, &brief.hot_day).to_owned())
                    options=hot
                />
            </Part>
            <Part name="Coldest day">
                <ChoiceBlank
                    label="Coldest day, hour by hour"
                    text=brief_text(editor, |brief| said(COLD_DAYS, &brief.cold_day).to_owned())
                    options=cold
                />
            </Part>
        </dl>
    }
}

/// Quantities of the brief.
#[component]
pub(super) fn Figures(
    /// Which.
    rows: &'static [Row],
) -> impl IntoView {
    let editor = use_editor();
    rows.iter()
        .map(|&(label, kind, help, optional, get, set, clear)| {
            let value = editor.part(move |project| get(&project.brief));
            let on_commit = move |number: Typed| {
                set_brief(editor, |brief| match number {
                    Some(number) => set(brief, number),
                    None => clear(brief),
                })
            };
            view! { <QuantityField label kind value help may_be_empty=optional on_commit=on_commit /> }
        })
        .collect_view()
}
