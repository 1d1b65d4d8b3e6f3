//! A project packed into the fragment of a link: nothing but the reader's own browser ever sees it.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use miniz_oxide::deflate::compress_to_vec;
use miniz_oxide::inflate::{TINFLStatus, decompress_to_vec_with_limit};

use super::{FileProblem, MOST_BYTES, compact, from_json};
use crate::Project;

/// Deflate, then base64url. The figure is the version of the packing, not of what is packed.
const PREFIX: &str = "p1.";
/// Best packing: links are sent by mail and chat, and packing takes a few milliseconds at most.
const EFFORT: u8 = 9;

/// The project packed into the fragment of a link.
#[must_use]
pub fn to_link(project: &Project) -> String {
    let mut link = PREFIX.to_owned();
    URL_SAFE_NO_PAD.encode_string(compress_to_vec(&compact(project), EFFORT), &mut link);
    link
}

/// Reads the fragment of a link.
///
/// # Errors
/// As [`from_json`], and when the packing is damaged.
pub fn from_link(fragment: &str) -> Result<Project, Vec<FileProblem>> {
    let text = unpacked(fragment).map_err(|problem| vec![problem])?;
    from_json(&text)
}

fn unpacked(fragment: &str) -> Result<String, FileProblem> {
    let problem = |found: &str, allowed: &str| FileProblem::new("the link", found, allowed);
    let fragment = fragment.trim().trim_start_matches('#');
    if fragment.len() > MOST_BYTES {
        return Err(problem(&format!("{} characters", fragment.len()), &format!("at most {MOST_BYTES} characters")));
    }
    let Some(packed) = fragment.strip_prefix(PREFIX) else {
        let newer = fragment
            .strip_prefix('p')
            .and_then(|rest| rest.split_once('.'))
            .is_some_and(|(version, _)| version.parse::<u32>().is_ok_and(|version| version > 1));
        let found = if newer {
            "a packing of a newer Baywright; this one reads links that begin with “p1.”"
        } else {
            "no project in it"
        };
        return Err(problem(found, "a link made by Baywright"));
    };
    let bytes = URL_SAFE_NO_PAD
        .decode(packed)
        .map_err(|_| problem("letters that no link has, or a part missing", "the whole link as it was made"))?;
    let inflated = decompress_to_vec_with_limit(&bytes, MOST_BYTES).map_err(|error| {
        if error.status == TINFLStatus::HasMoreOutput {
            problem("more than a project", &format!("at most {MOST_BYTES} bytes"))
        } else {
            problem("a damaged or cut link", "the whole link as it was made")
        }
    })?;
    String::from_utf8(inflated).map_err(|_| problem("a damaged link", "the whole link as it was made"))
}
