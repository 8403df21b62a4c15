//! The harness itself: each check that the other tests rely on is shown to be able to fail.

use serde_json::json;

use crate::engine::needs;
use crate::site::Site;
use crate::support::{BENCH, Browser, Outcome, PHONE, dist};

#[tokio::test(flavor = "multi_thread")]
async fn errors_and_outside_requests_are_seen() -> Outcome {
    needs!(Listen);
    let browser = Browser::start(PHONE).await?;
    browser
        .driver
        .goto(
            "data:text/html,<script>throw new Error('seen')</script><img src='http://example.invalid/x.png'>",
        )
        .await?;
    browser.until("document.readyState === 'complete'").await?;

    let errors = browser.console_errors().await?;
    for part in ["seen", "not loaded http://example.invalid/x.png"] {
        assert!(
            errors.iter().any(|text| text.contains(part)),
            "{part}: {errors:?}"
        );
    }
    assert_eq!(
        browser.requests_outside().await?,
        ["http://example.invalid/x.png"]
    );
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_page_whose_core_never_answers_is_reported() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    let mut site = Site::start(dist().join("site"))?;
    site.stop();
    assert!(
        browser.open(&site.url()).await.is_err(),
        "a stopped host still serves"
    );
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_reader_s_screen_and_wishes_reach_the_page() -> Outcome {
    needs!(Screen, Touch, Wish);
    const WIDTH: &str = "return [innerWidth, innerHeight, matchMedia('(pointer: coarse)').matches]";
    const WISHES: &str = "return ['(prefers-color-scheme: dark)', '(prefers-reduced-motion: reduce)'].map((q) => matchMedia(q).matches)";
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    assert_eq!(browser.js(WIDTH).await?, json!([390, 844, true]));
    browser.resize(BENCH).await?;
    assert_eq!(browser.js(WIDTH).await?, json!([1280, 800, false]));

    browser.prefer("prefers-color-scheme", "light").await?;
    assert_eq!(browser.js(WISHES).await?, json!([false, false]));
    browser.prefer("prefers-color-scheme", "dark").await?;
    assert_eq!(browser.js(WISHES).await?, json!([true, false]));
    browser.prefer("prefers-reduced-motion", "reduce").await?;
    assert_eq!(browser.js(WISHES).await?, json!([false, true]));
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_lost_network_is_felt() -> Outcome {
    needs!(Offline);
    let site = Site::start(dist().join("site"))?;
    let browser = Browser::start(BENCH).await?;
    browser.open(&site.url()).await?;
    browser.offline(true).await?;
    assert_eq!(browser.js("return navigator.onLine").await?, json!(false));
    browser.offline(false).await?;
    assert_eq!(browser.js("return navigator.onLine").await?, json!(true));
    Ok(())
}
