//! Where the cabinet stands: place on earth, clock, horizon, and what electricity costs there. Fields that are read as words.

use leptos::prelude::*;
use project::Brief;
use units::{Coordinate, Degrees, Kind, System, Value, read, read_place, read_time_zone, show_exactly, show_time_zone};

use super::set_brief;
use crate::editor::use_editor;
use crate::lean::view;
use crate::parts::TextField;

/// A field that is read as words: label, help, how it is shown, and how it is set.
type Row = (&'static str, &'static str, fn(&Brief) -> String, fn(&mut Brief, &str) -> Result<(), String>);

/// Where on earth.
pub(super) const PLACE: &[Row] = &[
    (
        "Latitude and longitude",
        "33.4 N, 115.2 W; 33° 24' N, 115° 12' W; or 33.4, -115.2",
        |b| format!("{}, {}", Coordinate::Latitude.show(b.latitude.0), Coordinate::Longitude.show(b.longitude.0)),
        |b, text| {
            let (latitude, longitude) = read_place(text)?;
            (b.latitude, b.longitude) = (Degrees(latitude), Degrees(longitude));
            Ok(())
        },
    ),
    (
        "Time zone",
        "Without summer time: UTC-6, +5:30",
        |b| show_time_zone(b.utc_offset),
        |b, text| {
            b.utc_offset = read_time_zone(text)?;
            Ok(())
        },
    ),
    ("Horizon", "Degrees at equal steps, clockwise from north. Empty: free.", horizon, |b, text| {
        b.horizon = read_horizon(text)?;
        Ok(())
    }),
];

/// What electricity is paid in.
pub(super) const CURRENCY: &[Row] = &[(
    "Currency",
    "Three letters: USD, EUR",
    |b| b.currency.clone(),
    |b, text| {
        b.currency = text.trim().to_ascii_uppercase();
        Ok(())
    },
)];

/// Fields that are read as words.
#[component]
pub(super) fn WordRows(
    /// Which.
    rows: &'static [Row],
) -> impl IntoView {
    let editor = use_editor();
    rows.iter()
        .map(|&(label, help, get, set)| {
            let value = editor.part(move |project| get(&project.brief));
            let on_commit = move |text: String| {
                let mut brief = editor.project_now().brief.clone();
                set(&mut brief, &text)?;
                set_brief(editor, |to| *to = brief)
            };
            view! { <TextField label value help on_commit=on_commit /> }
        })
        .collect_view()
}

fn horizon(brief: &Brief) -> String {
    let heights = brief.horizon.iter().map(|height| show_exactly(Value::from(*height), System::Metric).number);
    heights.collect::<Vec<_>>().join(" ")
}

fn read_horizon(text: &str) -> Result<Vec<Degrees>, String> {
    let figures = text.split(|letter: char| letter.is_whitespace() || letter == ';');
    figures
        .map(|figure| figure.trim_end_matches(','))
        .filter(|figure| !figure.is_empty())
        .map(|figure| {
            let height = read(figure, Kind::Angle, System::Metric).map_err(|error| error.to_string())?;
            Ok(Degrees(height))
        })
        .collect()
}
