//! Takes orders, and works on the last of them piece by piece.

use std::sync::Arc;

use catalogue::Catalogue;
use project::Project;

use crate::climates::{Climates, kept};
use crate::run::{Piece, Run};
use crate::words::{Climate, Order, Word};

/// How long one turn of work may be, ms: orders that came meanwhile are looked at in between.
const TURN: f64 = 8.0;
/// How long after the last news there is news again, ms.
const QUIET: f64 = 60.0;

/// Where orders arrive and words leave. It is told the time, as it has no clock.
pub struct Desk {
    catalogue: Arc<Catalogue>,
    climates: Climates,
    running: Option<Running>,
}

struct Running {
    number: u32,
    run: Run,
    told: f64,
}

impl Default for Desk {
    fn default() -> Self {
        Self { catalogue: Arc::new(catalogue::sample()), climates: Climates::default(), running: None }
    }
}

impl Desk {
    /// Takes an order; what is to be said at once.
    pub fn take(&mut self, order: Order, now: impl Fn() -> f64) -> Option<Word> {
        match order {
            Order::Catalogue(text) => {
                self.running = None;
                // The page has read the same text before it came here.
                let own = text.and_then(|text| catalogue::load(&[("catalogue", &text)]).ok());
                self.catalogue = Arc::new(own.unwrap_or_else(catalogue::sample));
                None
            }
            Order::Climate(kept) => {
                self.running = None;
                let problems = self.climates.take(kept.as_deref()).err()?;
                Some(Word::Unkept { problems })
            }
            Order::Stop => {
                self.running = None;
                None
            }
            Order::Run { number, project } => {
                self.running = None;
                match self.begin(&project) {
                    Ok(run) => {
                        self.running = Some(Running { number, run, told: now() });
                        None
                    }
                    Err(text) => Some(Word::Problem { number, text }),
                }
            }
            Order::Read { name, bytes } => Some(read(name, &bytes)),
            Order::Measure { project, times } => Some(self.measure(&project, times, now)),
        }
    }

    /// Whether there is work to go on with.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        self.running.is_some()
    }

    /// Works for a moment; what there is to say of it.
    pub fn work(&mut self, now: impl Fn() -> f64) -> Option<Word> {
        let running = self.running.as_mut()?;
        let (number, began) = (running.number, now());
        loop {
            match running.run.go_on() {
                Piece::Done(course) => {
                    self.running = None;
                    return Some(Word::Answer { number, course });
                }
                Piece::Failed(why) => {
                    self.running = None;
                    return Some(Word::Problem { number, text: no_year(&why) });
                }
                Piece::More(share) => {
                    let time = now();
                    if time - began < TURN {
                        continue;
                    }
                    if time - running.told < QUIET {
                        return None;
                    }
                    running.told = time;
                    return Some(Word::Progress { number, share });
                }
            }
        }
    }

    fn begin(&mut self, project: &str) -> Result<Run, String> {
        let project = opened(project)?;
        let climate = self.climates.prepared(&project.brief).map_err(|why| no_year(&why))?;
        Ok(Run::new(project, Arc::clone(&self.catalogue), climate))
    }

    /// Runs a project so many times, alone, each with its climate made anew.
    fn measure(&mut self, project: &str, times: u32, now: impl Fn() -> f64) -> Word {
        let (mut rooms, mut preparing, mut days, mut running) = (0, Vec::new(), Vec::new(), Vec::new());
        for _ in 0..times {
            let Ok(project) = opened(project) else { break };
            self.climates.forget();
            let start = now();
            let Ok(climate) = self.climates.prepared(&project.brief) else { break };
            let prepared = now();
            let mut run = Run::new(project, Arc::clone(&self.catalogue), climate);
            // The case is made in the first piece, the days and what follows from them are the second; the rest is the year.
            let (Piece::More(_), Piece::More(_)) = (run.go_on(), run.go_on()) else { break };
            let begun = now();
            let course = loop {
                match run.go_on() {
                    Piece::More(_) => {}
                    Piece::Done(course) => break course,
                    Piece::Failed(_) => return Word::Measured { rooms, preparing, days, running },
                }
            };
            running.push(now() - begun);
            days.push(begun - prepared);
            preparing.push(prepared - start);
            rooms = u32::try_from(course.rooms.len()).unwrap_or_default();
        }
        Word::Measured { rooms, preparing, days, running }
    }
}

/// Why there is nothing, as a sentence.
fn no_year(why: &str) -> String {
    format!("There is no year to show: {why}.")
}

fn opened(project: &str) -> Result<Project, String> {
    project::from_json(project)
        .map_err(|problems| format!("The project was not understood: {}", in_words(&problems).join("; ")))
}

/// Reads a weather file.
fn read(file: String, bytes: &[u8]) -> Word {
    let year = match climate::read_epw(bytes) {
        Ok(year) => year,
        Err(problems) => return Word::NoClimate { file, problems: in_words(&problems) },
    };
    let site = &year.site;
    let place = format!(
        "{:.2}° {}, {:.2}° {}, {:.0} m above the sea",
        site.latitude.abs(),
        if site.latitude < 0.0 { "S" } else { "N" },
        site.longitude.abs(),
        if site.longitude < 0.0 { "W" } else { "E" },
        site.elevation.0
    );
    Word::Climate(Climate {
        file,
        name: year.name.clone(),
        place,
        notes: year.notes.iter().map(ToString::to_string).collect(),
        kept: kept(&year),
    })
}

fn in_words(problems: &[impl ToString]) -> Vec<String> {
    problems.iter().map(ToString::to_string).collect()
}

#[cfg(test)]
#[path = "desk_tests.rs"]
mod tests;
