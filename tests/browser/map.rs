//! The map is asked for only while it is open.

use serde_json::json;

use crate::support::{Browser, Outcome, PHONE};

#[tokio::test(flavor = "multi_thread")]
async fn the_map_is_drawn_when_opened() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.js("document.getElementById('new-shop').click()").await?;
    let closed = browser
        .js("return document.querySelectorAll('#on-map svg rect').length")
        .await?;
    browser
        .js("document.getElementById('on-map').open = true")
        .await?;
    browser
        .until("document.querySelectorAll('#on-map svg rect').length > 12")
        .await?;
    assert!(
        closed.as_u64().is_some_and(|drawn| drawn < 3),
        "drawn while closed: {closed}"
    );
    let points = browser
        .js("return document.querySelectorAll('#on-map .findings > li').length")
        .await?;
    assert_eq!(points, json!(3), "one for each machine of the example");
    Ok(())
}
