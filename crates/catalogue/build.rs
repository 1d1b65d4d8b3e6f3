//! Makes one text of the shipped catalogue, in the notation that projects are read in too: the page then shows it without
//! having loaded the reader of catalogue files. What it says stands in `assets/catalogue` alone; a test reads both.

use std::collections::BTreeMap;
use std::path::Path;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = Path::new("../../assets/catalogue");
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut kinds: BTreeMap<String, toml::Table> = BTreeMap::new();
    for entry in std::fs::read_dir(folder)? {
        let path = entry?.path();
        if path.extension().is_none_or(|extension| extension != "toml") {
            continue;
        }
        let file: toml::Table = std::fs::read_to_string(&path)?.parse()?;
        for (kind, value) in file {
            let toml::Value::Table(parts) = value else {
                return Err(format!("{}: {kind} is no table", path.display()).into());
            };
            kinds.entry(kind).or_default().extend(parts);
        }
    }
    let made = Path::new(&std::env::var("OUT_DIR")?).join("shipped.json");
    Ok(std::fs::write(made, serde_json::to_string(&kinds)?)?)
}
