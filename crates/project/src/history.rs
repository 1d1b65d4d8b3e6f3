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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::start;

    fn named(name: &str) -> Project {
        Project { name: name.to_owned(), ..start().0 }
    }

    #[test]
    fn an_edit_that_changes_nothing_leaves_no_step() {
        let mut history = History::default();
        assert!(!history.record(named("a"), &named("a")));
        assert!(!history.can_undo());
        assert!(history.record(named("a"), &named("b")));
        assert_eq!(history.undo(&named("b")), Some(named("a")));
        assert!(!history.record(named("a"), &named("a")));
        assert_eq!(history.redo(&named("a")), Some(named("b")), "nothing happened, so there is still a step forward");
    }

    #[test]
    fn a_gesture_is_one_step() {
        let mut history = History::default();
        history.begin(&named("a"));
        assert!(history.record(named("a"), &named("b")));
        assert!(history.record(named("b"), &named("c")));
        history.end(&named("c"));
        assert_eq!(history.undo(&named("c")), Some(named("a")));
        assert!(!history.can_undo());
    }

    #[test]
    fn a_gesture_that_is_given_up_or_comes_back_leaves_no_step() {
        let mut history = History::default();
        history.begin(&named("a"));
        assert_eq!(history.abort(), Some(named("a")));
        history.begin(&named("a"));
        history.end(&named("a"));
        assert!(!history.can_undo());
    }

    #[test]
    fn a_new_edit_after_undo_ends_the_way_forward() {
        let mut history = History::default();
        history.record(named("a"), &named("b"));
        history.undo(&named("b"));
        history.record(named("a"), &named("c"));
        assert!(!history.can_redo());
    }

    #[test]
    fn only_so_many_steps_are_kept() {
        let mut history = History::default();
        let project = |step: usize| named(&step.to_string());
        for step in 0..History::LIMIT + 10 {
            history.record(project(step), &project(step + 1));
        }
        let mut now = project(History::LIMIT + 10);
        let mut steps = 0;
        while let Some(before) = history.undo(&now) {
            now = before;
            steps += 1;
        }
        assert_eq!((steps, now), (History::LIMIT, project(10)));
    }
}
