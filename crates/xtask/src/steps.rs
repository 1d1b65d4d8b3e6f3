//! A chore in steps: each is announced, all run even when one fails, and the end says plainly which did.

use crate::shell::seconds;
use anyhow::Result;
use std::time::{Duration, Instant};

/// The steps taken so far.
#[derive(Default)]
pub(crate) struct Steps {
    taken: Vec<Step>,
}

struct Step {
    name: &'static str,
    took: Duration,
    wrong: Option<String>,
}

impl Steps {
    /// Takes a step; what it returns, if it went well.
    pub(crate) fn step<T>(&mut self, name: &'static str, work: impl FnOnce() -> Result<T>) -> Option<T> {
        println!("\n== {name}");
        let start = Instant::now();
        let result = work();
        let wrong = result.as_ref().err().map(|error| format!("{error:#}"));
        if let Some(wrong) = &wrong {
            println!("   failed: {wrong}");
        }
        self.taken.push(Step { name, took: start.elapsed(), wrong });
        result.ok()
    }

    /// Prints one line a step; true when all went well.
    pub(crate) fn summary(&self) -> bool {
        println!("\n{}", self.lines());
        self.taken.iter().all(|step| step.wrong.is_none())
    }

    fn lines(&self) -> String {
        let mut lines = String::new();
        for Step { name, took, wrong } in &self.taken {
            let word = if wrong.is_none() { "ok    " } else { "FAILED" };
            lines += &format!("{word}  {name:<44} {:>12}\n", seconds(*took));
            if let Some(wrong) = wrong {
                lines += &format!("        {wrong}\n");
            }
        }
        let failed = self.taken.iter().filter(|step| step.wrong.is_some()).count();
        lines + &format!("steps: {} passed, {failed} failed", self.taken.len() - failed)
    }
}

#[cfg(test)]
mod tests {
    use super::Steps;

    #[test]
    fn goes_on_after_a_failure_and_names_it() {
        let mut steps = Steps::default();
        assert_eq!(steps.step("first", || Ok(1)), Some(1));
        assert_eq!(steps.step("second", || -> anyhow::Result<()> { anyhow::bail!("broken pipe") }), None);
        assert_eq!(steps.step("third", || Ok(3)), Some(3));
        assert!(!steps.summary());
        let lines = steps.lines();
        assert!(lines.contains("FAILED  second") && lines.contains("broken pipe"), "{lines}");
        assert!(lines.ends_with("steps: 2 passed, 1 failed"), "{lines}");
    }
}
