//! What happens inside over the day and the year, as the page has it: asked of the worker, which does the long work.
//!
//! [`crate::editor::Editor::course`] is where it is read. **Invariant:** the page itself never runs a year, and never waits
//! for one.

mod asking;
mod climate;
mod drop;
mod line;
mod news;
mod state;

pub(crate) use asking::{begin, measured, take_catalogue};
pub(crate) use climate::{ClimateRow, Climates};
pub(crate) use news::CourseNews;
pub use state::CourseState;
pub(crate) use state::{Known, STOPPED};
