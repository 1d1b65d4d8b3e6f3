//! What a shop needs to wire a cabinet: schedules, wire list, alarm terminals and ground-bar places.

mod json;
mod text;

use catalogue::Catalogue;
use project::Project;
use rules::Case;

/// A project with its circuits.
pub struct Schedule<'a> {
    case: Case<'a>,
}

impl<'a> Schedule<'a> {
    /// Derives the circuits of a project.
    #[must_use]
    pub fn new(project: &'a Project, catalogue: &'a Catalogue) -> Self {
        Self { case: Case::new(project, catalogue) }
    }

    /// Whether everything is fed, placed, protected and has conductors.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        let all = self.case.circuits();
        let sized = |circuit: &rules::power::circuits::Circuit| !circuit.is_wired() || circuit.wire.is_some();
        self.case.unknown_parts.is_empty()
            && self.case.network.troubles.is_empty()
            && all.circuits.iter().all(sized)
            && all.panels.iter().all(|panel| panel.conflicts.is_empty() && panel.without_place(all).next().is_none())
    }
}
