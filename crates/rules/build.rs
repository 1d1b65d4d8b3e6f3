//! Makes one text of the tables of `assets/codes`, in the notation that projects are read in too, so that the page needs no
//! reader of those files. What it says stands in `assets/codes` alone.

use std::path::Path;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = Path::new("../../assets/codes");
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut files = toml::Table::new();
    for entry in std::fs::read_dir(folder)? {
        let path = entry?.path();
        if path.extension().is_none_or(|extension| extension != "toml") {
            continue;
        }
        let Some(name) = path.file_stem().and_then(|name| name.to_str()) else {
            return Err(format!("{}: no name", path.display()).into());
        };
        let file: toml::Table = std::fs::read_to_string(&path)?.parse()?;
        files.insert(name.to_owned(), file.into());
    }
    let made = Path::new(&std::env::var("OUT_DIR")?).join("codes.json");
    Ok(std::fs::write(made, serde_json::to_string(&files)?)?)
}
