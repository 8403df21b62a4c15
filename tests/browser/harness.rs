//! The harness itself: each check that the other tests rely on is shown to be able to fail.

use std::time::{Duration, Instant};

use serde_json::json;

use crate::site::Site;
use crate::support::{BENCH, Browser, Outcome, PHONE, dist};

#[tokio::test(flavor = "multi_thread")]
async fn errors_and_outside_requests_are_seen() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser
        .driver
        .goto(
            "data:text/html,<script>throw new Error('seen')</script><img src='http://example.invalid/x.png'>",
        )
        .await?;
    browser.until("document.readyState === 'complete'").await?;

    let errors = browser.console_errors().await?;
    assert!(errors.iter().any(|text| text.contains("seen")), "{errors:?}");
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
async fn a_slow_processor_and_a_lost_network_are_felt() -> Outcome {
    const WORK: &str = "let sum = 0; for (let i = 0; i < 3e8; i++) sum += i % 7; return sum";
    let site = Site::start(dist().join("site"))?;
    let browser = Browser::start(BENCH).await?;
    browser.open(&site.url()).await?;
    browser.js(WORK).await?; // compiled now
    let plain = time(&browser, WORK).await?;
    browser.slow_down(4.0).await?;
    let slowed = time(&browser, WORK).await?;
    // Asked for four times; half of that leaves room for a machine that was busy in the first run.
    assert!(slowed > plain * 2, "{plain:?} became {slowed:?}");

    browser.offline(true).await?;
    assert_eq!(browser.js("return navigator.onLine").await?, json!(false));
    browser.offline(false).await?;
    assert_eq!(browser.js("return navigator.onLine").await?, json!(true));
    Ok(())
}

async fn time(browser: &Browser, work: &str) -> Outcome<Duration> {
    let start = Instant::now();
    browser.js(work).await?;
    Ok(start.elapsed())
}
