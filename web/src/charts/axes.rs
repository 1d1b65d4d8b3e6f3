//! The axes of a chart: thin lines at round figures, and the figures beside them.

use leptos::prelude::*;
use units::{Kind, System, Value, show};

use super::scale::{Scale, ticks};
use crate::lean::view;

/// The figure of a tick, thousands apart and with a minus that is one.
pub(crate) fn figure(tick: f64, units: System) -> String {
    show(Value::new(tick, Kind::Count), units).number
}

/// How many pieces an axis of such a height is divided into at most, so that its figures stand apart.
pub(crate) fn pieces(height: f64) -> usize {
    ((height / 20.0) as usize).clamp(2, 5)
}

/// A line across the plot at each round figure of the upward scale, with that figure at its left.
pub(crate) fn levels(range: (f64, f64), up: &Scale, most: usize, (left, right): (f64, f64), units: System) -> AnyView {
    let lines = ticks(range, most).into_iter().map(|tick| {
        let y = up.at(tick);
        view! {
            <path class="c-grid" d=format!("M{left:.1} {y:.1}H{right:.1}") />
            <text class="ax" x=left - 6.0 y=y + 4.8 text-anchor="end">{figure(tick, units)}</text>
        }
    });
    view! { {lines.collect_view()} }
}

/// A tick under the plot at each place, with its words.
pub(crate) fn foot(places: impl Iterator<Item = (f64, String)>, base: f64) -> AnyView {
    let ticks = places.map(|(x, words)| {
        view! {
            <path class="c-tick" d=format!("M{x:.1} {base:.1}v5") />
            <text class="ax" x=x y=base + 18.0 text-anchor="middle">{words}</text>
        }
    });
    view! { {ticks.collect_view()} }
}

/// Round figures along the foot, the last one with its unit.
pub(crate) fn along(range: (f64, f64), most: usize, unit: &str, units: System) -> Vec<(f64, String)> {
    let ticks = ticks(range, most);
    let last = ticks.len().saturating_sub(1);
    let words = |index: usize, tick: f64| {
        let number = figure(tick, units);
        if index == last { format!("{number}\u{a0}{unit}") } else { number }
    };
    ticks.into_iter().enumerate().map(|(index, tick)| (tick, words(index, tick))).collect()
}

/// The curve of each room; a second room's is a double line.
pub(crate) fn inside_curves(paths: &[String]) -> AnyView {
    let curves = paths.iter().enumerate().map(|(room, path)| {
        let core = (room > 0).then(|| view! { <path class="c-core" d=path.clone() /> });
        view! { <path class="c-in" d=path.clone() />{core} }
    });
    view! { {curves.collect_view()} }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_have_a_true_minus_and_no_decimals() {
        let of = |tick| figure(tick, System::Us);
        assert_eq!([of(-10.0), of(0.0), of(2500.0)], ["\u{2212}10", "0", "2,500"]);
    }

    #[test]
    fn the_last_figure_along_the_foot_has_the_unit() {
        let words: Vec<String> = along((0.0, 8760.0), 5, "h", System::Us).into_iter().map(|(_, words)| words).collect();
        assert_eq!(words, ["0", "2,000", "4,000", "6,000", "8,000\u{a0}h"]);
    }

    #[test]
    fn a_low_plot_has_few_lines() {
        assert_eq!([pieces(0.0), pieces(50.0), pieces(62.0), pieces(300.0)], [2, 2, 3, 5]);
    }
}
