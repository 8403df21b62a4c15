//! The harness itself: each check that the other tests rely on is shown to be able to fail.

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
    let site = Site::start(dist().join("site"))?;
    let browser = Browser::start(BENCH).await?;
    browser.open(&site.url()).await?;
    let plain = fastest_ms(&browser).await?;
    browser.slow_down(6.0).await?;
    let slowed = fastest_ms(&browser).await?;
    // Asked for six times; a third of that leaves room for a machine that others keep busy.
    assert!(slowed > plain * 2.0, "{plain} ms became {slowed} ms");

    browser.offline(true).await?;
    assert_eq!(browser.js("return navigator.onLine").await?, json!(false));
    browser.offline(false).await?;
    assert_eq!(browser.js("return navigator.onLine").await?, json!(true));
    Ok(())
}

/// The fastest of six runs of the same work, as whatever else the machine does can only slow a run down.
/// Each run is long against the slices that throttling works in.
async fn fastest_ms(browser: &Browser) -> Outcome<f64> {
    const RUNS: &str = "
        let fastest = Infinity;
        for (let run = 0; run < 6; run++) {
            const start = performance.now();
            let sum = 0;
            for (let i = 0; i < 2e8; i++) sum += i % 7;
            fastest = Math.min(fastest, performance.now() - start + (sum < 0));
            await new Promise((done) => setTimeout(done, 5));
        }
        return fastest;";
    browser
        .js(RUNS)
        .await?
        .as_f64()
        .ok_or_else(|| "no time measured".into())
}
