//! The page as one file, opened from a stick: everything inside, no request of any kind.

use super::parts::{LOADER, POLICY, Parts, STYLES, with_addresses};
use super::split::OTHER;
use super::{policy, worker};
use anyhow::{Context, Result, bail, ensure};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use flate2::Compression;
use flate2::write::GzEncoder;
use std::io::Write;

/// Puts the page into one file.
pub(crate) fn assemble(parts: &Parts) -> Result<String> {
    let style = with_addresses(&parts.style, |name| {
        let bytes = parts.files.get(name).with_context(|| format!("the styles name {name}, which is not there"))?;
        Ok(format!("data:{};base64,{}", crate::serve::media_type(name), STANDARD.encode(bytes)))
    })?;
    ensure!(!style.contains("</style"), "the styles would end their own element");
    let mut script = script(&parts.glue)?;
    let mut wasm = String::new();
    for (name, program) in
        std::iter::once((FIRST, &parts.wasm)).chain(parts.others.iter().map(|(n, p)| (n.as_str(), p)))
    {
        // Browsers do not run a script of this type, so it is plain data to them, and to the policy.
        let data = STANDARD.encode(packed(program)?);
        wasm.push_str(&format!("<script type=\"application/gzip-base64\" id=\"packed-{name}\">{data}</script>"));
    }
    if let Some(module) = &parts.worker {
        wasm.push_str(&worker::data_in_one_file(&module.glue, &STANDARD.encode(packed(&module.wasm)?))?);
        script.insert_str(0, &worker::starter_in_one_file());
    }
    Ok(parts
        .document
        .replace(POLICY, &format!("{}{}", policy::tag(&policy::offline(&script, &style)), licences(parts)))
        .replace(STYLES, &format!("<style>{style}</style>"))
        .replace(LOADER, &format!("{wasm}<script type=\"module\">{script}</script>")))
}

/// The name of the program that is started.
const FIRST: &str = "first";

/// The program in gzip, which every browser that runs it can unpack by itself.
fn packed(wasm: &[u8]) -> Result<Vec<u8>> {
    let mut packer = GzEncoder::new(Vec::new(), Compression::best());
    packer.write_all(wasm)?;
    Ok(packer.finish()?)
}

/// The glue, followed by starting it with the packed wasm.
fn script(glue: &str) -> Result<String> {
    if glue.lines().any(|line| line.trim_start().starts_with("import ")) {
        bail!("the glue imports other scripts, which one file cannot do: a dependency brings its own JavaScript");
    }
    let exports = glue.rsplit_once("export {").context("the glue exports nothing")?.1;
    let before_default = exports.split_once(" as default").context("the glue has no default export")?.0;
    let start = before_default.rsplit([',', ' ']).next().unwrap_or_default().trim();
    ensure!(!start.is_empty(), "the glue's default export has no name");
    let start = format!(
        "\nasync function {OTHER}(name) {{\
         \nconst packed = document.getElementById(`packed-${{name}}`);\
         \nconst bytes = Uint8Array.from(atob(packed.textContent), (character) => character.charCodeAt(0));\
         \npacked.remove();\
         \nconst unpacked = new Blob([bytes]).stream().pipeThrough(new DecompressionStream(\"gzip\"));\
         \nreturn new Response(unpacked, {{ headers: {{ \"Content-Type\": \"application/wasm\" }} }});\
         \n}}\
         \nawait {start}({{ module_or_path: await {OTHER}(\"{FIRST}\") }});\n"
    );
    // A script ends where its text says so, even within a string.
    Ok((glue.to_owned() + &start).replace("</script", "<\\/script").replace("<!--", "<\\!--"))
}

/// The licences of what is inside, which have to go along with it.
fn licences(parts: &Parts) -> String {
    let texts = parts.files.iter().filter(|(name, _)| name.ends_with(".txt"));
    texts
        .map(|(name, text)| format!("\n<!-- {name}\n{} -->", String::from_utf8_lossy(text).replace("--", "- -")))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::script;

    #[test]
    fn starts_the_default_export_and_cannot_end_early() {
        let made = script("const text = '</script>';\nexport { initSync, __init as default };").unwrap();
        assert!(made.contains("await __init({ module_or_path: await otherProgram(\"first\") })"), "{made}");
        assert!(!made.contains("</script"), "{made}");
    }

    #[test]
    fn refuses_glue_that_needs_another_file() {
        let refused = script("import { a } from './snippets/a.js';\nexport { b as default };").unwrap_err();
        assert!(refused.to_string().contains("imports other scripts"), "{refused}");
    }
}
