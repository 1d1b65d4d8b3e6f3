//! The page as static files: every name but index.html carries a hash of its content, so a server may let browsers keep
//! them for ever.

use super::parts::{LOADER, POLICY, Parts, STYLES, with_addresses};
use super::split::OTHER;
use super::{policy, worker};
use anyhow::{Context, Result};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::path::Path;

/// Writes the static files into this folder, which is emptied first.
pub(crate) fn write(parts: &Parts, folder: &Path) -> Result<()> {
    if folder.exists() {
        std::fs::remove_dir_all(folder).with_context(|| format!("cannot empty {}", folder.display()))?;
    }
    for (name, bytes) in assemble(parts)? {
        let path = folder.join(name);
        if let Some(parent) = path.parent() {
            std::fs::create_dir_all(parent)?;
        }
        std::fs::write(&path, bytes).with_context(|| format!("{}", path.display()))?;
    }
    Ok(())
}

fn assemble(parts: &Parts) -> Result<BTreeMap<String, Vec<u8>>> {
    let mut made = BTreeMap::new();
    let mut used = Vec::new();
    let style = with_addresses(&parts.style, |name| {
        let bytes = parts.files.get(name).with_context(|| format!("the styles name {name}, which is not there"))?;
        let hashed = hashed(name, bytes);
        made.insert(hashed.clone(), bytes.clone());
        used.push(name.to_owned());
        Ok(hashed)
    })?;
    // Fonts that no style names are left out; all other files (licences, snippets of the glue) go along.
    let left = parts.files.iter().filter(|(name, _)| !used.contains(name) && !name.ends_with(".woff2"));
    made.extend(left.map(|(name, bytes)| (name.clone(), bytes.clone())));

    let mut put = |name: &str, bytes: &[u8]| {
        let name = hashed(name, bytes);
        made.insert(name.clone(), bytes.to_vec());
        name
    };
    let wasm = put("page.wasm", &parts.wasm);
    let others: Vec<_> = parts
        .others
        .iter()
        .map(|(name, wasm)| format!("{name}: \"./{}\"", put(&format!("{name}.wasm"), wasm)))
        .collect();
    let glue = put("page.js", format!("{}{}", others_fetched(&others), parts.glue).as_bytes());
    let starter = parts.worker.as_ref().map_or_else(String::new, |module| {
        let program = put("worker.wasm", &module.wasm);
        worker::starter(&put("worker.js", worker::script(&module.glue, &program).as_bytes()))
    });
    let styles = match style.trim().is_empty() {
        true => String::new(),
        false => format!("<link rel=\"stylesheet\" href=\"{}\">", put("page.css", style.as_bytes())),
    };
    // Faces whose first letter is shown later would be fetched then, and after load the page asks nobody for anything.
    // They come after the first look, as the rest of the program does; a page that is not shown paints none.
    let script = format!(
        "import init from \"./{glue}\"; {starter}await init({{ module_or_path: \"./{wasm}\" }}); \
         const faces = () => {{ for (const face of document.fonts) face.load(); }}; \
         requestAnimationFrame(() => requestAnimationFrame(faces)); setTimeout(faces, 1000);"
    );
    let preload = format!(
        "<link rel=\"modulepreload\" href=\"{glue}\">\
         <link rel=\"preload\" href=\"{wasm}\" as=\"fetch\" type=\"application/wasm\" crossorigin=\"anonymous\">"
    );
    let document = parts
        .document
        .replace(POLICY, &format!("{}{preload}", policy::tag(&policy::hosted(&script))))
        .replace(STYLES, &styles)
        .replace(LOADER, &format!("<script type=\"module\">{script}</script>"));
    made.insert("index.html".into(), document.into_bytes());
    Ok(made)
}

/// How the glue gets the programs that are loaded later. A server that does not know what wasm is called is no hindrance.
fn others_fetched(addresses: &[String]) -> String {
    if addresses.is_empty() {
        return String::new();
    }
    format!(
        "const otherAddresses = {{ {} }};\n\
         async function {OTHER}(name) {{\n\
         const got = await fetch(new URL(otherAddresses[name], import.meta.url));\n\
         if (!got.ok) throw new Error(`${{name}}: ${{got.status}}`);\n\
         if (got.headers.get(\"Content-Type\") === \"application/wasm\") return got;\n\
         return new Response(got.body, {{ headers: {{ \"Content-Type\": \"application/wasm\" }} }});\n\
         }}\n",
        addresses.join(", ")
    )
}

/// `fonts/face.woff2` as `fonts/face-0123456789abcdef.woff2`.
fn hashed(name: &str, bytes: &[u8]) -> String {
    let hash: String = Sha256::digest(bytes).iter().take(super::HASH / 2).map(|byte| format!("{byte:02x}")).collect();
    match name.rsplit_once('.') {
        Some((stem, extension)) => format!("{stem}-{hash}.{extension}"),
        None => format!("{name}-{hash}"),
    }
}

#[cfg(test)]
mod tests {
    use super::{LOADER, POLICY, Parts, STYLES, assemble};

    fn parts(style: &str) -> Parts {
        let files = [("fonts/a.woff2", "A"), ("fonts/b.woff2", "B"), ("fonts/OFL.txt", "licence")];
        Parts {
            document: format!("<head>{POLICY}{STYLES}{LOADER}</head>"),
            style: style.into(),
            glue: "glue".into(),
            wasm: b"wasm".to_vec(),
            others: [("more".to_owned(), b"more".to_vec())].into(),
            worker: Some(super::worker::Worker { glue: "worker glue".into(), wasm: b"worker wasm".to_vec() }),
            files: files.map(|(name, text)| (name.to_owned(), text.as_bytes().to_vec())).into(),
        }
    }

    #[test]
    fn names_carry_the_content_and_only_fonts_in_use_go_along() {
        let made = assemble(&parts("@font-face{src:url(fonts/a.woff2)}")).unwrap();
        let names: Vec<_> = made.keys().map(String::as_str).collect();
        assert_eq!(names.len(), 9, "{names:?}");
        // SHA-256 of "A" starts with 559aead08264d579 (FIPS 180-4; computed with coreutils' sha256sum).
        assert!(names.contains(&"fonts/a-559aead08264d579.woff2"), "{names:?}");
        assert!(names.contains(&"fonts/OFL.txt") && !names.iter().any(|name| name.contains("fonts/b")), "{names:?}");
        let style = names.iter().find(|name| name.ends_with(".css")).unwrap();
        assert_eq!(made[*style], b"@font-face{src:url(fonts/a-559aead08264d579.woff2)}");
        let document = String::from_utf8_lossy(&made["index.html"]);
        assert!(document.contains(style));
        // The page starts the worker's script, which names its program; neither is fetched before.
        let worker = names.iter().find(|name| name.starts_with("worker-") && name.ends_with(".js")).unwrap();
        let program = names.iter().find(|name| name.starts_with("worker-") && name.ends_with(".wasm")).unwrap();
        assert!(document.contains(&format!("new Worker(\"./{worker}\")")) && !document.contains(program), "{document}");
        assert!(String::from_utf8_lossy(&made[*worker]).contains(program));
        let more = names.iter().find(|name| name.starts_with("more-") && name.ends_with(".wasm")).unwrap();
        let glue = names.iter().find(|name| name.starts_with("page-") && name.ends_with(".js")).unwrap();
        assert!(String::from_utf8_lossy(&made[*glue]).contains(&format!("more: \"./{more}\"")), "{names:?}");
    }

    #[test]
    fn a_style_that_names_a_missing_file_is_refused() {
        let refused = assemble(&parts("a{src:url(fonts/c.woff2)}")).unwrap_err();
        assert!(refused.to_string().contains("fonts/c.woff2"), "{refused}");
    }
}
