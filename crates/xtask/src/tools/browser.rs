//! A real browser and its WebDriver.

use crate::shell;
use anyhow::{Result, bail};
use std::path::{Path, PathBuf};

/// The driver of a Chromium that is installed too.
pub(crate) struct Browser {
    /// The `chromedriver` program.
    pub(crate) driver: PathBuf,
}

/// Names under which Chromium is installed.
const CHROMIUM: [&str; 4] = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];

/// Finds Chromium and its driver; on Debian as root installs them, elsewhere names what is missing.
pub(crate) fn browser() -> Result<Browser> {
    if let Ok(found) = find() {
        return Ok(found);
    }
    if is_debian_root() {
        shell::timed("install Chromium and its driver", || apt_install(&["chromium", "chromium-driver"]))?;
    }
    find()
}

fn find() -> Result<Browser> {
    let named = std::env::var_os("CHROMEDRIVER").map(PathBuf::from).filter(|path| path.is_file());
    let driver = named.or_else(|| shell::on_path("chromedriver"));
    let chromium = CHROMIUM.iter().find_map(|name| shell::on_path(name));
    match (driver, chromium) {
        (Some(driver), Some(_)) => Ok(Browser { driver }),
        (driver, chromium) => {
            let missing = [(driver.is_none(), "chromedriver"), (chromium.is_none(), "Chromium (or Chrome)")];
            let missing: Vec<_> = missing.iter().filter(|(gone, _)| *gone).map(|(_, name)| *name).collect();
            bail!("the browser tests need {} on PATH, in the same version", missing.join(" and "))
        }
    }
}

/// Whether packages can be installed here without asking anybody.
pub(crate) fn is_debian_root() -> bool {
    Path::new("/etc/debian_version").exists()
        && shell::on_path("apt-get").is_some()
        && shell::read(shell::program("id").arg("-u")).is_ok_and(|id| id.trim() == "0")
}

/// Installs Debian packages.
pub(crate) fn apt_install(packages: &[&str]) -> Result<()> {
    let apt = || {
        let mut command = shell::program("apt-get");
        command.env("DEBIAN_FRONTEND", "noninteractive").arg("-qq");
        command
    };
    shell::run(apt().arg("update"))?;
    shell::run(apt().args(["install", "--yes", "--no-install-recommends"]).args(packages))
}
