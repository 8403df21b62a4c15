//! How sure the answer is: beside the headline and as a subject, once typing rests.

use bellows::answer::Memory;
use bellows::answer::report::Told;
use bellows::shop::Shop;
use serde_json::{Value, json};

use crate::reader::{labelled, put};
use crate::support::{BENCH, Browser, Outcome, PHONE};

/// What the same core says outside a browser.
fn told(shop: &Shop) -> Told {
    Memory::default().doubt(shop)
}

const SETTLED: &str = "!document.getElementById('sure').hidden && !document.getElementById('sure').classList.contains('pending')";

async fn sentence(browser: &Browser) -> Outcome<Value> {
    browser.until(SETTLED).await?;
    browser
        .js("return document.getElementById('sure').textContent")
        .await
}

#[tokio::test(flavor = "multi_thread")]
async fn the_doubt_shows_and_a_timed_pump_up_changes_it() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    // Nothing is known yet: nothing to doubt.
    browser
        .until("document.querySelector('#on-doubt .sums').textContent.includes('no verdict to doubt')")
        .await?;
    let hidden = browser
        .js("return document.getElementById('sure').hidden")
        .await?;
    assert_eq!(hidden, json!(true));

    browser.type_label().await?;
    let mut shop = labelled();
    let by_label = told(&shop);
    assert_eq!(sentence(&browser).await?, json!(by_label.sentence));
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
            browser.js("document.getElementById('on-doubt').open = true; document.querySelector('h1').scrollIntoView()").await?;
            browser.screenshot(&format!("doubt-top-{name}-{scheme}")).await?;
            browser
                .js("document.getElementById('on-doubt').scrollIntoView()")
                .await?;
            browser.screenshot(&format!("doubt-{name}-{scheme}")).await?;
            browser
                .js("document.querySelector('#on-doubt figure').scrollIntoView()")
                .await?;
            browser.screenshot(&format!("doubt-bars-{name}-{scheme}")).await?;
        }
    }
    browser.resize(PHONE).await?;

    browser.js("document.getElementById('plate').open = true").await?;
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
    browser
        .until(&format!(
            "{SETTLED} && document.getElementById('sure').textContent === {}",
            json!(measured.sentence)
        ))
        .await?;
    let grounds = browser
        .js("return document.querySelector('#on-doubt .figures').textContent")
        .await?;
    let flow = &measured.section.figures[0].value;
    assert!(
        grounds.as_str().is_some_and(|text| text.contains(flow.as_str())),
        "{grounds}, {flow}"
    );
    browser.is_quiet().await?;
    Ok(())
}

/// A key pressed hides what belongs to the older answer at once; the old text never stands beside the new.
#[tokio::test(flavor = "multi_thread")]
async fn an_older_doubt_is_not_shown_beside_a_newer_answer() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    let before = sentence(&browser).await?;
    let seen = browser
        .js("
            const field = document.getElementById('flow'), line = document.getElementById('sure');
            field.value = '9 cfm';
            field.dispatchEvent(new InputEvent('input', { bubbles: true }));
            return [getComputedStyle(line).visibility, getComputedStyle(document.querySelector('#on-doubt .sums')).visibility];")
        .await?;
    assert_eq!(seen, json!(["hidden", "hidden"]));
    let mut shop = labelled();
    put(&mut shop, "flow", "9 cfm");
    let after = sentence(&browser).await?;
    assert_eq!(after, json!(told(&shop).sentence));
    assert_ne!(after, before);
    browser.is_quiet().await?;
    Ok(())
}
