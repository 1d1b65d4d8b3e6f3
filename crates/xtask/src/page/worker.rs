//! The page's worker: a second wasm module, for the long work. It is a classic script, which every browser starts from an
//! address and from a blob alike; the page gets a function that starts it, and calls it after the first badges are painted.

use crate::tools::Tools;
use crate::{paths, shell};
use anyhow::{Context, Result, ensure};
use std::path::Path;

/// The program in `crates/worker`.
const PROGRAM: &str = "baywright-worker";
/// What the page calls to start its worker, a function without arguments.
const START: &str = "baywrightWorker";

/// The two halves of the module.
pub(crate) struct Worker {
    /// The JavaScript half of wasm-bindgen.
    pub(crate) glue: String,
    /// The program.
    pub(crate) wasm: Vec<u8>,
}

/// Compiles, binds and shrinks it, in this folder. Fast comes before small, as nothing waits for it to arrive.
pub(crate) fn build(tools: &Tools, folder: &Path) -> Result<Worker> {
    shell::run(
        shell::cargo()
            .args(["build", "--quiet", "--offline", "--release", "--target", "wasm32-unknown-unknown"])
            .args(["--package", "worker", "--bin", PROGRAM]),
    )?;
    let made = paths::target().join("wasm32-unknown-unknown/release").join(format!("{PROGRAM}.wasm"));
    shell::run(
        shell::program(tools.bindgen.join("wasm-bindgen"))
            .args(["--target", "no-modules", "--no-typescript", "--out-name", "worker", "--out-dir"])
            .arg(folder)
            .arg(&made),
    )?;
    let read = |name: &str| std::fs::read(folder.join(name)).with_context(|| format!("wasm-bindgen made no {name}"));
    let glue = String::from_utf8(read("worker.js")?).context("the worker's glue is not text")?;
    ensure!(!folder.join("snippets").exists(), "the worker's glue needs other scripts: a dependency brings its own");
    let mut wasm = read("worker_bg.wasm")?;
    if let Some(optimiser) = &tools.optimiser {
        wasm = super::shrink(optimiser, "-O3", &wasm, &folder.join("worker"))?;
    }
    Ok(Worker { glue, wasm })
}

/// A module that cannot start says so to the page in words, as it has no other way to.
const FAILED: &str = ".catch((wrong) => postMessage(String(wrong)));\n";

/// Its script, which fetches the program from beside itself.
pub(crate) fn script(glue: &str, wasm: &str) -> String {
    format!("{glue}\nwasm_bindgen({{ module_or_path: \"./{wasm}\" }}){FAILED}")
}

/// Start of the page's script: how to start the worker whose script is at this address.
pub(crate) fn starter(address: &str) -> String {
    format!("globalThis.{START} = () => new Worker(\"./{address}\"); ")
}

/// Its script in the page's one file, which is sent the packed program by the page.
fn script_in_one_file(glue: &str) -> String {
    format!(
        "{glue}\nonmessage = (event) => {{\
         \n    const bytes = Uint8Array.from(atob(event.data), (character) => character.charCodeAt(0));\
         \n    const unpacked = new Blob([bytes]).stream().pipeThrough(new DecompressionStream(\"gzip\"));\
         \n    new Response(unpacked).arrayBuffer()\
         .then((program) => wasm_bindgen({{ module_or_path: program }})){FAILED}}};\n"
    )
}

/// Start of the page's script in its one file: how to start the worker whose script and program stand there as data.
pub(crate) fn starter_in_one_file() -> String {
    format!(
        "const part = (id) => document.getElementById(id).textContent;\
         \nlet workerAddress;\
         \nglobalThis.{START} = () => {{\
         \n    workerAddress ??= URL.createObjectURL(new Blob([part(\"worker-script\")]));\
         \n    const worker = new Worker(workerAddress);\
         \n    worker.postMessage(part(\"packed-worker\"));\
         \n    return worker;\
         \n}};\n"
    )
}

/// What stands in the one file as data: browsers run no script of these types. `packed` is the program.
pub(crate) fn data_in_one_file(glue: &str, packed: &str) -> Result<String> {
    let script = script_in_one_file(glue);
    ensure!(!script.contains("</script") && !script.contains("<!--"), "the worker's glue would end its own element");
    Ok(format!(
        "<script type=\"text/plain\" id=\"worker-script\">{script}</script>\
         <script type=\"application/gzip-base64\" id=\"packed-worker\">{packed}</script>"
    ))
}

#[cfg(test)]
mod tests {
    use super::{data_in_one_file, script, starter};

    #[test]
    fn the_page_starts_what_lies_beside_it() {
        assert_eq!(starter("worker-1.js"), "globalThis.baywrightWorker = () => new Worker(\"./worker-1.js\"); ");
        assert!(
            script("glue", "worker-2.wasm").starts_with("glue\nwasm_bindgen({ module_or_path: \"./worker-2.wasm\" })")
        );
    }

    #[test]
    fn glue_that_would_end_its_element_is_refused() {
        assert!(data_in_one_file("const text = \"</script>\";", "").is_err());
        assert!(data_in_one_file("const text = \"script\";", "QUJD").is_ok_and(|data| data.contains(">QUJD<")));
    }
}
