//! The axes of a chart: thin lines at round figures, and the figures beside them.

use leptos::prelude::*;
use units::{Kind, System, Value, show, unit_name};

use super::scale::{Scale, ticks};
use crate::lean::view;

/// Left of a plot of temperatures: the axis and its figures.
pub(crate) const LEFT: f64 = 34.0;
/// Above it.
pub(crate) const TOP: f64 = 10.0;
/// Below it: the figures of the foot.
pub(crate) const FOOT: f64 = 20.0;

/// The figure of a tick, thousands apart and with a minus that is one.
fn figure(tick: f64, units: System) -> String {
    show(Value::new(tick, Kind::Count), units).number
}

/// How many pieces an axis of such a height is divided into at most, so that its figures stand apart.
pub(crate) fn pieces(height: f64) -> usize {
    ((height / 20.0) as usize).clamp(2, 5)
}

/// Where figures are plotted upwards.
#[derive(Clone, Copy)]
pub(crate) struct Plot {
    /// Its lowest and highest figure, in the units shown.
    pub(crate) range: (f64, f64),
    /// Its left and right edge.
    pub(crate) across: (f64, f64),
    /// Its upper edge.
    pub(crate) top: f64,
    /// Its lower edge.
    pub(crate) base: f64,
}

impl Plot {
    /// From figures, in the units shown, to heights.
    pub(crate) fn up(&self) -> Scale {
        Scale::new(self.range, (self.base, self.top))
    }

    /// A line from edge to edge.
    pub(crate) fn level(&self, y: f64) -> String {
        let (left, right) = self.across;
        format!("M{left:.1} {y:.1}H{right:.1}")
    }

    /// A line at each round figure with that figure at its left, and under the plot a tick with its words at each of these
    /// places.
    pub(crate) fn grid(&self, foot: impl Iterator<Item = (f64, String)>, units: System) -> AnyView {
        let (left, base) = (self.across.0, self.base);
        let up = self.up();
        let levels = ticks(self.range, pieces(base - self.top)).into_iter().map(|tick| {
            let y = up.at(tick);
            view! {
                <path class="c-grid" d=self.level(y) />
                <text class="ax" x=left - 6.0 y=y + 4.8 text-anchor="end">{figure(tick, units)}</text>
            }
        });
        let ticks = foot.map(|(x, words)| {
            view! {
                <path class="c-tick" d=format!("M{x:.1} {base:.1}v5") />
                <text class="ax" x=x y=base + 18.0 text-anchor="middle">{words}</text>
            }
        });
        view! {
            {levels.collect_view()}
            {ticks.collect_view()}
        }
    }

    /// That the figures are degrees.
    pub(crate) fn degrees(&self, units: System) -> AnyView {
        let (x, y) = (self.across.0 + 5.0, self.top + 9.0);
        view! { <text class="ax" x=x y=y>{unit_name(Kind::Temperature, units)}</text> }
    }

    /// The left and the lower edge.
    pub(crate) fn axes(&self) -> AnyView {
        let (left, right) = self.across;
        view! { <path class="c-axis" d=format!("M{left:.1} {:.1}V{:.1}H{right:.1}", self.top, self.base) /> }
    }
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
