//! What browser tests are made of: the driver, a page, and how one test runs.

mod driver;
mod input;
mod log;
mod page;

pub(crate) use driver::Driver;
pub(crate) use page::Page;

use anyhow::{Context, Result, anyhow};
use std::path::PathBuf;
use std::pin::Pin;
use std::time::Duration;

/// A test that takes longer than this hangs.
const LONGEST: Duration = Duration::from_secs(120);

/// What xtask tells: which page, which browser, where to put pictures.
pub(crate) struct Setting {
    /// Address of the served page.
    pub(crate) page: String,
    /// The page as one file; not there when measuring.
    pub(crate) file: Option<PathBuf>,
    /// Address of the empty page that the first load is compared with; only there when measuring.
    pub(crate) empty_page: Option<String>,
    /// Where to write what was measured; tests run when there is none.
    pub(crate) measure_to: Option<PathBuf>,
    pictures: PathBuf,
    webdriver: PathBuf,
    driver: PathBuf,
}

impl Setting {
    /// Reads the environment; None when there is no page.
    pub(crate) fn from_environment() -> Option<Self> {
        let path = |name: &str| std::env::var_os(name).map(PathBuf::from);
        Some(Self {
            page: std::env::var("BAYWRIGHT_PAGE").ok()?,
            file: path("BAYWRIGHT_FILE"),
            empty_page: std::env::var("BAYWRIGHT_EMPTY_PAGE").ok(),
            measure_to: path("BAYWRIGHT_MEASURE_TO"),
            pictures: path("BAYWRIGHT_PICTURES").unwrap_or_else(|| "target/pictures".into()),
            webdriver: path("BAYWRIGHT_WEBDRIVER")?,
            driver: path("CHROMEDRIVER").unwrap_or_else(|| "chromedriver".into()),
        })
    }
}

/// Where a test begins.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Where {
    /// On the page served over 127.0.0.1.
    Hosted,
    /// On the one-file page, opened from `file:`.
    Offline,
    /// On the harness's own small document.
    Fixture,
}

/// What a test returns.
pub(crate) type Run = Pin<Box<dyn Future<Output = Result<()>> + Send>>;

/// One test.
#[derive(Clone)]
pub(crate) struct Case {
    /// The test's own name and where it begins.
    pub(crate) name: String,
    /// Where it begins.
    pub(crate) place: Where,
    /// The test.
    pub(crate) run: fn(Page) -> Run,
}

/// Lists the tests of a file: `cases![Hosted: opens, saves; Offline: opens]`.
macro_rules! cases {
    ($($place:ident: $($test:ident),+);+ $(;)?) => {
        vec![$($(crate::harness::Case {
            name: format!("{}::{} ({})", module_path!().trim_start_matches("browser::"), stringify!($test), stringify!($place).to_lowercase()),
            place: crate::harness::Where::$place,
            run: |page| Box::pin($test(page)),
        }),+),+]
    };
}
pub(crate) use cases;

/// Everything that is started once for all tests.
pub(crate) struct Start {
    /// The browser's driver.
    pub(crate) driver: Driver,
    /// Runs the tests.
    pub(crate) runtime: tokio::runtime::Runtime,
    /// What xtask told.
    pub(crate) setting: Setting,
}

impl Start {
    /// Runs one test in a session of its own. When it fails, a picture is taken, and the message says where it is and
    /// what the browser's console said.
    pub(crate) fn run(&self, case: &Case) -> Result<()> {
        self.runtime.block_on(async {
            let address = self.address(case.place)?;
            let page = self.driver.page(&self.setting).await?;
            let test = async {
                page.open(&address).await?;
                // On a task of its own a failed assertion comes back as an error, and the session can still be closed.
                match tokio::spawn((case.run)(page.clone())).await {
                    Ok(result) => result?,
                    Err(panicked) => return Err(anyhow!(said(panicked))),
                }
                page.has_not_panicked().await
            };
            let ended = tokio::time::timeout(LONGEST, test).await;
            let result = ended.unwrap_or_else(|_| Err(anyhow!("did not end within {} s", LONGEST.as_secs())));
            let result = match result {
                Ok(()) => Ok(()),
                Err(error) => {
                    let name: String =
                        case.name.chars().map(|c| if c.is_alphanumeric() || c == '_' { c } else { '-' }).collect();
                    let picture = page.picture(&format!("failed-{name}")).await;
                    let console = page.complaints().await.unwrap_or_default();
                    Err(error.context(match picture {
                        Ok(path) => format!("see {}; console: {console:?}", path.display()),
                        Err(_) => format!("console: {console:?}"),
                    }))
                }
            };
            page.close().await?;
            result
        })
    }

    fn address(&self, place: Where) -> Result<String> {
        let of_file = |path: &std::path::Path| match url::Url::from_file_path(path) {
            Ok(address) => Ok(address.to_string()),
            Err(()) => Err(anyhow!("{} has no address", path.display())),
        };
        match place {
            Where::Hosted => Ok(self.setting.page.clone()),
            Where::Offline => of_file(self.setting.file.as_ref().context("BAYWRIGHT_FILE is not set")?),
            Where::Fixture => {
                of_file(&std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("browser/harness/fixture.html"))
            }
        }
    }
}

fn said(panicked: tokio::task::JoinError) -> String {
    let Ok(panic) = panicked.try_into_panic() else { return "was cancelled".into() };
    let text = panic.downcast_ref::<String>().cloned();
    text.or_else(|| panic.downcast_ref::<&str>().map(|text| (*text).to_owned())).unwrap_or("panicked".into())
}
