//! What the year can show, and the word that chooses it.

use leptos::prelude::*;
use rules::course::{Course, Series};
use units::Kind;

use super::day::Kept;
use super::words::inside;
use crate::lean::{Memo, RwSignal, view};
use crate::parts::{Anchor, Sheetlet, anchor_of};

/// How far apart the steps of a temperature may be, K.
const APART: [f64; 3] = [2.0, 5.0, 10.0];

/// The steps of a temperature: round figures up to just below the limit, as close as the lowest figure allows, so that the
/// warmest wash is always near the limit. Without a limit they end at the highest figure.
fn steps_of((lowest, highest): (f64, f64), limit: Option<f64>) -> [f64; 5] {
    let top = limit.unwrap_or(highest);
    let apart = APART.into_iter().find(|apart| top - 6.0 * apart <= lowest).unwrap_or(10.0);
    let last = (libm::ceil(top / apart - 1e-9) - 1.0) * apart;
    std::array::from_fn(|step| last - apart * (4 - step) as f64)
}

/// The same of sunlight, W/m².
const SUN_STEPS: [f64; 5] = [50.0, 250.0, 500.0, 750.0, 1000.0];
/// The same of a share of time.
const DUTY_STEPS: [f64; 5] = [0.01, 0.25, 0.5, 0.75, 0.99];
/// What the map shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Layer {
    /// Inside air of a room.
    Inside(usize),
    /// Outdoor air.
    Outside,
    /// Sun on level ground.
    Sun,
    /// What a unit does.
    Duty(usize),
}

impl Layer {
    /// Its figures through the year.
    pub(super) fn series(self, course: &Course) -> Option<&Series> {
        match self {
            Self::Inside(room) => course.year.air.get(room),
            Self::Outside => Some(&course.year.outside),
            Self::Sun => Some(&course.year.sun),
            Self::Duty(unit) => course.year.duty.get(unit),
        }
    }

    /// The limit they are held against.
    pub(super) fn limit(self, course: &Course) -> Option<f64> {
        match self {
            Self::Inside(room) => course.rooms.get(room)?.hot_limit,
            _ => None,
        }
    }

    /// The steps of its scale.
    pub(super) fn steps(self, course: &Course) -> [f64; 5] {
        match self {
            Self::Inside(_) | Self::Outside => {
                steps_of(self.series(course).and_then(Series::range).unwrap_or_default(), self.limit(course))
            }
            Self::Sun => SUN_STEPS,
            Self::Duty(_) => DUTY_STEPS,
        }
    }

    /// What its figures are.
    pub(super) const fn kind(self) -> Kind {
        match self {
            Self::Inside(_) | Self::Outside => Kind::Temperature,
            Self::Sun => Kind::HeatFlux,
            Self::Duty(_) => Kind::Share,
        }
    }

    /// What it is called.
    pub(super) fn name(self, course: &Course) -> String {
        match self {
            Self::Inside(room) => inside(course, room),
            Self::Outside => "outside".to_owned(),
            Self::Sun => "sun".to_owned(),
            Self::Duty(unit) => course.units.get(unit).map_or_else(String::new, |unit| unit.name.clone()),
        }
    }

    /// All that a course has.
    pub(super) fn all(course: &Course) -> Vec<Self> {
        let rooms = (0..course.rooms.len()).map(Self::Inside);
        rooms.chain([Self::Outside, Self::Sun]).chain((0..course.units.len()).map(Self::Duty)).collect()
    }
}

/// The word of what the map shows, which opens the list of all it can show.
#[component]
pub(super) fn LayerBlank(
    /// What was reckoned.
    course: Memo<Kept>,
    /// What is to be shown.
    layer: RwSignal<Layer>,
    /// What is shown.
    now: Memo<Layer>,
) -> impl IntoView {
    let open = RwSignal::new(None::<Anchor>);
    let name = move || {
        course.with(|kept| kept.0.as_ref().map_or_else(|| "inside".to_owned(), |course| now.get().name(course)))
    };
    let list = move || {
        course.with(|kept| {
            let course = kept.0.as_ref()?;
            let options = Layer::all(course).into_iter().map(|each| {
                let choose = move |_| {
                    layer.set(each);
                    open.set(None);
                };
                let fitted = untrack(|| now.get()) == each;
                view! {
                    <li>
                        <button type="button" class="option option--plain" aria-pressed=fitted.to_string() autofocus=fitted on:click=choose>
                            <span class="option__name">{each.name(course)}</span>
                        </button>
                    </li>
                }
            });
            Some(options.collect_view())
        })
    };
    view! {
        <button
            type="button"
            class="blank"
            aria-haspopup="dialog"
            aria-label=move || format!("Shown through the year: {}. Change", name())
            on:click=move |event| open.set(Some(anchor_of(&event)))
        >
            {move || name()}
        </button>
        <Sheetlet open label="Shown through the year">
            <p class="sheetlet__head">"Shown through the year"</p>
            <ul class="options" aria-label="Shown through the year">{move || list()}</ul>
        </Sheetlet>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(range: (f64, f64), limit: Option<f64>, steps: [f64; 5]) {
        assert_eq!(steps_of(range, limit), steps);
    }

    #[test]
    fn the_steps_end_below_the_limit_and_begin_near_the_lowest_figure() {
        check((29.9, 36.0), Some(40.0), [30.0, 32.0, 34.0, 36.0, 38.0]);
        check((18.0, 44.0), Some(45.0), [20.0, 25.0, 30.0, 35.0, 40.0]);
        check((2.0, 61.0), Some(55.0), [10.0, 20.0, 30.0, 40.0, 50.0]);
        check((-30.0, 61.0), Some(55.0), [10.0, 20.0, 30.0, 40.0, 50.0]);
    }

    #[test]
    fn without_a_limit_they_end_at_the_highest_figure() {
        check((-5.0, 41.0), None, [0.0, 10.0, 20.0, 30.0, 40.0]);
    }
}
