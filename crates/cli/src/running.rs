//! Runs a course, and tells how far it is on a terminal.

use std::io::{self, IsTerminal, Write};

use catalogue::Catalogue;
use climate::WeatherYear;
use project::Project;
use rules::Case;
use rules::course::{Course, PreparedClimate, Problem, Runner};

/// Hours of the year between two looks at how far it is.
const HOURS: usize = 438;

/// Runs a project through day and year.
///
/// # Errors
/// Why there is no course, in words.
pub(crate) fn course(
    project: &Project,
    catalogue: &Catalogue,
    weather: Option<&WeatherYear>,
) -> Result<Course, String> {
    let progress = Progress { shown: io::stderr().is_terminal() };
    let course = run(project, catalogue, weather, |share| progress.tell(share));
    progress.end();
    course.map_err(|problem| problem.to_string())
}

fn run(
    project: &Project,
    catalogue: &Catalogue,
    weather: Option<&WeatherYear>,
    tell: impl Fn(f64),
) -> Result<Course, Problem> {
    tell(0.0);
    let climate = PreparedClimate::of(&project.brief, weather)?;
    let case = Case::new(project, catalogue);
    let mut runner = Runner::new(&case, &climate)?;
    loop {
        let share = runner.advance(HOURS)?;
        tell(share);
        if share >= 1.0 {
            return runner.finish(&case);
        }
    }
}

/// One line on the terminal, written over and over, and taken away at the end.
struct Progress {
    shown: bool,
}

impl Progress {
    fn tell(&self, share: f64) {
        if self.shown {
            // Nobody can be told when that fails.
            let _ = write!(io::stderr(), "\rday and year: {:3.0} %", 100.0 * share);
        }
    }

    fn end(&self) {
        if self.shown {
            let _ = write!(io::stderr(), "\r{}\r", " ".repeat(24));
        }
    }
}
