//! What the page knows of the course of the open project.

use std::sync::Arc;

use catalogue::Catalogue;
use project::Project;
use rules::course::Course;

/// What was heard last, and of which project.
#[derive(Clone, Default)]
pub(crate) struct Known {
    /// What it is about; `None` when it is true of whatever is open.
    pub(crate) of: Option<(Arc<Project>, Arc<Catalogue>)>,
    /// What was heard.
    pub(crate) state: CourseState,
}

impl Known {
    /// What it says of this project and catalogue: of any but its own, that they are being worked on.
    pub(crate) fn about(&self, project: &Arc<Project>, catalogue: &Arc<Catalogue>) -> CourseState {
        match &self.of {
            Some((own, with)) if !Arc::ptr_eq(own, project) || !Arc::ptr_eq(with, catalogue) => {
                CourseState::Working { share: 0.0, old: self.state.shown() }
            }
            _ => self.state.clone(),
        }
    }
}

/// What the page knows of the course of the open project.
#[derive(Clone, Debug, Default)]
pub enum CourseState {
    /// Nothing has been asked yet: the page has only just come up.
    #[default]
    None,
    /// The worker is at it.
    Working {
        /// How much is done, 0…1.
        share: f64,
        /// The course of the project as it was before, to be shown until the new one is there.
        old: Option<Arc<Course>>,
    },
    /// The course of the project as it is.
    Ready(Arc<Course>),
    /// The user stopped the worker at it.
    Stopped,
    /// There is none, and why, in words for the user.
    Problem(String),
}

impl CourseState {
    /// The course to show: of the project as it is, or while the worker is at it of the project as it was.
    #[must_use]
    pub fn shown(&self) -> Option<Arc<Course>> {
        match self {
            Self::Ready(course) => Some(Arc::clone(course)),
            Self::Working { old, .. } => old.clone(),
            Self::None | Self::Stopped | Self::Problem(_) => None,
        }
    }

    /// Whether the worker is at it.
    #[must_use]
    pub const fn is_working(&self) -> bool {
        matches!(self, Self::Working { .. })
    }
}

/// What is said once the user has stopped the worker.
pub(crate) const STOPPED: &str = "Stopped. Any change asks again.";

/// Two courses are the same only when they are one; nobody compares thousands of figures.
impl PartialEq for CourseState {
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::None, Self::None) | (Self::Stopped, Self::Stopped) => true,
            (Self::Ready(one), Self::Ready(other)) => Arc::ptr_eq(one, other),
            (Self::Working { share, old }, Self::Working { share: other, old: others }) => {
                share == other && old.as_ref().map(Arc::as_ptr) == others.as_ref().map(Arc::as_ptr)
            }
            (Self::Problem(one), Self::Problem(other)) => one == other,
            _ => false,
        }
    }
}
