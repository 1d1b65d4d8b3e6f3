//! Problems and notes while a file is read; the same problem in many lines is told once, with its lines.

use crate::{Note, WeatherProblem};

/// So many stretches of lines are named; the others are counted.
const MOST_STRETCHES: usize = 4;

/// What has been told so far.
#[derive(Default)]
pub(super) struct Told {
    problems: Vec<WeatherProblem>,
    in_lines: Vec<InLines>,
    notes: Vec<Note>,
}

/// One problem in many lines.
struct InLines {
    what: &'static str,
    lines: Vec<usize>,
    first_found: String,
    allowed: String,
}

impl Told {
    pub(super) fn problem(&mut self, problem: WeatherProblem) {
        self.problems.push(problem);
    }

    /// A problem of a sort that may be in many lines; what is found is worded for the first only.
    pub(super) fn in_line(
        &mut self,
        line: usize,
        what: &'static str,
        found: impl FnOnce() -> String,
        allowed: impl FnOnce() -> String,
    ) {
        if let Some(known) = self.in_lines.iter_mut().find(|known| known.what == what) {
            known.lines.push(line);
        } else {
            self.in_lines.push(InLines { what, lines: vec![line], first_found: found(), allowed: allowed() });
        }
    }

    pub(super) fn note(&mut self, note: Note) {
        self.notes.push(note);
    }

    pub(super) fn has_problems(&self) -> bool {
        !self.problems.is_empty() || !self.in_lines.is_empty()
    }

    /// All problems, those of the header first, and all notes.
    pub(super) fn into_parts(self) -> (Vec<WeatherProblem>, Vec<Note>) {
        let mut problems = self.problems;
        problems.extend(self.in_lines.into_iter().map(|InLines { what, lines, first_found, allowed }| {
            let found = if lines.len() > 1 { format!("{first_found} in the first of them") } else { first_found };
            WeatherProblem::new(format!("{}, {what}", lines_in_words(&lines)), found, allowed)
        }));
        (problems, self.notes)
    }
}

/// Line numbers in words: `lines 12 to 15, 20 and 9 more`.
pub(super) fn lines_in_words(lines: &[usize]) -> String {
    let mut sorted = lines.to_vec();
    sorted.sort_unstable();
    sorted.dedup();
    let stretches: Vec<&[usize]> = sorted.chunk_by(|line, next| line + 1 == *next).collect();
    let shown = stretches.get(..MOST_STRETCHES).unwrap_or(&stretches);
    let mut words: Vec<String> = shown
        .iter()
        .filter_map(|stretch| {
            let (first, last) = (stretch.first()?, stretch.last()?);
            Some(if first == last { first.to_string() } else { format!("{first} to {last}") })
        })
        .collect();
    let more = sorted.len() - shown.iter().map(|stretch| stretch.len()).sum::<usize>();
    if more > 0 {
        words.push(format!("{more} more"));
    }
    let plural = if sorted.len() == 1 { "line" } else { "lines" };
    match words.split_last() {
        Some((last, [])) => format!("{plural} {last}"),
        Some((last, rest)) => format!("{plural} {} and {last}", rest.join(", ")),
        None => "no line".to_owned(),
    }
}

/// A text of the file as it is shown in a problem: in quotes, escaped, never long.
pub(super) fn quoted(text: &str) -> String {
    const LONGEST: usize = 60;
    let cut: String = text.chars().take(LONGEST).collect();
    let dots = if cut.len() < text.len() { "…" } else { "" };
    format!("\"{}{dots}\"", cut.escape_debug())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stretches_of_lines_are_put_together() {
        assert_eq!(lines_in_words(&[7]), "line 7");
        assert_eq!(lines_in_words(&[9, 7, 8, 12, 7]), "lines 7 to 9 and 12");
        assert_eq!(lines_in_words(&[1, 3, 5, 7, 9, 10]), "lines 1, 3, 5, 7 and 2 more");
    }

    #[test]
    fn the_same_problem_in_many_lines_is_one() {
        let mut told = Told::default();
        for line in [20, 12, 21] {
            told.in_line(line, "dry bulb", || format!("{line} K"), || "less".to_owned());
        }
        let (problems, _) = told.into_parts();
        assert_eq!(problems.len(), 1);
        let said = problems[0].to_string();
        assert_eq!(said, "lines 12 and 20 to 21, dry bulb: found 20 K in the first of them; allowed: less");
    }
}
