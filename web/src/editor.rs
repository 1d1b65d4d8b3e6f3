//! The one writer: every change goes through [`Editor`], everything shown is derived from what it holds.

use std::sync::Arc;

use catalogue::Catalogue;
use geometry::{Model, Route};
use leptos::prelude::*;

use crate::course::{CourseState, Known};
use crate::later::{Arrival, Later};
use crate::lean::{Memo, RwSignal};
use project::{Edit, History, Project, Refusal, apply};
use rules::course::Course;
use rules::{Badge, Case, Finding, Report, Topic, report_on};
use units::System;

/// What is derived from a project and a catalogue, computed once for each edit.
#[derive(Clone)]
pub struct Derived {
    /// The solids; absent when the catalogue lacks a part the body needs.
    pub model: Option<Arc<Model>>,
    /// Every answer.
    pub report: Arc<Report>,
}

/// Each is of its own edit, and equals itself alone.
impl PartialEq for Derived {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.report, &other.report)
    }
}

impl Derived {
    /// Derives everything; supply and backup once the program that holds their checks is here.
    #[must_use]
    pub(crate) fn of(project: &Project, catalogue: &Catalogue, later: Option<&Later>) -> Self {
        let case = Case::new(project, catalogue);
        let mut report = report_on(&case);
        if let Some(later) = later {
            report = (later.wired)(report, &case);
        }
        Self { report: Arc::new(report), model: case.model.map(Arc::new) }
    }

    /// The same with the checks over time answered as well, whose code comes later than the first look.
    fn with_course(&self, later: &Later, project: &Project, catalogue: &Catalogue, course: &Course) -> Self {
        let case = Case::new(project, catalogue).with_course(Some(course));
        let report = (later.over_time)(Report::clone(&self.report), &case);
        Self { report: Arc::new(report), model: self.model.clone() }
    }

    /// The same with what the report before said of the year: shown, and marked, until the new course is there.
    fn with_old_year(&self, before: &Report) -> Self {
        let mut report = Report::clone(&self.report);
        let of_year = |finding: &&Finding| finding.topic == Topic::Year;
        let first = before.findings.iter().position(|finding| of_year(&finding)).unwrap_or_default();
        let shift = report.findings.len();
        report.findings.extend(before.findings.iter().filter(of_year).cloned());
        let badge = before.badges.iter().find(|badge| badge.topic == Topic::Year);
        report.badges.extend(badge.cloned().map(|badge| Badge { finding: shift + badge.finding - first, ..badge }));
        Self { report: Arc::new(report), model: self.model.clone() }
    }
}

/// The project, its history, and what follows from it. Copy it freely; it lives in the page's context.
#[derive(Clone, Copy)]
pub struct Editor {
    project: RwSignal<Arc<Project>>,
    catalogue: RwSignal<Arc<Catalogue>>,
    history: leptos::prelude::RwSignal<History>,
    refusal: RwSignal<Option<Refusal>>,
    units: RwSignal<System>,
    derived: Memo<Derived>,
    answered: Memo<Derived>,
    known: RwSignal<Known>,
    course: Memo<CourseState>,
    arrival: Arrival,
    /// Edits made before the program that carries them out had arrived.
    waiting: RwSignal<Vec<Edit>>,
}

impl Editor {
    /// An editor of this project. Refusals are told in the units that the user reads.
    #[must_use]
    pub fn new(project: Project, catalogue: Arc<Catalogue>, units: RwSignal<System>, arrival: Arrival) -> Self {
        let project = RwSignal::new(Arc::new(project));
        let catalogue = RwSignal::new(catalogue);
        let known = RwSignal::new(Known::default());
        let course = Memo::new(move |_| known.read().about(&project.read(), &catalogue.read()));
        let derived = Memo::new(move |_| Derived::of(&project.read(), &catalogue.read(), arrival.here()));
        let answered = Memo::new(move |before: Option<&Derived>| {
            let derived = derived.read();
            match (&*course.read(), before, arrival.here()) {
                (CourseState::Ready(course), _, Some(later)) => {
                    let (project, catalogue) = (project.read_untracked(), catalogue.read_untracked());
                    derived.with_course(later, &project, &catalogue, course)
                }
                (CourseState::Working { old: Some(_), .. }, Some(before), _) => derived.with_old_year(&before.report),
                _ => Derived::clone(&derived),
            }
        });
        Self {
            project,
            catalogue,
            history: leptos::prelude::RwSignal::new(History::default()),
            refusal: RwSignal::new(None),
            units,
            derived,
            answered,
            known,
            course,
            arrival,
            waiting: RwSignal::new(Vec::new()),
        }
    }

    /// The project; tracks it.
    #[must_use]
    pub fn project(&self) -> Arc<Project> {
        self.project.get()
    }

    /// The project as it is now, without tracking it.
    #[must_use]
    pub fn project_now(&self) -> Arc<Project> {
        self.project.get_untracked()
    }

    /// The catalogue; tracks it.
    #[must_use]
    pub fn catalogue(&self) -> Arc<Catalogue> {
        self.catalogue.get()
    }

    /// The catalogue as it is now, without tracking it.
    #[must_use]
    pub fn catalogue_now(&self) -> Arc<Catalogue> {
        self.catalogue.get_untracked()
    }

    /// Takes another catalogue.
    pub fn set_catalogue(&self, catalogue: Arc<Catalogue>) {
        self.catalogue.set(catalogue);
    }

    /// A part of the project as a memo, which wakes only those who read it.
    pub fn part<T: PartialEq + Send + Sync + 'static>(
        &self,
        pick: impl Fn(&Project) -> T + Send + Sync + 'static,
    ) -> Memo<T> {
        let project = self.project;
        Memo::new(move |_| pick(&project.read()))
    }

    /// The report, with the checks over time as soon as there is a course; tracks it.
    #[must_use]
    pub fn report(&self) -> Arc<Report> {
        self.answered.read().report.clone()
    }

    /// The solids; tracks them.
    #[must_use]
    pub fn model(&self) -> Option<Arc<Model>> {
        self.derived.read().model.clone()
    }

    /// The ways of the cables; tracks the project.
    pub(crate) fn wires(&self) -> Vec<Route> {
        let case_of = (self.project(), self.catalogue());
        let case = Case::new(&case_of.0, &case_of.1);
        case.network.ways(&case)
    }

    /// What is known of the course over day and year; tracks it.
    #[must_use]
    pub fn course(&self) -> CourseState {
        self.course.get()
    }

    /// What was heard of a course last, without tracking it.
    pub(crate) fn known_course(&self) -> Arc<Known> {
        self.known.read_untracked()
    }

    /// Takes what was heard of a course.
    pub(crate) fn set_course(&self, known: Known) {
        self.known.set(known);
    }

    /// Carries out one edit as one undo step. A refusal leaves everything as it was and is told by [`Self::refusal`].
    /// Answers whether it was taken. What is asked before the program that carries it out has arrived waits for it.
    pub fn apply(&self, edit: &Edit) -> bool {
        let Some(later) = self.arrival.here_now() else {
            self.wait(edit);
            return true;
        };
        let before = self.project.get_untracked();
        match self.carried_out(later, &before, edit) {
            Ok(after) => {
                self.refusal.set(None);
                if let Some(after) = after {
                    self.history.update(|history| history.before_edit(&before));
                    self.project.set(Arc::new(after));
                }
                true
            }
            Err(refusal) => {
                self.refusal.set(Some(refusal));
                false
            }
        }
    }

    /// The project after an edit; none when the edit changes nothing.
    fn carried_out(&self, later: &Later, before: &Project, edit: &Edit) -> Result<Option<Project>, Refusal> {
        let mut after = before.clone();
        (later.apply)(&mut after, edit, &self.catalogue.read_untracked())?;
        Ok((after != *before).then_some(after))
    }

    fn wait(&self, edit: &Edit) {
        self.arrival.ask();
        self.waiting.update(|waiting| {
            // Of a drag only the last place counts.
            if let (Some(Edit::MoveDevice { device: before, .. }), Edit::MoveDevice { device, .. }) =
                (waiting.last(), edit)
                && before == device
            {
                waiting.pop();
            }
            waiting.push(edit.clone());
        });
    }

    /// Carries out what was asked before that could be done.
    pub fn catch_up(&self) {
        let waiting = self.waiting.get_untracked();
        self.waiting.set(Vec::new());
        for edit in &waiting {
            self.apply(edit);
        }
    }

    /// Carries out one edit, and tells in words why it was not taken.
    ///
    /// # Errors
    /// The refusal in words.
    pub fn try_apply(&self, edit: &Edit) -> Result<(), String> {
        if self.apply(edit) {
            return Ok(());
        }
        // Told where it was asked, so not told again for the whole sheet.
        let refusal = self.refusal.get_untracked();
        self.refusal.set(None);
        Err(refusal.map(|refusal| refusal.show(self.units.get_untracked())).unwrap_or_default())
    }

    /// Goes through all that an edit sets off, on a copy and with a history of its own: nothing changes, nobody is told.
    pub(crate) fn rehearse(&self, edit: &Edit, history: &mut History) {
        let Some(later) = self.arrival.here_now() else { return };
        let before = self.project_now();
        if let Ok(Some(after)) = self.carried_out(later, &before, edit) {
            history.before_edit(&before);
            drop(Derived::of(&after, &self.catalogue_now(), Some(later)));
        }
    }

    /// What an edit would lead to, without carrying it out; `None` when it would be refused.
    #[must_use]
    pub fn tried(&self, edit: &Edit) -> Option<Derived> {
        let mut after = (*self.project.get_untracked()).clone();
        let catalogue = self.catalogue.get_untracked();
        apply(&mut after, edit, &catalogue).ok()?;
        Some(Derived::of(&after, &catalogue, self.arrival.here_now()))
    }

    /// Begins a gesture: all edits until [`Self::end`] are one undo step.
    pub fn begin(&self) {
        let project = self.project.get_untracked();
        self.history.update(|history| history.begin(&project));
    }

    /// Ends a gesture.
    pub fn end(&self) {
        let project = self.project.get_untracked();
        self.history.update(|history| history.end(&project));
    }

    /// Gives up a gesture: everything as it was before it.
    pub fn abort(&self) {
        if let Some(before) = self.history.try_update(History::abort).flatten() {
            self.project.set(Arc::new(before));
        }
    }

    /// One step back.
    pub fn undo(&self) {
        let now = self.project.get_untracked();
        if let Some(before) = self.history.try_update(|history| history.undo(&now)).flatten() {
            self.refusal.set(None);
            self.project.set(Arc::new(before));
        }
    }

    /// One step forward.
    pub fn redo(&self) {
        let now = self.project.get_untracked();
        if let Some(after) = self.history.try_update(|history| history.redo(&now)).flatten() {
            self.refusal.set(None);
            self.project.set(Arc::new(after));
        }
    }

    /// Whether there is a step back; tracks it.
    #[must_use]
    pub fn can_undo(&self) -> bool {
        self.history.read().can_undo()
    }

    /// Whether there is a step forward; tracks it.
    #[must_use]
    pub fn can_redo(&self) -> bool {
        self.history.read().can_redo()
    }

    /// Why the last edit was not taken, in words; tracks it.
    #[must_use]
    pub fn refusal(&self) -> Option<String> {
        self.refusal.get().map(|refusal| format!("{}. {}", refusal.what, refusal.show(self.units.get())))
    }

    /// Puts the last refusal away.
    pub fn put_refusal_away(&self) {
        self.refusal.set(None);
    }
}

/// The page's editor, from the context.
#[must_use]
pub fn use_editor() -> Editor {
    expect_context()
}
