//! At the machine: a pump-up timed with the page's clock, and times that were typed.

use std::time::Instant;

use bellows::answer::report::View;
use serde_json::json;
use thirtyfour::{By, Key};

use crate::reader::labelled;
use crate::support::{Browser, Outcome, PHONE};

const TIME: &str = "[data-own='pump_up']";
const CLOCK: &str = ".times:has([data-own='pump_up']) + .clock button";

/// The seconds in the field of times, run by run.
async fn times(browser: &Browser) -> Outcome<Vec<f64>> {
    let text = browser
        .js(&format!("return document.querySelector({TIME:?}).value"))
        .await?;
    let text = text.as_str().unwrap_or_default();
    let times = text.split("; ").map(|run| run.trim_end_matches(" s").parse());
    Ok(times.collect::<Result<_, _>>()?)
}

/// What the page says of the pump-up, once it says something.
async fn told(browser: &Browser) -> Outcome<String> {
    const FINDING: &str = "[...document.querySelectorAll('#on-label .findings p')].map((p) => p.textContent).find((text) => text.startsWith('Measured: '))";
    browser.until(&format!("{FINDING} !== undefined")).await?;
    let text = browser.js(&format!("return {FINDING}")).await?;
    Ok(text.as_str().unwrap_or_default().to_owned())
}

/// The clock's field shows tenths.
const TENTH: f64 = 0.1;

/// Waits until the running clock shows more than a second.
async fn runs(browser: &Browser) -> Outcome {
    let shown =
        format!("parseFloat(document.querySelector({CLOCK:?}).querySelector('.running').textContent) > 1");
    browser.until(&shown).await
}

/// No outside clock knows when within a press the page hears it: the time lies between that from after the first press
/// to before the second, and that from before the first to after the second. A busy machine widens both.
#[tokio::test(flavor = "multi_thread")]
async fn the_clock_is_started_and_stopped_with_one_large_button() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.tap("#plate > summary").await?;
    let clock = browser.driver.find(By::Css(CLOCK)).await?;
    let size = clock.rect().await?;
    assert!(size.height >= 88.0 && size.width >= 300.0, "{size:?}");

    let start = Instant::now();
    browser.tap(CLOCK).await?;
    let started = Instant::now();
    runs(&browser).await?;
    let running = clock.text().await?;
    assert!(running.contains("Stop") && running.contains(" s"), "{running}");
    browser.screenshot("clock-running").await?;
    let least = started.elapsed().as_secs_f64() - TENTH;
    clock.click().await?;
    let most = start.elapsed().as_secs_f64() + TENTH;
    let [first] = times(&browser).await?[..] else {
        return Err("no single time in the field".into());
    };
    assert!((least..most).contains(&first), "{first} s, {least} to {most}");

    // Again by keyboard; the time goes behind the first.
    let start = Instant::now();
    clock.send_keys(Key::Enter + "").await?;
    let started = Instant::now();
    runs(&browser).await?;
    let least = started.elapsed().as_secs_f64() - TENTH;
    clock.send_keys(Key::Space + "").await?;
    let most = start.elapsed().as_secs_f64() + TENTH;
    let both = times(&browser).await?;
    assert!(
        both.len() == 2 && both[0] == first && (least..most).contains(&both[1]),
        "{both:?}, {least} to {most}"
    );
    browser.is_quiet().await?;
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn typed_times_give_what_was_measured() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    browser.tap("#plate > summary").await?;
    for (field, text) in [
        ("pump_from", "0 psi"),
        ("pump_to", "120 psi"),
        ("pump_up", "410 s; 405 s"),
    ] {
        browser.retype(&format!("[data-own='{field}']"), text).await?;
    }
    let mut shop = labelled();
    let label = &mut shop.candidates[0];
    (label.pump_from, label.pump_to) = ("0 psi".into(), "120 psi".into());
    label.pump_up = "410 s; 405 s".into();
    let report = bellows::answer::report(&shop, View::default());
    let mut findings = report.sections.iter().flat_map(|section| &section.findings);
    let own = findings
        .find(|finding| finding.id == "measured")
        .ok_or("the core finds nothing measured")?;
    assert_eq!(told(&browser).await?, own.text);
    let shown = browser.shown().await?;
    assert_eq!(shown["sentence"], json!(report.answer.sentence));
    browser.tap("#on-label > summary").await?;
    browser.screenshot("measured-phone").await?;
    Ok(())
}
