//! axe-core, which knows the rules of accessibility. Only the browser tests load it; nothing of it goes into the page.

use crate::{paths, shell};
use anyhow::Result;
use std::path::PathBuf;

/// The npm package's version.
const AXE: &str = "4.14.1";

/// Finds or fetches axe-core; None, said aloud, when it is not to be had here.
pub(crate) fn axe() -> Result<Option<PathBuf>> {
    let home = paths::tool_cache()?.join(format!("axe-core-{AXE}"));
    let path = home.join("node_modules/axe-core/axe.min.js");
    if path.is_file() {
        return Ok(Some(path));
    }
    if shell::on_path("npm").is_none() {
        println!("npm is missing, which fetches axe-core: the accessibility rules are not asked");
        return Ok(None);
    }
    let asked = shell::timed(&format!("fetch axe-core {AXE} (npm) into {}", home.display()), || {
        super::npm_install(&home, &format!("axe-core@{AXE}"))
    });
    match asked {
        Ok(()) if path.is_file() => return Ok(Some(path)),
        Ok(()) => println!("   axe-core was fetched but is not where it should be"),
        Err(error) => println!("   {error:#}"),
    }
    println!("axe-core is not here: the accessibility rules are not asked");
    Ok(None)
}
