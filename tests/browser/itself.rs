//! The harness on a small document of its own: a test that cannot fail would be worse than none.

use crate::harness::{Case, Page, cases};
use anyhow::Result;
use fantoccini::key::Key;

/// The tests of this file.
pub(crate) fn cases() -> Vec<Case> {
    cases![Fixture:
        finds_by_role_and_name_or_says_what_there_is,
        types_and_presses_keys,
        drags_in_several_moves,
        hears_the_console_and_sees_requests,
        takes_pictures_of_the_asked_size
    ]
}

async fn finds_by_role_and_name_or_says_what_there_is(page: Page) -> Result<()> {
    assert_eq!(page.find("heading", "Fixture").await?.text().await?, "Fixture");
    let twice = page.find("button", "Count").await.map(drop).map_err(|error| error.to_string());
    assert_eq!(twice, Err("2 elements are a button named \"Count\"".into()));
    let names: Vec<_> = page.named("button").await?.into_iter().map(|(_, name)| name).collect();
    assert_eq!(names, ["Count", "Count", "Ask", "Box"]);
    assert!(page.value("Promise.reject(new Error('no'))").await.is_err_and(|error| error.to_string().contains("no")));
    Ok(())
}

async fn types_and_presses_keys(page: Page) -> Result<()> {
    page.enter("Depth", "813 mm").await?;
    page.until("said.textContent === '813 mm'").await?;
    page.press(&[Key::Control], 'z').await?;
    page.until("said.textContent === 'undo'").await
}

async fn drags_in_several_moves(page: Page) -> Result<()> {
    let grip = page.find("button", "Box").await?;
    page.drag(grip, 80.0, -40.0).await?;
    page.until("said.textContent").await?;
    let said = page.value("said.textContent").await?;
    // The box began at 100, 200, and a hand moves more than once.
    let words: Vec<_> = said.as_str().unwrap_or_default().split(' ').collect();
    assert_eq!(words[..2], ["180px", "160px"]);
    assert!(words[2].parse::<u32>()? >= 3, "{said}");
    Ok(())
}

async fn hears_the_console_and_sees_requests(page: Page) -> Result<()> {
    page.requests().await?;
    assert_eq!(page.complaints().await?, [""; 0]);
    page.click("button", "Ask").await?;
    page.value("new Promise((done) => setTimeout(done, 300))").await?;
    let requests = page.requests().await?;
    assert!(requests.iter().any(|address| address.ends_with("/picture-that-is-not-there.png")), "{requests:?}");
    assert!(!page.complaints().await?.is_empty());
    Ok(())
}

async fn takes_pictures_of_the_asked_size(page: Page) -> Result<()> {
    page.screen(640, 480).await?;
    let picture = std::fs::read(page.picture("fixture").await?)?;
    // PNG specification, 11.2.2: width and height are the first two big-endian words of IHDR, from byte 16 on.
    assert_eq!(picture[16..24], [0, 0, 640_u32.to_be_bytes()[2], 128, 0, 0, 1, 224]);
    Ok(())
}
