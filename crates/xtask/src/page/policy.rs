//! The page's Content-Security-Policy. Nothing is allowed that is not named:
//!
//! - `wasm-unsafe-eval` lets the browser compile wasm and nothing else; the only inline script is allowed by its hash.
//! - No inline styles, not even `style=` attributes: Leptos' `style:name=value` goes through the style object, which the
//!   policy does not govern, so nothing needs the exception. Drawings use presentation attributes.
//! - `data:` pictures are the hatchings in the style sheet; `blob:` is for files that the page itself makes.
//! - The hosted page's worker comes from its own server, that of the one file from a blob. A blob's policy is the page's, so
//!   the worker may compile its wasm and fetch nothing either; hashes do not apply to workers.
//! - The hosted page may fetch from its own server (its wasm); the one-file page may fetch nothing at all.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

/// The policy of the page as static files; `loader` is the one inline script.
pub(crate) fn hosted(loader: &str) -> String {
    format!(
        "default-src 'none'; script-src 'self' 'wasm-unsafe-eval' {}; style-src 'self'; img-src 'self' data: blob:; \
         font-src 'self'; connect-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'",
        hash(loader)
    )
}

/// The policy of the page as one file, which holds exactly this script and this style.
pub(crate) fn offline(script: &str, style: &str) -> String {
    format!(
        "default-src 'none'; script-src 'wasm-unsafe-eval' {}; style-src {}; img-src data: blob:; font-src data:; \
         connect-src 'none'; worker-src blob:; base-uri 'none'; form-action 'none'",
        hash(script),
        hash(style)
    )
}

/// The policy as the tag that has to come before everything it governs.
pub(crate) fn tag(policy: &str) -> String {
    format!("\n    <meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">")
}

fn hash(text: &str) -> String {
    format!("'sha256-{}'", STANDARD.encode(Sha256::digest(text)))
}

#[cfg(test)]
mod tests {
    #[test]
    fn hashes_as_the_standard_does() {
        // W3C, Content Security Policy Level 3, §8.4 gives this hash for `alert('Hello, world.');`.
        assert_eq!(super::hash("alert('Hello, world.');"), "'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='");
    }
}
