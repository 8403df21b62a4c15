//! How sure the answer is: a fold that says what the odds rest on, once the worker has told it.

use bellows::answer::Memory;
use bellows::answer::report::Told;
use bellows::shop::Shop;
use serde_json::json;

use crate::reader::labelled;
use crate::support::{BENCH, Browser, Outcome, PHONE};

/// What the same core says outside a browser.
fn told(shop: &Shop) -> Told {
    Memory::default().doubt(shop)
}

#[tokio::test(flavor = "multi_thread")]
async fn the_doubt_shows_and_a_timed_pump_up_changes_it() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    // Nothing is known yet: nothing to doubt.
    assert!(
        browser
            .text("#on-doubt .sums")
            .await?
            .contains("no verdict to doubt")
    );
    browser.type_label().await?;
    let mut shop = labelled();
    let by_label = told(&shop);
    assert_eq!(browser.text("#on-doubt .sums").await?, by_label.section.sentence);
    // The picture's bars are told in words as well, and the table has a row for each task at each place.
    let bars = browser
        .js("return [document.querySelectorAll('#on-doubt polyline.bar').length > 0, document.querySelectorAll('#on-doubt tbody tr').length, document.querySelectorAll('#on-doubt svg .word').length > 0]")
        .await?;
    let rows = by_label.section.chart.as_ref().map(|chart| chart.rows.len());
    assert_eq!(bars, json!([true, rows, true]));
    for (name, screen) in [("phone", PHONE), ("bench", BENCH)] {
        browser.resize(screen).await?;
        for scheme in browser.schemes() {
            browser.show_in(scheme).await?;
            browser
                .js("document.getElementById('later-open').click(); document.getElementById('on-doubt').open = true; document.getElementById('on-doubt').scrollIntoView()")
                .await?;
            browser.screenshot(&format!("doubt-{name}-{scheme}")).await?;
        }
    }
    browser.resize(PHONE).await?;

    for (field, text) in [
        ("pump_from", "0 psi"),
        ("pump_to", "120 psi"),
        ("pump_up", "300 s; 302 s"),
    ] {
        browser.retype(&format!("[data-own='{field}']"), text).await?;
    }
    let label = &mut shop.candidates[0];
    (label.pump_from, label.pump_to) = ("0 psi".into(), "120 psi".into());
    label.pump_up = "300 s; 302 s".into();
    let measured = told(&shop);
    assert_ne!(measured.section, by_label.section);
    assert_eq!(browser.text("#on-doubt .sums").await?, measured.section.sentence);
    let grounds = browser.text("#on-doubt .figures").await?;
    let flow = &measured.section.figures[0].value;
    assert!(grounds.contains(flow.as_str()), "{grounds}, {flow}");
    browser.is_quiet().await?;
    Ok(())
}

/// A key pressed marks what belongs to the older answer at once, until the newer one is told.
#[tokio::test(flavor = "multi_thread")]
async fn an_older_answer_s_folds_are_marked_until_the_newer_is_told() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    browser.settle().await?;
    let busy = browser
        .js("
            const field = document.getElementById('flow');
            field.value = '9 cfm';
            field.dispatchEvent(new InputEvent('input', { bubbles: true }));
            return document.getElementById('folds').ariaBusy;")
        .await?;
    assert_eq!(busy, json!("true"));
    browser.settle().await?;
    let rested = browser
        .js("return document.getElementById('folds').ariaBusy")
        .await?;
    assert_eq!(rested, json!(null));
    browser.is_quiet().await?;
    Ok(())
}
