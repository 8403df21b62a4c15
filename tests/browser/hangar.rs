//! In the hangar: no host, no network, and another cord.

use serde_json::{Value, json};

use crate::engine::Can;
use crate::reader::{labelled, reckoned};
use crate::site::Site;
use crate::support::{Browser, Outcome, PHONE, dist};

/// Changes the cord and reads what the page then says of its circuit.
async fn with_cord(browser: &Browser, gauge: &str, length: &str) -> Outcome<Value> {
    browser.retype("[data-path='places.0.cord_gauge']", gauge).await?;
    browser
        .retype("[data-path='places.0.cord_length']", length)
        .await?;
    let shown = browser.shown().await?;
    let mut shop = labelled();
    shop.places[0].cord_gauge = gauge.into();
    shop.places[0].cord_length = length.into();
    assert_eq!(shown, reckoned(&shop), "{length} of {gauge}");
    Ok(shown["places"][0]["circuit"].clone())
}

/// A thin cord is named for what it is, and a thick short one takes that back.
async fn the_cord_decides(browser: &Browser) -> Outcome {
    browser.type_label().await?;
    browser.tap("[data-place='0'] > .row button").await?;
    let thick = with_cord(browser, "10 AWG", "25 ft").await?;
    let thin = with_cord(browser, "18 AWG", "150 ft").await?;
    assert_eq!(thin[0], json!("bad"), "{thin}");
    assert_ne!(thick[0], json!("bad"), "{thick}");
    assert!(
        thin[1].as_str().unwrap_or_default().contains("cord"),
        "does not name the cord: {thin}"
    );
    assert_eq!(with_cord(browser, "10 AWG", "25 ft").await?, thick);
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_cord_is_judged_after_the_host_is_gone() -> Outcome {
    let mut site = Site::start(dist().join("site"))?;
    let browser = Browser::start(PHONE).await?;
    browser.open(&site.url()).await?;
    browser
        .until("(await navigator.serviceWorker.ready).active.state === 'activated'")
        .await?;

    site.stop();
    let offline = browser.can(Can::Offline);
    if offline {
        browser.offline(true).await?;
    }
    browser.reload().await?;
    const STATE: &str = "return [!navigator.onLine, navigator.serviceWorker.controller !== null]";
    assert_eq!(browser.js(STATE).await?, json!([offline, true]));
    the_cord_decides(&browser).await
}

#[tokio::test(flavor = "multi_thread")]
async fn the_cord_is_judged_from_the_file() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    if browser.can(Can::Offline) {
        browser.offline(true).await?;
    }
    browser.open_file().await?;
    the_cord_decides(&browser).await?;
    browser.asks_nobody().await?;
    Ok(())
}
