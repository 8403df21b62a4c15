//! A figure opens its own sum in place, by keyboard as by touch, and it stays open while one types.

use serde_json::json;
use thirtyfour::Key;

use crate::support::{Browser, Outcome, PHONE};

/// What the focused figure shows: its name, its value, whether it is open, what its sum says.
const SHOWN: &str = "
    const ask = document.activeElement.closest('.ask');
    const [term, value, panel] = ask.closest('.figures > div').children;
    return {
        name: ask.textContent,
        value: value.textContent,
        open: ask.getAttribute('aria-expanded'),
        sum: panel.hidden ? '' : panel.innerText,
    };";

const WIDER: &str = "return document.documentElement.scrollWidth - document.documentElement.clientWidth";

#[tokio::test(flavor = "multi_thread")]
async fn a_figure_opens_its_sum_by_keyboard_and_keeps_it_open() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    browser.settle().await?;
    browser
        .js("document.getElementById('later-open').click(); document.getElementById('on-label').open = true")
        .await?;
    browser
        .until("document.querySelector('#on-label .ask') !== null")
        .await?;
    browser
        .js("document.querySelector('#on-label summary').focus()")
        .await?;
    let press = async |key: Key| browser.driver.action_chain().send_keys(key + "").perform().await;
    press(Key::Tab).await?;
    let closed = browser.js(SHOWN).await?;
    assert_eq!(closed["name"], json!("delivers at 40 psi"));
    assert_eq!(closed["open"], json!("false"));
    press(Key::Enter).await?;
    browser.told().await?;
    let open = browser.js(SHOWN).await?;
    assert_eq!(open["open"], json!("true"));
    let sum = open["sum"].as_str().unwrap_or_default().to_owned();
    let value = open["value"].as_str().unwrap_or_default();
    for part in [
        "q = q₁",
        "flow stated",
        "gives",
        value,
        "source",
        "FM 5-434",
        "leaves out",
    ] {
        assert!(sum.contains(part), "no {part} in {sum}");
    }
    assert_eq!(browser.js(WIDER).await?, json!(0));
    browser.screenshot("sum-phone").await?;

    // A keystroke in the label: still open, with the new number.
    browser
        .js("const flow = document.getElementById('flow'); flow.value = '3.9'; flow.dispatchEvent(new InputEvent('input', { bubbles: true }));")
        .await?;
    browser
        .until("document.querySelector('#on-label .sum').innerText.includes('3.9 cfm')")
        .await?;
    browser.settle().await?;
    browser.told().await?;
    let after = browser.js(SHOWN).await?;
    assert_eq!(after["open"], json!("true"));
    assert_ne!(after["value"], open["value"]);
    let sum = after["sum"].as_str().unwrap_or_default();
    assert!(sum.contains(after["value"].as_str().unwrap_or("?")), "{sum}");

    press(Key::Enter).await?;
    assert_eq!(browser.js(SHOWN).await?["open"], json!("false"));
    browser.is_quiet().await?;
    Ok(())
}

/// Every figure of the page offers its sum, each a target for a finger; all open, nothing scrolls sideways.
#[tokio::test(flavor = "multi_thread")]
async fn every_figure_has_a_sum_that_fits_a_phone() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.open_example().await?;
    browser.settle().await?;
    browser
        .js("for (const node of document.querySelectorAll('.subject')) node.open = true")
        .await?;
    browser
        .until("document.querySelectorAll('#folds .ask').length > 5")
        .await?;
    browser.settle().await?;
    const SMALL: &str = "
        return [...document.querySelectorAll('.ask')].filter((ask) => ask.checkVisibility()).filter((ask) => {
            const row = ask.closest('.figures > div').getBoundingClientRect();
            return row.height < 44 || parseFloat(getComputedStyle(ask, '::after').height) < 44;
        }).map((ask) => ask.textContent);";
    assert_eq!(browser.js(SMALL).await?, json!([]));
    browser
        .js("for (const ask of document.querySelectorAll('.ask')) ask.click()")
        .await?;
    browser.told().await?;
    // The ranges that the odds are drawn from go into the sums; they are none themselves.
    const OPEN: &str = "return [...document.querySelectorAll('.figures > div')].filter((row) => !row.closest('#on-doubt') && !row.querySelector('.sum:not([hidden]) .equation')?.textContent).map((row) => row.textContent)";
    assert_eq!(browser.js(OPEN).await?, json!([]));
    browser
        .js("document.querySelector('#on-label').scrollIntoView()")
        .await?;
    browser.screenshot("sums-phone").await?;
    assert_eq!(browser.js(WIDER).await?, json!(0));
    browser.is_quiet().await?;
    Ok(())
}
