//! How much goes over the wire.

use anyhow::{Context, Result};
use std::io::Write;
use std::path::Path;

/// Bytes of these files in brotli at its best quality, each packed alone as a web server does. Addresses as the browser
/// asked for them.
pub(crate) fn packed(folder: &Path, addresses: &[&str]) -> Result<usize> {
    let mut total = 0;
    for address in addresses {
        let name = address.splitn(4, '/').nth(3).unwrap_or_default().split(['?', '#']).next().unwrap_or_default();
        let name = if name.is_empty() { "index.html" } else { name };
        let bytes = std::fs::read(folder.join(name)).with_context(|| format!("the page loaded {address}"))?;
        total += brotli(&bytes)?;
    }
    Ok(total)
}

/// Bytes of the page's worker, packed in the same way.
pub(crate) fn worker(folder: &Path) -> Result<usize> {
    let mut total = 0;
    for entry in std::fs::read_dir(folder).with_context(|| format!("{}", folder.display()))? {
        let entry = entry?;
        if entry.file_name().to_string_lossy().starts_with("worker-") {
            total += brotli(&std::fs::read(entry.path())?)?;
        }
    }
    Ok(total)
}

fn brotli(bytes: &[u8]) -> Result<usize> {
    let mut packer = brotli::CompressorWriter::new(Vec::new(), 1 << 16, 11, 22);
    packer.write_all(bytes)?;
    Ok(packer.into_inner().len())
}

#[cfg(test)]
mod tests {
    #[test]
    fn repetition_packs_and_a_packed_font_does_not() {
        assert!(super::brotli(&[b'x'; 100_000]).unwrap() < 100);
        let font = include_bytes!("../../../../assets/fonts/atkinson-next.woff2");
        let packed = super::brotli(font).unwrap();
        assert!(packed.abs_diff(font.len()) < 300, "{packed}");
    }
}
