//! Asked: the brief as one written sentence. Each blank opens its editor; a promise that is not kept is hatched where it was asked.

mod everything;
mod months;
mod power;
mod site;
mod words;

use leptos::prelude::*;
use project::{Brief, Edit};
use rules::{Asked, Outcome};
use units::{Kind, Quantity, Value, show};

use crate::editor::{Editor, use_editor};
use crate::lean::{Memo, view};
use crate::parts::{Choice, ChoiceBlank, QuantityBlank, TextBlank, Typed, outcome_class};
use crate::view_state::use_view;
pub use everything::EverythingAsked;
pub(crate) use words::supply_words;
use words::{BEARINGS, GENERATORS, INSTALLATIONS, SUNS, SUPPLIES, bearing_words, installation_words, said, sun_words};

/// The brief as a sentence.
#[component]
pub fn AskedSentence(
    /// Opens the list of devices.
    #[prop(into)]
    on_devices: Callback<()>,
    /// Opens everything that is asked, also what the sentence leaves out.
    #[prop(into)]
    on_more: Callback<()>,
) -> impl IntoView {
    let editor = use_editor();
    let devices = editor.part(|project| project.build.devices.len());
    let site = editor.part(|project| project.brief.site.clone());
    let set = move |change: fn(&mut Brief, String)| move |text: String| set_brief(editor, |brief| change(brief, text));
    view! {
        <header class="asked">
            <span class="asked__mark">
                <crate::mark::Mark size=44 />
            </span>
            <p class="asked__text">
                <strong class="asked__head">"Asked"</strong>
                " A cabinet at "
                <TextBlank
                    label="Site"
                    text=Signal::derive(move || if site.get().is_empty() { "a place not named yet".into() } else { site.get() })
                    value=site
                    on_commit=set(|brief, text| brief.site = text)
                />
                ", "
                <BriefQuantity label="Height above the sea" get=|brief| Some(brief.elevation.0) kind=Kind::Elevation
                    set=|brief, number| brief.elevation = units::Metres(number.unwrap_or_default()) />
                " up, facing "
                <ChoiceBlank
                    label="Bearing of the front"
                    text=brief_text(editor, |brief| bearing_words(brief.bearing.0))
                    options=Choice::Bearing
                />
                ", "
                <ChoiceBlank
                    label="How it stands"
                    text=brief_text(editor, |brief| installation_words(brief.installation).to_owned())
                    options=Choice::Installation
                />
                ", for "
                <Promise asked=Asked::Devices>
                    <button type="button" class="blank" aria-haspopup="dialog" on:click=move |_| on_devices.run(())>
                        {move || count_words(devices.get(), "device", "devices")}
                    </button>
                </Promise>
                " with "
                <Promise asked=Asked::SpareUnits>
                    <BriefCount label="Spare units" unit=" U" get=|brief| brief.spare_units set=|brief, number| brief.spare_units = number />
                    " to spare"
                </Promise>
                ", at most "
                <Promise asked=Asked::MassLimit>
                    <BriefQuantity label="Greatest equipped mass" get=|brief| brief.mass_limit.map(|mass| mass.0) kind=Kind::Mass none="any mass"
                        set=|brief, number| brief.mass_limit = number.map(units::Kilograms) />
                </Promise>
                ". It "
                <Promise asked=Asked::Hottest>
                    "stays cool at "
                    <BriefQuantity label="Hottest outdoor air" get=|brief| Some(brief.hottest.0) kind=Kind::Temperature
                        set=|brief, number| brief.hottest = units::Celsius(number.unwrap_or_default()) />
                    " in "
                    <ChoiceBlank
                        label="Sun"
                        text=brief_text(editor, |brief| sun_words(brief.sun).to_owned())
                        options=Choice::Sun
                    />
                </Promise>
                " and "
                <Promise asked=Asked::Coldest>
                    "above "
                    <BriefQuantity label="Lowest inside air" get=|brief| Some(brief.keep_above.0) kind=Kind::Temperature
                        set=|brief, number| brief.keep_above = units::Celsius(number.unwrap_or_default()) />
                    " at "
                    <BriefQuantity label="Coldest outdoor air" get=|brief| Some(brief.coldest.0) kind=Kind::Temperature
                        set=|brief, number| brief.coldest = units::Celsius(number.unwrap_or_default()) />
                </Promise>
                ", takes "
                <Promise asked=Asked::Supply>
                    <ChoiceBlank
                        label="Supply"
                        text=brief_text(editor, |brief| supply_words(brief.supply).to_owned())
                        options=Choice::Supply
                    />
                </Promise>
                " and "
                <Promise asked=Asked::Generator>
                    <ChoiceBlank
                        label="Generator"
                        text=brief_text(editor, |brief| said(GENERATORS, &brief.power.generator).to_owned())
                        options=Choice::Generator
                    />
                </Promise>
                ", "
                <Promise asked=Asked::Autonomy>
                    "bridges "
                    <BriefQuantity label="Autonomy" get=|brief| brief.power.autonomy.map(|hours| hours.0) kind=Kind::Time
                        none="no set time" set=|brief, number| brief.power.autonomy = number.map(units::Hours) />
                </Promise>
                ", offers "
                <Promise asked=Asked::FibrePorts>
                    <BriefCount label="Fibre ports" unit=" fibre ports" get=|brief| brief.fibre_ports set=|brief, number| brief.fibre_ports = number />
                </Promise>
                " and "
                <Promise asked=Asked::Splices>
                    <BriefCount label="Splices" unit=" splices" get=|brief| brief.splices set=|brief, number| brief.splices = number />
                </Promise>
                ", keeps "
                <Promise asked=Asked::KnockOuts>
                    <BriefCount label="Spare knock-outs" unit=" knock-outs" get=|brief| brief.spare_knock_outs
                        set=|brief, number| brief.spare_knock_outs = number />
                    " free"
                </Promise>
                " and "
                <Promise asked=Asked::Lifting>
                    "hangs "
                    <BriefQuantity label="Hook above the lifting eyes" get=|brief| Some(brief.hook_height.0) kind=Kind::Length
                        set=|brief, number| brief.hook_height = units::Millimetres(number.unwrap_or_default()) />
                    " under a hook"
                </Promise>
                ". "
                <button type="button" class="blank" aria-haspopup="dialog" on:click=move |_| on_more.run(())>"Everything asked"</button>
            </p>
        </header>
    }
}

/// Changes the brief; answers why it was not taken.
fn set_brief(editor: Editor, change: impl FnOnce(&mut Brief)) -> Result<(), String> {
    let mut brief = editor.project_now().brief.clone();
    change(&mut brief);
    editor.try_apply(&Edit::SetBrief(Box::new(brief)))
}

fn brief_text(editor: Editor, words: fn(&Brief) -> String) -> Signal<String> {
    editor.part(move |project| words(&project.brief)).into()
}

fn brief_options<T: PartialEq + Copy + Send + Sync + 'static>(
    editor: Editor,
    all: &'static [(&'static str, T)],
    get: fn(&Brief) -> T,
    set: fn(&mut Brief, T),
) -> Callback<(), Vec<(String, Edit, bool)>> {
    Callback::new(move |()| {
        let project = editor.project_now();
        let now = get(&project.brief);
        all.iter()
            .map(|&(name, value)| {
                let mut brief = project.brief.clone();
                set(&mut brief, value);
                (name.to_owned(), Edit::SetBrief(Box::new(brief)), value == now)
            })
            .collect()
    })
}

/// Bearings of the front.
pub(crate) fn bearing_options(editor: Editor) -> Callback<(), Vec<(String, Edit, bool)>> {
    brief_options(editor, BEARINGS, |brief| brief.bearing.0, |brief, bearing| brief.bearing = units::Degrees(bearing))
}

/// Ways to stand.
pub(crate) fn installation_options(editor: Editor) -> Callback<(), Vec<(String, Edit, bool)>> {
    brief_options(editor, INSTALLATIONS, |brief| brief.installation, |brief, to| brief.installation = to)
}

/// Suns.
pub(crate) fn sun_options(editor: Editor) -> Callback<(), Vec<(String, Edit, bool)>> {
    brief_options(editor, SUNS, |brief| brief.sun, |brief, to| brief.sun = to)
}

/// With a generator or without.
pub(crate) fn generator_options(editor: Editor) -> Callback<(), Vec<(String, Edit, bool)>> {
    brief_options(editor, GENERATORS, |brief| brief.power.generator, |brief, to| brief.power.generator = to)
}

/// Supplies.
pub(crate) fn supply_options(editor: Editor) -> Callback<(), Vec<(String, Edit, bool)>> {
    brief_options(editor, SUPPLIES, |brief| brief.supply, |brief, to| brief.supply = to)
}

/// A quantity of the brief, as a blank.
#[component]
fn BriefQuantity(
    #[prop(into)] label: String,
    kind: Kind,
    get: fn(&Brief) -> Option<f64>,
    set: fn(&mut Brief, Option<f64>),
    /// What stands there when nobody has said, where that may be.
    #[prop(default = "")]
    none: &'static str,
) -> impl IntoView {
    let editor = use_editor();
    let units = use_view().units;
    let value = editor.part(move |project| get(&project.brief));
    let text = Signal::derive(move || match value.get() {
        Some(number) => show(Value::new(number, kind), units.get()).to_string(),
        None => none.to_owned(),
    });
    view! {
        <QuantityBlank
            label
            text
            kind
            value
            may_be_empty=!none.is_empty()
            help=if none.is_empty() { "" } else { "Empty: not asked." }
            on_commit=move |number: Typed| set_brief(editor, |brief| set(brief, number))
        />
    }
}

/// A whole number of the brief, as a blank.
#[component]
fn BriefCount(
    #[prop(into)] label: String,
    unit: &'static str,
    get: fn(&Brief) -> u32,
    set: fn(&mut Brief, u32),
) -> impl IntoView {
    let editor = use_editor();
    let value = editor.part(move |project| get(&project.brief));
    let text = Signal::derive(move || format!("{}{}", value.get(), unit.replacen(' ', "\u{a0}", 1)));
    let number = Signal::derive(move || Some(f64::from(value.get())));
    view! {
        <QuantityBlank
            label
            text
            kind=Kind::Count
            value=number
            on_commit=move |number: Typed| {
                let number = number.unwrap_or_default();
                if number.fract() != 0.0 || !(0.0..=100_000.0).contains(&number) {
                    return Err("A whole number from 0 to 100 000".to_owned());
                }
                set_brief(editor, |brief| set(brief, number as u32))
            }
        />
    }
}

/// A part of the sentence that a check answers: hatched where the promise is not kept.
#[component]
fn Promise(
    /// Which promise.
    asked: Asked,
    children: Children,
) -> impl IntoView {
    let editor = use_editor();
    let outcome = Memo::new(move |_| worst_of(&editor.report(), asked));
    let class = move || match outcome.get() {
        Some(outcome) if outcome != Outcome::Holds => format!("owed {}", outcome_class(outcome)),
        _ => "kept".to_owned(),
    };
    view! { <span class=move || class()>{children()}</span> }
}

fn worst_of(report: &rules::Report, asked: Asked) -> Option<Outcome> {
    report.findings.iter().filter(|finding| finding.asked == Some(asked)).map(|finding| finding.outcome).max()
}

fn count_words(count: usize, one: &str, many: &str) -> String {
    format!("{count}\u{a0}{}", if count == 1 { one } else { many })
}

/// The number of a quantity, for the forms.
pub(crate) fn number_of<Q: Quantity>(quantity: Q) -> Option<f64> {
    Some(quantity.number())
}
