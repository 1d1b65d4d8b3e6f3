//! What happens inside over the day and the year, as the page has it: asked of the worker, which does the long work.
//!
//! [`crate::editor::Editor::course`] is where it is read. **Invariant:** the page itself never runs a year.

mod state;

pub use state::CourseState;
