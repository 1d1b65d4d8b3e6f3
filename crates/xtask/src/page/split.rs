//! One program in two: what the first look needs, and what `web/src/later.rs` names, which is loaded after it.
//!
//! The splitter reads what the linker wrote, so it comes before wasm-bindgen; that sees the first program alone. The
//! splitter's own script is put into the glue, and asks for the other programs by name: how they are got differs between
//! the forms of the page.

use super::parts::{Parts, between};
use super::{PROFILE, shell};
use crate::paths;
use crate::tools::Tools;
use anyhow::{Context, Result, anyhow, ensure};
use std::fmt::Write;
use std::path::Path;

/// What the glue calls with the name of another program: gives a promise of a response that holds it. Each form of the
/// page defines it.
pub(crate) const OTHER: &str = "otherProgram";

/// Puts the programs that were made of one into the parts, in its place.
pub(crate) fn split(tools: &Tools, folder: &Path, name: &str, parts: &mut Parts) -> Result<()> {
    let linked = paths::target().join("wasm32-unknown-unknown").join(PROFILE).join(name).with_extension("wasm");
    let linked = std::fs::read(&linked).with_context(|| format!("{}", linked.display()))?;
    let made = folder.with_extension("split");
    if made.exists() {
        std::fs::remove_dir_all(&made).with_context(|| format!("cannot empty {}", made.display()))?;
    }
    let first = made.join("first.wasm");
    let mut options = wasm_split_cli_support::Options::new(&linked);
    options.output_dir = &made;
    options.main_out_path = &first;
    options.link_name = LINK;
    let split = wasm_split_cli_support::transform(options).map_err(|error| anyhow!("{error:#}"))?;
    shell::run(
        shell::program(tools.bindgen.join("wasm-bindgen"))
            .args(["--target", "web", "--no-typescript", "--keep-lld-exports", "--out-name", "page", "--out-dir"])
            .arg(&made)
            .arg(&first),
    )?;
    let text = |name: &str| std::fs::read_to_string(made.join(name)).with_context(|| format!("no {name} was made"));
    let mut link = text(LINK)?;
    for path in split.split_modules {
        let file = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let name = file.trim_end_matches(".wasm").trim_start_matches("split_").to_owned();
        let fetched = format!("fetch(new URL(\"./{file}\", import.meta.url))");
        ensure!(link.contains(&fetched), "the splitter's script does not fetch {file}");
        link = link.replace(&fetched, &format!("{OTHER}(\"{name}\")"));
        parts.others.insert(name, std::fs::read(&path)?);
    }
    parts.glue = with_link(&text("page.js")?, &link)?;
    parts.wasm = std::fs::read(made.join("page_bg.wasm"))?;
    Ok(())
}

/// The splitter's script.
const LINK: &str = "split.js";

/// The glue with the splitter's script in it, where it was imported.
fn with_link(glue: &str, link: &str) -> Result<String> {
    let ending = format!(" from \"{LINK}\"");
    let import = glue.lines().find(|line| line.trim_end_matches(';').ends_with(&ending));
    let import = import.context("the glue does not import the splitter's script")?;
    let name = between(import, "import * as ", " from").context("the glue imports the splitter's script otherwise")?;
    let mut inside = String::new();
    let mut exported = Vec::new();
    for line in link.lines().filter(|line| !line.starts_with("import { initSync }")) {
        let own = line.strip_prefix("export ").unwrap_or(line);
        if own != line {
            exported.push(between(own, "const ", " =").context("the splitter's script exports something else")?);
        }
        writeln!(inside, "{own}")?;
    }
    ensure!(!exported.is_empty(), "the splitter's script exports nothing");
    writeln!(inside, "const {name} = {{ {} }};", exported.join(", "))?;
    Ok(glue.replacen(import, &inside, 1))
}

#[cfg(test)]
mod tests {
    use super::with_link;

    #[test]
    fn puts_the_script_where_it_was_imported() {
        let link = "import { initSync } from \"./main.js\";\nlet a = initSync();\nexport const load_b = a;\n";
        let made = with_link("import * as import1 from \"split.js\"\nuse(import1);", link).unwrap();
        assert_eq!(made, "let a = initSync();\nconst load_b = a;\nconst import1 = { load_b };\n\nuse(import1);");
    }

    #[test]
    fn refuses_glue_that_imports_no_such_script() {
        assert!(with_link("import * as import1 from \"other.js\";", "export const a = 1;").is_err());
        assert!(with_link("import * as import1 from \"split.js\";", "").is_err());
    }
}
