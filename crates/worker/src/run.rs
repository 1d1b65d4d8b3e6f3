//! A run of one project through day and year, in pieces.

use std::cell::Cell;
use std::future::poll_fn;
use std::pin::Pin;
use std::rc::Rc;
use std::sync::Arc;
use std::task::{Context, Poll, Waker};

use catalogue::Catalogue;
use project::Project;
use rules::Case;
use rules::course::{Course, PreparedClimate, Problem, Runner};

/// Hours of the year in one piece of work, about a millisecond. The design days and what follows from them are one piece.
const HOURS: usize = 500;

/// What a piece of work left.
pub(crate) enum Piece {
    /// There is more to do; how much is done, 0…1.
    More(f64),
    /// All of it is done.
    Done(Box<Course>),
    /// It cannot be done, and why.
    Failed(String),
}

/// A run under way. A future, because what goes on piece by piece borrows what it goes on with: each time it is asked, it
/// works until it next lets go. It waits for nothing.
pub(crate) struct Run {
    work: Pin<Box<dyn Future<Output = Result<Course, Problem>>>>,
    done: Rc<Cell<f64>>,
}

impl Run {
    /// A run of a project; nothing is done yet.
    pub(crate) fn new(project: Project, catalogue: Arc<Catalogue>, climate: Rc<PreparedClimate>) -> Self {
        let done = Rc::new(Cell::new(0.0));
        let told = Rc::clone(&done);
        let work = Box::pin(async move {
            let case = Case::new(&project, &catalogue);
            let_go().await;
            let mut runner = Runner::new(&case, &climate)?;
            loop {
                let_go().await;
                let share = runner.advance(HOURS)?;
                told.set(share);
                if share >= 1.0 {
                    return runner.finish(&case);
                }
            }
        });
        Self { work, done }
    }

    /// Does one piece. Not to be asked again after the last.
    pub(crate) fn go_on(&mut self) -> Piece {
        match self.work.as_mut().poll(&mut Context::from_waker(Waker::noop())) {
            Poll::Pending => Piece::More(self.done.get()),
            Poll::Ready(Ok(course)) => Piece::Done(Box::new(course)),
            Poll::Ready(Err(problem)) => Piece::Failed(problem.to_string()),
        }
    }
}

/// Lets go once: the piece of work ends here, the next begins here.
async fn let_go() {
    let mut went = false;
    poll_fn(|_| if std::mem::replace(&mut went, true) { Poll::Ready(()) } else { Poll::Pending }).await;
}
