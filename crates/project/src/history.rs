//! Undo by snapshot: one step for each edit, or for each gesture.

use crate::Project;

/// What can be undone and redone.
#[derive(Clone, Debug, Default)]
pub struct History {
    past: Vec<Project>,
    future: Vec<Project>,
    gesture: Option<Project>,
}

impl History {
    /// How many steps are kept.
    pub const LIMIT: usize = 200;

    /// Notes the state before an edit; inside a gesture only the state before the whole gesture counts.
    pub fn before_edit(&mut self, project: &Project) {
        if self.gesture.is_none() {
            self.push(project.clone());
        }
    }

    /// Notes an edit that was carried out: the state before it becomes a step back, unless nothing changed or a gesture
    /// is under way. Says whether the project changed.
    pub fn record(&mut self, before: Project, after: &Project) -> bool {
        let changed = before != *after;
        if changed && self.gesture.is_none() {
            self.push(before);
        }
        changed
    }

    /// Begins a gesture such as a drag: all edits until [`Self::end`] are one step.
    pub fn begin(&mut self, project: &Project) {
        if self.gesture.is_none() {
            self.gesture = Some(project.clone());
        }
    }

    /// Ends a gesture; one that changed nothing leaves no step.
    pub fn end(&mut self, project: &Project) {
        if let Some(before) = self.gesture.take()
            && before != *project
        {
            self.push(before);
        }
    }

    /// Gives up a gesture: the state before it.
    pub fn abort(&mut self) -> Option<Project> {
        self.gesture.take()
    }

    /// One step back from `now`.
    pub fn undo(&mut self, now: &Project) -> Option<Project> {
        let before = self.past.pop()?;
        self.future.push(now.clone());
        Some(before)
    }

    /// One step forward from `now`.
    pub fn redo(&mut self, now: &Project) -> Option<Project> {
        let after = self.future.pop()?;
        self.past.push(now.clone());
        Some(after)
    }

    /// Whether there is a step back.
    #[must_use]
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is a step forward.
    #[must_use]
    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    fn push(&mut self, before: Project) {
        self.past.push(before);
        if self.past.len() > Self::LIMIT {
            self.past.remove(0);
        }
        self.future.clear();
    }
}
