//! What Trunk left in its folder, taken apart. The forms read here are set in Trunk.toml.

use super::worker::Worker;
use anyhow::{Context, Result, bail, ensure};
use std::collections::BTreeMap;
use std::path::Path;

/// Stands in the document for the style sheets.
pub(crate) const STYLES: &str = "<!--styles-->";
/// Stands in the document for the loader.
pub(crate) const LOADER: &str = "<!--loader-->";
/// Stands in the document for what has to come before anything it governs.
pub(crate) const POLICY: &str = "<!--policy-->";

/// One page in its parts.
pub(crate) struct Parts {
    /// The document, with the three places above.
    pub(crate) document: String,
    /// All style sheets in their order.
    pub(crate) style: String,
    /// The JavaScript half of wasm-bindgen.
    pub(crate) glue: String,
    /// The program.
    pub(crate) wasm: Vec<u8>,
    /// The programs that are loaded later, by the name the glue asks for them.
    pub(crate) others: BTreeMap<String, Vec<u8>>,
    /// The module for the long work, of a page that has one.
    pub(crate) worker: Option<Worker>,
    /// All other files by their path, fonts and their licence among them.
    pub(crate) files: BTreeMap<String, Vec<u8>>,
}

/// Takes Trunk's output apart.
pub(crate) fn read(folder: &Path) -> Result<Parts> {
    let mut files = BTreeMap::new();
    collect(folder, folder, &mut files)?;
    let document = text(&mut files, "index.html")?;
    let (document, names) = take_apart(&document)?;
    let mut style = String::new();
    for name in &names.styles {
        style.push_str(&text(&mut files, name)?);
        style.push('\n');
    }
    let glue = text(&mut files, &names.glue)?;
    let wasm = files.remove(&names.wasm).with_context(|| format!("Trunk made no {}", names.wasm))?;
    Ok(Parts { document, style, glue, wasm, others: BTreeMap::new(), worker: None, files })
}

fn text(files: &mut BTreeMap<String, Vec<u8>>, name: &str) -> Result<String> {
    let bytes = files.remove(name).with_context(|| format!("Trunk made no {name}"))?;
    String::from_utf8(bytes).with_context(|| format!("{name} is not text"))
}

/// Reads every file below a folder; names with `/` on every system.
fn collect(top: &Path, folder: &Path, into: &mut BTreeMap<String, Vec<u8>>) -> Result<()> {
    for entry in std::fs::read_dir(folder).with_context(|| format!("{}", folder.display()))? {
        let path = entry?.path();
        if path.is_dir() {
            collect(top, &path, into)?;
        } else {
            let name: Vec<_> = path.strip_prefix(top)?.iter().map(|part| part.to_string_lossy().into_owned()).collect();
            into.insert(name.join("/"), std::fs::read(&path)?);
        }
    }
    Ok(())
}

/// The files that the document loads.
#[derive(Debug, Default, PartialEq)]
struct Names {
    styles: Vec<String>,
    glue: String,
    wasm: String,
}

/// Puts the three places into the document, where what they stand for was.
fn take_apart(document: &str) -> Result<(String, Names)> {
    let mut names = Names::default();
    let mut kept = String::new();
    let mut rest = document;
    while let Some(start) = rest.find("<link ") {
        let (before, from) = rest.split_at(start);
        let Some(end) = from.find('>') else { bail!("a <link> in index.html does not end") };
        let (tag, after) = from.split_at(end + 1);
        kept.push_str(before);
        match (attribute(tag, "rel"), attribute(tag, "href")) {
            (Some("stylesheet"), Some(name)) => {
                if names.styles.is_empty() {
                    kept.push_str(STYLES);
                }
                names.styles.push(local(name));
            }
            (Some("modulepreload" | "preload"), _) => {}
            _ => kept.push_str(tag),
        }
        rest = after;
    }
    kept.push_str(rest);

    let (before, loader) = kept.split_once("<script type=\"module\">").context("index.html has no loader script")?;
    let (loader, after) = loader.split_once("</script>").context("the loader script does not end")?;
    names.glue = local(between(loader, "from \"", "\"").context("the loader imports nothing")?);
    names.wasm = local(between(loader, "module_or_path: \"", "\"").context("the loader names no wasm")?);
    let document = format!("{before}{LOADER}{after}");
    ensure!(!document.contains("<script"), "index.html has a second script; the page's only one is its loader");
    ensure!(!document.contains(" style=\""), "index.html has a style attribute, which the page's policy forbids");

    const CHARSET: &str = "<meta charset=\"utf-8\">";
    let (before, after) = document.split_once(CHARSET).with_context(|| format!("index.html has no {CHARSET}"))?;
    Ok((format!("{before}{CHARSET}{POLICY}{after}"), names))
}

fn attribute<'a>(tag: &'a str, name: &str) -> Option<&'a str> {
    between(tag, &format!(" {name}=\""), "\"")
}

pub(crate) fn between<'a>(text: &'a str, start: &str, end: &str) -> Option<&'a str> {
    Some(text.split_once(start)?.1.split_once(end)?.0)
}

fn local(name: &str) -> String {
    name.strip_prefix("./").unwrap_or(name).to_owned()
}

/// The style with each address in a `url(…)` replaced; addresses that carry their own data are left alone.
pub(crate) fn with_addresses(style: &str, mut replace: impl FnMut(&str) -> Result<String>) -> Result<String> {
    let mut made = String::new();
    let mut rest = style;
    while let Some(start) = rest.find("url(") {
        let (before, from) = rest.split_at(start + "url(".len());
        made.push_str(before);
        let quote = from.chars().next().filter(|first| matches!(first, '"' | '\''));
        let inner = &from[quote.map_or(0, char::len_utf8)..];
        let Some(end) = inner.find(quote.unwrap_or(')')) else { bail!("a url( in the styles does not end") };
        let (address, after) = inner.split_at(end);
        let address = address.trim();
        let new = match address.starts_with("data:") || address.starts_with('#') {
            true => address.to_owned(),
            false => replace(&local(address))?,
        };
        let quote = quote.map(String::from).unwrap_or_default();
        made.push_str(&format!("{quote}{new}"));
        rest = after;
    }
    made.push_str(rest);
    Ok(made)
}

#[cfg(test)]
mod tests {
    use super::{LOADER, POLICY, STYLES, take_apart, with_addresses};

    const DOCUMENT: &str = r#"<head><meta charset="utf-8"><link rel="icon" href="data:,"><link rel="stylesheet" href="./a-1.css" />
<link rel="stylesheet" href="./b-2.css" /><script type="module">import init from "./w-3.js"; await init({ module_or_path: "./w-3_bg.wasm" });</script>
<link rel="modulepreload" href="./w-3.js"></head><body></body>"#;

    #[test]
    fn finds_styles_in_order_and_the_two_halves_of_the_program() {
        let (document, names) = take_apart(DOCUMENT).unwrap();
        assert_eq!(names.styles, ["a-1.css", "b-2.css"]);
        assert_eq!((names.glue.as_str(), names.wasm.as_str()), ("w-3.js", "w-3_bg.wasm"));
        let expected = format!(
            "<head><meta charset=\"utf-8\">{POLICY}<link rel=\"icon\" href=\"data:,\">{STYLES}\n{LOADER}\n</head><body></body>"
        );
        assert_eq!(document, expected);
    }

    #[test]
    fn refuses_a_second_script() {
        let more = DOCUMENT.replace("<body>", "<body><script>alert()</script>");
        assert!(take_apart(&more).is_err_and(|error| error.to_string().contains("second script")));
    }

    #[test]
    fn replaces_addresses_with_and_without_quotes_but_no_data() {
        let style = r##"a{src:url("fonts/x.woff2")} b{mask:url('data:image/svg+xml,<a href=")">')} c{fill:url(#d)} d{src:url( ./y.png )}"##;
        let made = with_addresses(style, |name| Ok(format!("<{name}>"))).unwrap();
        let expected = r##"a{src:url("<fonts/x.woff2>")} b{mask:url('data:image/svg+xml,<a href=")">')} c{fill:url(#d)} d{src:url(<y.png>)}"##;
        assert_eq!(made, expected);
    }
}
