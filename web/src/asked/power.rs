//! What is asked of supply and backup.

use leptos::prelude::*;
use units::{Amperes, Celsius, Hours, Kind, Metres};

use super::everything::{Figures, Row, keep};
use super::words::{CODES, CONDUCTORS, GENERATORS, SPARES, SUPPLIES, said, supply_words};
use super::{brief_options, brief_text};
use crate::build_list::Part;
use crate::editor::use_editor;
use crate::lean::view;
use crate::parts::ChoiceBlank;

/// Temperatures that terminals are made for.
const TERMINALS: &[(&str, f64)] = &[("60 °C", 60.0), ("75 °C", 75.0)];

/// The figures.
const FIGURES: &[Row] = &[
    (
        "Fault current at the service",
        Kind::Current,
        "Available where it enters. Empty: the utility has not said.",
        true,
        |b| b.power.fault_current.map(|current| current.0),
        |b, n| b.power.fault_current = Some(Amperes(n)),
        |b| b.power.fault_current = None,
    ),
    (
        "Run of the service",
        Kind::Elevation,
        "From the source to the cabinet, one way.",
        false,
        |b| Some(b.power.service_run.0),
        |b, n| b.power.service_run = Metres(n),
        keep,
    ),
    (
        "Autonomy",
        Kind::Time,
        "Without supply and generator. Empty: not asked.",
        true,
        |b| b.power.autonomy.map(|hours| hours.0),
        |b, n| b.power.autonomy = Some(Hours(n)),
        |b| b.power.autonomy = None,
    ),
    (
        "Recharged within",
        Kind::Time,
        "From empty.",
        false,
        |b| Some(b.power.recharge.0),
        |b, n| b.power.recharge = Hours(n),
        keep,
    ),
    (
        "Load to be added",
        Kind::Share,
        "As a share of the load now.",
        false,
        |b| Some(b.power.growth),
        |b, n| b.power.growth = n,
        keep,
    ),
];

/// Choices and figures.
#[component]
pub(super) fn SupplyFields() -> impl IntoView {
    let editor = use_editor();
    let supply = brief_options(editor, SUPPLIES, |b| b.supply, |b, to| b.supply = to);
    let generator = brief_options(editor, GENERATORS, |b| b.power.generator, |b, to| b.power.generator = to);
    let code = brief_options(editor, CODES, |b| b.power.code, |b, to| b.power.code = to);
    let conductor = brief_options(editor, CONDUCTORS, |b| b.power.conductor, |b, to| b.power.conductor = to);
    let terminals = brief_options(editor, TERMINALS, |b| b.power.terminals.0, |b, to| b.power.terminals = Celsius(to));
    let spare = brief_options(editor, SPARES, |b| b.power.redundant, |b, to| b.power.redundant = to);
    let words = move |words| brief_text(editor, words);
    view! {
        <dl class="parts">
            <Part name="Supply"><ChoiceBlank label="Supply" text=words(|b| supply_words(b.supply).to_owned()) options=supply /></Part>
            <Part name="Generator"><ChoiceBlank label="Generator" text=words(|b| said(GENERATORS, &b.power.generator).to_owned()) options=generator /></Part>
            <Part name="Code"><ChoiceBlank label="Edition of the electrical code" text=words(|b| said(CODES, &b.power.code).to_owned()) options=code /></Part>
            <Part name="Service of"><ChoiceBlank label="Conductors of the service" text=words(|b| said(CONDUCTORS, &b.power.conductor).to_owned()) options=conductor /></Part>
            <Part name="Terminals"><ChoiceBlank label="Terminals are made for" text=words(|b| format!("{:.0}\u{a0}°C", b.power.terminals.0)) options=terminals /></Part>
            <Part name="Converters"><ChoiceBlank label="Spare module of converters" text=words(|b| said(SPARES, &b.power.redundant).to_owned()) options=spare /></Part>
        </dl>
        <div class="form__grid"><Figures rows=FIGURES /></div>
    }
}
