//! What the page knows of the course of the open project.

use std::sync::Arc;

use rules::course::Course;

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
            Self::None | Self::Problem(_) => None,
        }
    }

    /// The course of the project as it is; `None` while there is none.
    #[must_use]
    pub fn fresh(&self) -> Option<Arc<Course>> {
        match self {
            Self::Ready(course) => Some(Arc::clone(course)),
            Self::None | Self::Working { .. } | Self::Problem(_) => None,
        }
    }
}

/// Two courses are the same only when they are one; nobody compares thousands of figures.
impl PartialEq for CourseState {
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::None, Self::None) => true,
            (Self::Ready(one), Self::Ready(other)) => Arc::ptr_eq(one, other),
            (Self::Working { share, old }, Self::Working { share: other, old: others }) => {
                share == other && old.as_ref().map(Arc::as_ptr) == others.as_ref().map(Arc::as_ptr)
            }
            (Self::Problem(one), Self::Problem(other)) => one == other,
            _ => false,
        }
    }
}
