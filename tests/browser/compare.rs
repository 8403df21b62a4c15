//! Three candidates side by side: cards on a phone, a table on a bench PC, read and sorted by whoever must choose.

use serde_json::{Value, json};

use crate::support::{BENCH, Browser, Outcome, PHONE};

/// The candidates' indices in the order shown.
const ORDER: &str =
    "return [...document.querySelectorAll('#compare tbody tr')].map((row) => +row.dataset.candidate)";
const SHOWN: &str = "document.querySelectorAll('#compare tbody tr').length === 3";
const WIDER: &str = "return document.documentElement.scrollWidth - document.documentElement.clientWidth";

async fn sorted_by(browser: &Browser, sort: &str) -> Outcome<Value> {
    browser
        .js(&format!(
            "const sort = document.getElementById('compare-sort');
             sort.value = {sort:?};
             sort.dispatchEvent(new Event('change', {{ bubbles: true }}))"
        ))
        .await?;
    browser.js(ORDER).await
}

#[tokio::test(flavor = "multi_thread")]
async fn three_candidates_compare_as_cards_and_as_a_table() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    assert_eq!(
        browser
            .js("return document.getElementById('compare').hidden")
            .await?,
        json!(true),
        "one blank label is no comparison"
    );
    browser.open_example().await?;
    browser.until(SHOWN).await?;
    for (screen, scheme, name) in [
        (PHONE, "light", "compare-phone"),
        (BENCH, "dark", "compare-bench-dark"),
        (PHONE, "dark", "compare-phone-dark"),
        (BENCH, "light", "compare-bench"),
    ] {
        browser.resize(screen).await?;
        browser.show_in(scheme).await?;
        browser
            .js("document.getElementById('compare').scrollIntoView()")
            .await?;
        browser.screenshot(name).await?;
        assert_eq!(browser.js(WIDER).await?, json!(0), "{name}");
    }
    // By the example's own prices: 155, 420, 980.
    assert_eq!(sorted_by(&browser, "price").await?, json!([1, 0, 2]));
    // By its masses: 33, 125, 290 lb.
    assert_eq!(sorted_by(&browser, "mass").await?, json!([1, 0, 2]));
    assert_eq!(sorted_by(&browser, "sound").await?, json!([0, 1, 2]));
    // The machine of eleven cfm wants 240 V, which no place of the example has: what does not run comes last.
    assert_eq!(sorted_by(&browser, "draws").await?, json!([0, 1, 2]));
    browser
        .js("document.querySelector('#compare tr[data-candidate=\"2\"] button').click()")
        .await?;
    browser
        .until("document.querySelector('#compare tr[data-candidate=\"2\"] button').ariaPressed === 'true'")
        .await?;
    let told = "return [document.getElementById('verdict').textContent,
        document.querySelector('#compare tr[data-candidate=\"2\"] strong').textContent]";
    let told = browser.js(told).await?;
    assert_eq!(told[0], told[1], "the row says what the answer says");
    browser.is_quiet().await?;
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn one_that_costs_more_and_does_less_is_said_to() -> Outcome {
    let browser = Browser::start(BENCH).await?;
    browser.open_file().await?;
    for (flow, price) in [("5", "400"), ("3", "600")] {
        browser
            .js(&format!(
                "if (document.getElementById('flow').value) document.getElementById('add-candidate').click();
                 for (const [own, text] of [['flow', {flow:?}], ['tank', '20'], ['volts', '120'], ['amps', '11'], ['price', {price:?}]]) {{
                   const field = document.querySelector(`[data-own=${{own}}]`);
                   field.value = text;
                   field.dispatchEvent(new Event('input', {{ bubbles: true }}));
                 }}"
            ))
            .await?;
    }
    browser
        .until("document.getElementById('compare-sentence')?.textContent.startsWith('Buy “No. 1')")
        .await?;
    let sentence = browser.text("#compare-sentence").await?;
    assert!(sentence.contains("“No. 2"), "{sentence}");
    Ok(())
}

/// Many machines scroll within their table, not the page.
#[tokio::test(flavor = "multi_thread")]
async fn twelve_machines_leave_the_page_as_wide_as_it_is() -> Outcome {
    let browser = Browser::start(BENCH).await?;
    browser.open_file().await?;
    browser
        .js("for (let flow = 2; flow < 14; flow += 1) {
               if (flow > 2) document.getElementById('add-candidate').click();
               for (const [own, text] of [['flow', flow], ['tank', '20'], ['price', 100 * flow]]) {
                 const field = document.querySelector(`[data-own=${own}]`);
                 field.value = text;
                 field.dispatchEvent(new Event('input', { bubbles: true }));
               }
             }")
        .await?;
    browser
        .until("document.querySelectorAll('#compare tbody tr').length === 12")
        .await?;
    for screen in [BENCH, PHONE] {
        browser.resize(screen).await?;
        assert_eq!(browser.js(WIDER).await?, json!(0));
    }
    Ok(())
}

/// Where the chosen one of the row stands: whether it is within the row, and what it is called.
const CHIP: &str = "
    const row = document.getElementById('candidates'), chip = row.querySelector('[aria-pressed=true]');
    const [frame, box] = [row, chip].map((node) => node.getBoundingClientRect());
    return [box.left >= frame.left - 1 && box.right <= frame.right + 1, chip.textContent];";

#[tokio::test(flavor = "multi_thread")]
async fn the_chosen_one_of_many_is_named_and_stands_within_the_row() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.open_example().await?;
    browser.tap("#add-candidate").await?;
    browser.tap("#add-candidate").await?;
    assert_eq!(browser.js(CHIP).await?, json!([true, "No. 5"]));
    let before = browser.js("return scrollY").await?;
    browser.retype("#tank", "20").await?;
    assert_eq!(browser.js(CHIP).await?, json!([true, "No. 5, 20 gal"]));
    browser.retype("#tank", "60 L").await?;
    assert_eq!(browser.js(CHIP).await?, json!([true, "No. 5, 60 L"]));
    assert_eq!(browser.js("return scrollY").await?, before, "the page jumped");
    let gap = browser
        .js("return document.querySelector('label[for=flow]').getBoundingClientRect().top - document.getElementById('candidates').getBoundingClientRect().bottom")
        .await?;
    assert!(
        gap.as_f64().is_some_and(|px| px >= 6.0),
        "Flow stands {gap} px below the row's scroll bar"
    );
    browser.screenshot("chips-phone").await?;
    // Back to the first, whose button is out of the row by now: chosen in the table.
    browser
        .js("document.querySelector('#compare tr[data-candidate=\"0\"] button').click()")
        .await?;
    assert_eq!(browser.js(CHIP).await?, json!([true, "Upright, 20 gal"]));
    browser.is_quiet().await?;
    Ok(())
}
