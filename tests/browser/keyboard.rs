//! By keyboard and screen reader alone: everything that counts is reached, and the answer speaks for itself.

use serde_json::{Value, json};
use thirtyfour::Key;

use crate::support::{BENCH, Browser, Outcome};

/// The focused thing as a word: a label's field by its id, a verdict row as `row PLACE TASK`, others by id or blank.
const FOCUSED: &str = "
    const node = document.activeElement;
    const place = node.closest('[data-place]')?.dataset.place;
    if (node.dataset.task) return `row ${place} ${node.dataset.task}`;
    return node.id || '';";

#[tokio::test(flavor = "multi_thread")]
async fn tab_reaches_the_label_in_its_order_and_then_each_verdict() -> Outcome {
    let browser = Browser::start(BENCH).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    browser.settle().await?;
    browser.js("document.getElementById('on-tasks').open = true; document.activeElement.blur(); getSelection().removeAllRanges(); document.querySelector('h1').tabIndex = -1; document.querySelector('h1').focus()").await?;
    let rows = browser
        .js("return [...document.querySelectorAll('[data-task]')].map((node) => `row ${node.closest('[data-place]').dataset.place} ${node.dataset.task}`)")
        .await?;
    let rows: Vec<_> = rows
        .as_array()
        .into_iter()
        .flatten()
        .filter_map(Value::as_str)
        .collect();
    assert!(rows.len() > 4, "{rows:?}");
    let wanted: Vec<_> = ["flow", "tank", "amps", "volts", "cut_out", "price"]
        .into_iter()
        .chain(rows)
        .collect();

    let mut met = Vec::new();
    for _ in 0..80 {
        browser
            .driver
            .action_chain()
            .send_keys(Key::Tab + "")
            .perform()
            .await?;
        let focused = browser.js(FOCUSED).await?;
        let focused = focused.as_str().unwrap_or_default().to_owned();
        if wanted.contains(&focused.as_str()) {
            met.push(focused);
        }
        if met.last().map(String::as_str) == wanted.last().copied() {
            break;
        }
    }
    assert_eq!(met, wanted);

    browser
        .driver
        .action_chain()
        .send_keys(Key::Enter + "")
        .perform()
        .await?;
    const OPEN: &str = "return document.activeElement.getAttribute('aria-expanded') === 'true' && document.getElementById('row-detail').getBoundingClientRect().height > 0";
    assert_eq!(browser.js(OPEN).await?, json!(true), "Enter opens no row");
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_answer_announces_itself_and_every_field_has_a_name() -> Outcome {
    let browser = Browser::start(BENCH).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    // Told once typing rests, and no longer than a breath.
    const SPOKEN: &str = "document.querySelector('#spoken[role=status]').textContent.startsWith(document.getElementById('sentence').textContent.split(' ').slice(0, 20).join(' ')) && document.getElementById('spoken').textContent.split(' ').length <= 26";
    browser.settle().await?;
    browser.until(SPOKEN).await?;
    const NAMELESS: &str = "
        const named = (node) => node.getAttribute('aria-label') || [...(node.labels ?? [])].some((label) => label.textContent.trim()) || (node.tagName === 'BUTTON' && node.textContent.trim());
        return [...document.querySelectorAll('input, select, textarea, button')].filter((node) => !named(node)).map((node) => node.outerHTML);";
    assert_eq!(browser.js(NAMELESS).await?, json!([]));
    Ok(())
}
