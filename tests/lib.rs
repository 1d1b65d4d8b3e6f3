//! What the tests share: the whole projects, the digest of a report, the published tables, and files that are
//! kept beside the tests.

pub mod projects;
pub mod published;

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use similar::{ChangeTag, TextDiff};

/// Set to 1 in the environment to write the kept files anew instead of comparing with them.
pub const BLESS: &str = "BAYWRIGHT_BLESS";

/// A file of the repository.
#[must_use]
pub fn path(of: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(of)
}

/// Compares a text with the file that is kept of it, or writes that file when [`BLESS`] is set.
///
/// # Errors
/// The lines that differ, and how to take them over.
pub fn kept(file: &str, fresh: &str) -> Result<(), String> {
    if std::env::var_os(BLESS).is_some_and(|set| set == "1") {
        return std::fs::write(path(file), fresh).map_err(|error| format!("{file}: {error}"));
    }
    let kept = std::fs::read_to_string(path(file)).unwrap_or_default();
    if kept == fresh {
        return Ok(());
    }
    Err(format!(
        "{file} is not what it was; if that is meant, run the test with {BLESS}=1\n{}",
        difference(&kept, fresh)
    ))
}

/// The lines that differ, each with two lines around it.
fn difference(kept: &str, fresh: &str) -> String {
    const AROUND: usize = 2;
    const MOST_LINES: usize = 80;
    let diff = TextDiff::from_lines(kept, fresh);
    let mut text = String::new();
    let changes =
        diff.grouped_ops(AROUND).into_iter().flatten().flat_map(|op| diff.iter_changes(&op).collect::<Vec<_>>());
    for change in changes.take(MOST_LINES) {
        let sign = match change.tag() {
            ChangeTag::Delete => '-',
            ChangeTag::Insert => '+',
            ChangeTag::Equal => ' ',
        };
        let _ = writeln!(text, "{sign} {}", change.value().trim_end_matches('\n'));
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_change_is_shown_with_its_surroundings() {
        let text = difference("a\nb\nc\nd\ne\n", "a\nb\nc\nD\ne\n");
        assert_eq!(text, "  b\n  c\n- d\n+ D\n  e\n");
    }

    #[test]
    fn a_file_that_is_not_there_is_a_change() {
        if std::env::var_os(BLESS).is_none() {
            assert!(kept("tests/projects/no-such-file.txt", "fresh\n").is_err_and(|said| said.contains("+ fresh")));
        }
    }
}
