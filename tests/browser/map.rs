//! The map is asked for only while it is open.

use serde_json::json;
use thirtyfour::{By, Key};

use crate::support::{BENCH, Browser, Outcome, PHONE};

async fn example() -> Outcome<Browser> {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.open_example().await?;
    Ok(browser)
}

async fn open_map(browser: &Browser) -> Outcome {
    browser.settle().await?;
    browser
        .js("document.getElementById('later-open').click(); document.getElementById('on-map').open = true")
        .await?;
    browser
        .until("document.querySelectorAll('#on-map svg rect').length > 12")
        .await
}

#[tokio::test(flavor = "multi_thread")]
async fn the_map_is_drawn_when_opened() -> Outcome {
    let browser = example().await?;
    let closed = browser
        .js("return document.querySelectorAll('#on-map svg rect').length")
        .await?;
    open_map(&browser).await?;
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

async fn reading(browser: &Browser) -> Outcome<String> {
    browser.told().await?;
    let text = browser
        .js("return document.querySelector('#on-map .reading > span:last-child').textContent")
        .await?;
    Ok(text.as_str().ok_or("no reading")?.to_owned())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_map_is_read_by_keyboard_and_by_touch() -> Outcome {
    let browser = example().await?;
    open_map(&browser).await?;
    let picture = browser.driver.find(By::Css("#on-map svg.chart")).await?;
    picture.send_keys(Key::Left).await?;
    const CHOSEN: &str = "Upright, 20 gal: ";
    let start = reading(&browser).await?;
    let start = start
        .strip_prefix(CHOSEN)
        .ok_or(format!("the first key starts at {start}"))?;
    picture.send_keys(Key::Right).await?;
    let right = reading(&browser).await?;
    picture.send_keys(Key::Up).await?;
    let up = reading(&browser).await?;
    let parts = |text: &str| -> Outcome<(f64, f64)> {
        let mut words = text.split_whitespace();
        let flow = words.next().ok_or("no flow")?.parse()?;
        Ok((flow, words.nth(2).ok_or("no tank")?.parse()?))
    };
    let [start, right, up] = [parts(start)?, parts(&right)?, parts(&up)?];
    assert!(right.1 > start.1, "a larger tank: {start:?} {right:?}");
    assert_eq!(up.1, right.1);
    assert!(
        (up.0 - right.0 - 0.1).abs() < 1e-9,
        "a tenth of a cfm more: {right:?} {up:?}"
    );
    // From the smallest tank and least flow, which nothing bears, to the largest flow, where nobody waits.
    for _ in 0..12 {
        picture.send_keys(Key::Left + Key::PageDown).await?;
    }
    let least = reading(&browser).await?;
    assert!(least.contains("done in 0 of 10 shops"), "{least}");
    picture.send_keys(Key::Home + "").await?;
    assert!(reading(&browser).await?.starts_with(CHOSEN));
    // A touch near a machine reads that machine.
    browser
        .js("const spot = [...document.querySelectorAll('#on-map svg.chart g')].find((g) => g.textContent === '1').firstElementChild;
             const { x, y, width, height } = spot.getBoundingClientRect();
             document.querySelector('#on-map svg.chart').dispatchEvent(new MouseEvent('click', { clientX: x + width / 2 + 4, clientY: y + height / 2 + 3, bubbles: true }))")
        .await?;
    let touched = reading(&browser).await?;
    assert!(
        touched.starts_with("Upright, 20 gal: 4.2 cfm on 20 gal"),
        "{touched}"
    );
    // The point stays when the shop changes under it, and is read anew.
    browser
        .js("document.getElementById('on-map').scrollIntoView()")
        .await?;
    browser.screenshot("map-phone").await?;
    browser.show_in("dark").await?;
    browser.resize(BENCH).await?;
    browser
        .js("document.getElementById('on-map').scrollIntoView()")
        .await?;
    browser.screenshot("map-bench-dark").await?;
    browser.is_quiet().await?;
    Ok(())
}
