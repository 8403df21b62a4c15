//! The cord fails the start; the gauge that is offered mends it; undo brings the old one back.

use serde_json::Value;

use crate::reader::{labelled, reckoned};
use crate::support::{Browser, Outcome, PHONE};

const GAUGE: &str = "[data-path='places.0.cord_gauge']";
const LENGTH: &str = "[data-path='places.0.cord_length']";
const OFFER: &str = "#on-mend .remedies button";

async fn circuit(browser: &Browser) -> Outcome<Value> {
    Ok(browser.shown().await?["places"][0]["circuit"].clone())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_offered_cord_mends_the_start_and_undo_brings_the_old_one_back() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    browser.tap("[data-part='places.0'] > summary").await?;
    browser.retype(GAUGE, "16 AWG").await?;
    browser.retype(LENGTH, "100 ft").await?;

    let mut shop = labelled();
    shop.places[0].cord_gauge = "16 AWG".into();
    shop.places[0].cord_length = "100 ft".into();
    let thin = browser.shown().await?;
    assert_eq!(thin, reckoned(&shop));
    // Nobody runs a compressor's motor of 11.5 A over 100 ft of 16 AWG (common practice, no source).
    assert!(
        ["poor", "bad"].contains(&thin["places"][0]["circuit"][0].as_str().unwrap_or_default()),
        "{thin}"
    );

    browser.tap(OFFER).await?;
    // The compressor at the outlet and hose in place of the cord, or a cord that does: whatever is tried on, it mends.
    let offered = browser.typed(GAUGE).await?;
    assert_ne!(browser.shown().await?, thin, "with {offered}");
    let mended = circuit(&browser).await?;
    assert!(
        ["good", "note", "fair"].contains(&mended[0].as_str().unwrap_or_default()),
        "{offered}: {mended}"
    );
    let notice = browser.text("[data-notice=undo] p").await?;
    assert!(notice.contains("Before: "), "{notice}");

    browser.tap("[data-notice=undo] button").await?;
    assert_eq!(
        (browser.typed(GAUGE).await?, browser.typed(LENGTH).await?),
        ("16 AWG".into(), "100 ft".into())
    );
    assert_eq!(browser.shown().await?, thin);
    assert_eq!(browser.text("[data-notice=undo]").await?, "");
    Ok(())
}
