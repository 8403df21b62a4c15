//! Screens to look at, in light and dark, on phone and bench: each must at least fit, and be drawn in its own colours.

use serde_json::json;

use crate::engine::needs;
use crate::support::{BENCH, Browser, Outcome, PHONE};

/// The colour of the ground.
const GROUND: &str = "return getComputedStyle(document.documentElement).backgroundColor";

#[tokio::test(flavor = "multi_thread")]
async fn every_screen_fits_in_light_and_dark() -> Outcome {
    needs!(Screen, Wish);
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    for (name, screen) in [("phone", PHONE), ("bench", BENCH)] {
        browser.resize(screen).await?;
        let mut grounds = Vec::new();
        for scheme in browser.schemes() {
            browser.show_in(scheme).await?;
            grounds.push(browser.js(GROUND).await?);
            shots(&browser, &format!("{name}-{scheme}")).await?;
        }
        assert_ne!(grounds[0], grounds[1], "{name}");
    }
    Ok(())
}

async fn shots(browser: &Browser, name: &str) -> Outcome {
    for (part, selector) in [
        ("top", "h1"),
        ("tasks", "#on-tasks"),
        ("folds", "#folds"),
        ("shop", "#shop"),
    ] {
        browser
            .js(&format!("document.querySelector({selector:?}).scrollIntoView()"))
            .await?;
        browser.screenshot(&format!("{name}-{part}")).await?;
        let wider = "return document.documentElement.scrollWidth - document.documentElement.clientWidth";
        assert_eq!(browser.js(wider).await?, json!(0), "{name}-{part}");
    }
    Ok(())
}
