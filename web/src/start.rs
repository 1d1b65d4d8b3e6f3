//! What the page begins with: a link, what was kept on this machine, or the first sample.

use std::sync::Arc;

use catalogue::Catalogue;
use leptos::prelude::*;
use project::{FileProblem, Project, from_link};

use crate::later::Later;
use crate::measure;
use crate::project_menu::Told;
use crate::store;

/// What the page begins with.
pub(crate) struct Began {
    /// The project.
    pub(crate) project: Project,
    /// The catalogue.
    pub(crate) catalogue: Arc<Catalogue>,
    /// What could not be opened, and why.
    pub(crate) trouble: Option<Told>,
}

/// Whether the page begins with something that only the rest of the program can read: a catalogue of one's own, or the
/// project that is measured.
pub(crate) fn waits() -> bool {
    store::has_catalogue() || measure::is_asked()
}

/// Begins: a link's project, else what was kept here, else the first sample. What cannot be read is told and left alone.
pub(crate) fn begin(later: Option<&Later>) -> Began {
    let mut trouble = None;
    let catalogue = match later.and_then(store::kept_catalogue) {
        Some(Ok(catalogue)) => Arc::new(catalogue),
        Some(Err(problems)) => {
            let lines = problems.iter().map(ToString::to_string).collect();
            trouble = Some(Told::refused("The catalogue kept on this machine", lines));
            Arc::new(catalogue::sample())
        }
        None => Arc::new(catalogue::sample()),
    };
    if let Some(later) = later.filter(|_| measure::is_asked()) {
        return Began { project: (later.measured)(&catalogue), catalogue, trouble };
    }
    let fragment = window().location().hash().unwrap_or_default();
    let linked = fragment.strip_prefix('#').filter(|text| text.starts_with("p1."));
    if let Some(text) = linked {
        match from_link(text) {
            Ok(project) => return Began { project, catalogue, trouble },
            Err(problems) => trouble = Some(Told::refused("The project in the link", lines(&problems))),
        }
    }
    match store::kept_project() {
        Some(Ok(project)) => return Began { project, catalogue, trouble },
        Some(Err(problems)) => trouble = Some(Told::refused("The project kept on this machine", lines(&problems))),
        None => {}
    }
    let project = project::first_sample().unwrap_or_else(|| project::new_project(&catalogue));
    Began { project, catalogue, trouble }
}

pub(crate) fn lines(problems: &[FileProblem]) -> Vec<String> {
    problems.iter().map(ToString::to_string).collect()
}

/// Takes down what stood on the sheet before the program had arrived.
pub(crate) fn take_down_placeholder() {
    if let Some(placeholder) = document().get_element_by_id("before") {
        placeholder.remove();
    }
}
