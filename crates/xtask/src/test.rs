//! Everything there is to test: the checks, the wasm tests, then the built page in a real browser.

use crate::serve::Serving;
use crate::steps::Steps;
use crate::{check, page, paths, shell, tools};
use anyhow::Result;

/// Runs everything; false when something failed. A word keeps to the browser tests whose names have it.
pub(crate) fn chore(word: Option<&str>) -> Result<bool> {
    let mut steps = Steps::default();
    if word.is_none() {
        check::take(&mut steps)?;
    }
    let browser = steps.step("set-up of the browser", tools::browser);
    if let Some(browser) = browser.as_ref().filter(|_| word.is_none()) {
        steps.step("wasm tests in the browser", || in_wasm(browser));
    }
    let built = steps.step("build of the page", || page::build(&tools::for_the_page()?));
    if let (Some(browser), Some(())) = (&browser, built) {
        steps.step("the page in the browser", || on_the_page(browser, word));
    }
    Ok(steps.summary())
}

/// The tests that are compiled to wasm and run inside a browser.
fn in_wasm(browser: &tools::Browser) -> Result<()> {
    let runner = tools::bindgen()?.join("wasm-bindgen-test-runner");
    // Run in web/, where the runner finds what to start the browser with.
    shell::run(
        shell::cargo()
            .args(["test", "--package", "web", "--target", "wasm32-unknown-unknown"])
            .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER", runner)
            .env("WASM_BINDGEN_USE_BROWSER", "1")
            .env("CHROMEDRIVER", &browser.driver),
    )
}

/// The tests that drive the built page, served and as one file.
fn on_the_page(browser: &tools::Browser, word: Option<&str>) -> Result<()> {
    let axe = tools::axe()?;
    let serving = Serving::start(paths::hosted(), 0)?;
    shell::run(
        shell::cargo()
            .args(["test", "--quiet", "--package", "tests", "--test", "browser", "--"])
            .args(word)
            .env("BAYWRIGHT_PAGE", serving.address())
            .env("BAYWRIGHT_FILE", paths::offline())
            .env("BAYWRIGHT_PICTURES", paths::target().join("pictures"))
            .env("BAYWRIGHT_WEBDRIVER", paths::webdriver_settings())
            .envs(axe.map(|path| ("BAYWRIGHT_AXE", path)))
            .env("CHROMEDRIVER", &browser.driver),
    )
}
