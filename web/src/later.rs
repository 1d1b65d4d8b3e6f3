//! What the page needs only after its first look, as one table of functions. The page is built as two programs, and this
//! table is where the second begins: it is asked for as soon as the first look is painted.
//!
//! **Invariant:** the first look names nothing that stands in this table, or it would be loaded with the first look.

use std::time::Duration;

use catalogue::{Catalogue, Problem};
use leptos::prelude::*;
use project::{Edit, Project, Refusal};
use rules::{Case, Report};

use crate::asked::EverythingAsked;
use crate::bench::{Bench, Beside};
use crate::build_list::BuildList;
use crate::charts::{self, Earth};
use crate::course::CourseNews;
use crate::devices::DeviceList;
use crate::editor::Editor;
use crate::elevations::Empty;
use crate::entry::EntryLine;
use crate::lean::{RwSignal, view};
use crate::live::LiveRegion;
use crate::parts::{Choosing, QuantityFieldProps, TextFieldProps};
use crate::project_menu::{Told, ToldView};
use crate::view_state::ViewState;

/// Everything that comes later.
pub(crate) struct Later {
    /// The list of devices.
    pub(crate) devices: fn() -> AnyView,
    /// Everything asked.
    pub(crate) asked: fn() -> AnyView,
    /// The whole build.
    pub(crate) build: fn() -> AnyView,
    /// What lies under the drawings: the bench and the entry line.
    pub(crate) under: fn() -> AnyView,
    /// The live region.
    pub(crate) live: fn() -> AnyView,
    /// A link that carries the project.
    pub(crate) share: fn() -> AnyView,
    /// What can be done with the project as a whole; called with how the menu is closed.
    pub(crate) menu: fn(Callback<()>) -> AnyView,
    /// What could not be opened or kept; called with how it is put away.
    pub(crate) told: fn(Told, Callback<()>) -> AnyView,
    /// A field for a quantity.
    pub(crate) quantity: fn(QuantityFieldProps) -> AnyView,
    /// A field for words.
    pub(crate) text: fn(TextFieldProps) -> AnyView,
    /// A list of options, each judged.
    pub(crate) choice: fn(Choosing) -> AnyView,
    /// What stands in an empty cabinet.
    pub(crate) empty: fn() -> AnyView,
    /// Answers the checks of supply and backup as well.
    pub(crate) wired: fn(Report, &Case) -> Report,
    /// Answers the checks over time as well.
    pub(crate) over_time: fn(Report, &Case) -> Report,
    /// Carries out an edit, or refuses it.
    pub(crate) apply: fn(&mut Project, &Edit, &Catalogue) -> Result<(), Refusal>,
    /// Reads a catalogue of one's own, given as the name of a file and its text.
    pub(crate) load: fn(&str, &str) -> Result<Catalogue, Vec<Problem>>,
    /// The project that is measured.
    pub(crate) measured: fn(&Catalogue) -> Project,
    /// What is said of the course over time while there is none.
    pub(crate) news: fn() -> AnyView,
    /// Begins to keep what is done, or to measure it; and to ask the worker.
    pub(crate) attend: fn(Editor, ViewState, RwSignal<Option<Told>>),
}

static LATER: Later = Later {
    devices: || view! { <DeviceList /> },
    asked: || view! { <EverythingAsked /> },
    build: || view! { <BuildList /> },
    under,
    live: || view! { <LiveRegion /> },
    share: crate::project_menu::share,
    menu: crate::project_menu::menu,
    told: |told, on_close| view! { <ToldView told on_close /> },
    quantity: crate::parts::quantity_field,
    text: crate::parts::text_field,
    choice: crate::parts::choose,
    empty: || view! { <Empty /> },
    wired: Report::wired,
    over_time: Report::over_time,
    apply: project::apply,
    load: |name, text| catalogue::load(&[(name, text)]),
    measured: crate::measure::project,
    news: || view! { <CourseNews /> },
    attend,
};

fn attend(editor: Editor, view_state: ViewState, trouble: RwSignal<Option<Told>>) {
    crate::styles::adopt();
    crate::warm::up(editor);
    crate::course::begin(editor);
    if crate::measure::is_asked() {
        crate::measure::offer(editor);
    } else {
        crate::store::keep(editor, view_state, trouble);
    }
}

fn under() -> AnyView {
    let (course, instead) = (charts::course_drawn(), charts::instead());
    view! {
        <Earth course=course instead />
        <Bench><Beside /></Bench>
        <EntryLine />
    }
}

#[cfg(feature = "split")]
mod table {
    use super::{LATER, Later};
    use wasm_split_helpers::{SplitLoaderError, wasm_split};

    /// The table, once the program that holds it has arrived.
    #[wasm_split(later, fallible)]
    pub(super) fn table() -> Result<&'static Later, SplitLoaderError> {
        Ok(&LATER)
    }
}

#[cfg(not(feature = "split"))]
mod table {
    use super::{LATER, Later};

    /// The table, which is always here when the page is one program.
    pub(super) async fn table() -> Result<&'static Later, std::convert::Infallible> {
        Ok(&LATER)
    }
}

/// How long the first look is waited for before the rest is asked for all the same.
const UNPAINTED: Duration = Duration::from_secs(1);

/// How far the rest has come.
#[derive(Clone, Copy)]
enum State {
    /// Not asked for yet.
    Unasked,
    /// On its way.
    Awaited,
    /// Here.
    Here(&'static Later),
    /// It did not arrive.
    Missing,
}

/// The arrival of the rest.
#[derive(Clone, Copy)]
pub(crate) struct Arrival(RwSignal<State>);

/// The arrival of the rest, from the context.
pub(crate) fn use_arrival() -> Arrival {
    expect_context()
}

impl Arrival {
    pub(crate) fn new() -> Self {
        Self(RwSignal::new(State::Unasked))
    }

    /// The rest, if it is here; tracks its arrival.
    pub(crate) fn here(self) -> Option<&'static Later> {
        match self.0.get() {
            State::Here(later) => Some(later),
            _ => None,
        }
    }

    /// The rest, if it is here, without tracking its arrival.
    pub(crate) fn here_now(self) -> Option<&'static Later> {
        match self.0.get_untracked() {
            State::Here(later) => Some(later),
            _ => None,
        }
    }

    /// Asks for the rest as soon as the first look has been painted, and marks that moment for `cargo xtask bench`.
    pub(crate) fn ask_when_painted(self) {
        request_animation_frame(move || {
            request_animation_frame(move || {
                // Without the mark only the bench misses a row.
                let _ = window().performance().map(|performance| performance.mark("baywright:visible"));
                self.ask();
            });
        });
        // A page that is not shown is not painted either, and yet wants to be whole before the network goes.
        set_timeout(move || self.ask(), UNPAINTED);
    }

    /// Asks for the rest, unless it is here or on its way.
    pub(crate) fn ask(self) {
        if matches!(self.0.get_untracked(), State::Here(_) | State::Awaited) {
            return;
        }
        self.0.set(State::Awaited);
        leptos::task::spawn_local(async move {
            self.0.set(table::table().await.map_or(State::Missing, State::Here));
        });
    }

    /// Something of the rest, asked for now; until it is here, words that it comes, and when it did not, a way to ask
    /// again.
    pub(crate) fn show(self, pick: impl Fn(&'static Later) -> AnyView + Send + Sync + 'static) -> AnyView {
        self.ask();
        self.shown(Box::new(pick))
    }

    /// The same, without asking for it.
    pub(crate) fn show_when_here(self, pick: impl Fn(&'static Later) -> AnyView + Send + Sync + 'static) -> AnyView {
        self.shown(Box::new(pick))
    }

    fn shown(self, pick: Box<dyn Fn(&'static Later) -> AnyView + Send + Sync>) -> AnyView {
        view! {
            {move || match self.0.get() {
                State::Here(later) => pick(later),
                State::Unasked | State::Awaited => view! { <p class="coming">"A moment: this is still on its way."</p> },
                State::Missing => view! {
                    <p class="coming" role="alert">
                        "A part of the page did not arrive: the connection was lost while it loaded. What you see is still right. "
                        <button type="button" class="blank" on:click=move |_| self.ask()>"Try again"</button>
                    </p>
                },
            }}
        }
    }
}
