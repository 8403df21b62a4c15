//! Three machines to choose from: a first line that says which to buy, a row for each on one screen, all figures in a table.

use serde_json::{Value, json};

use crate::engine::needs;
use crate::support::{BENCH, Browser, Outcome, PHONE, Screen};

/// The machines' indices in the order shown.
const ORDER: &str =
    "return [...document.querySelectorAll('#machines li')].map((row) => +row.dataset.candidate)";
const WIDER: &str = "return document.documentElement.scrollWidth - document.documentElement.clientWidth";

async fn sorted_by(browser: &Browser, sort: &str) -> Outcome<Value> {
    browser
        .js(&format!(
            "const sort = document.getElementById('compare-sort');
             sort.value = {sort:?};
             sort.dispatchEvent(new Event('change', {{ bubbles: true }}))"
        ))
        .await?;
    browser.settle().await?;
    browser.js(ORDER).await
}

#[tokio::test(flavor = "multi_thread")]
async fn three_machines_stand_on_one_screen_and_in_a_table() -> Outcome {
    needs!(Screen);
    let small = Screen {
        width: 390,
        height: 664,
        touch: true,
    };
    let browser = Browser::start(small).await?;
    browser.open_file().await?;
    let hidden = "return document.getElementById('choice').hidden";
    assert_eq!(
        browser.js(hidden).await?,
        json!(true),
        "one blank label is no choice"
    );
    browser.open_example().await?;
    browser.settle().await?;
    let sentence = browser.text("#compare-sentence").await?;
    assert!(sentence.starts_with("Buy “"), "{sentence}");
    browser.js("scrollTo(0, 0)").await?;
    let seen = "const { top, bottom } = document.getElementById('choice').getBoundingClientRect(); return top >= 0 && bottom <= innerHeight";
    assert_eq!(
        browser.js(seen).await?,
        json!(true),
        "three do not stand on one screen"
    );
    for (screen, scheme, name) in [
        (PHONE, "light", "compare-phone"),
        (BENCH, "dark", "compare-bench-dark"),
        (PHONE, "dark", "compare-phone-dark"),
        (BENCH, "light", "compare-bench"),
    ] {
        browser.resize(screen).await?;
        browser.show_in(scheme).await?;
        browser.js("scrollTo(0, 0)").await?;
        browser.screenshot(name).await?;
        browser.js("document.getElementById('side').open = true; document.getElementById('side').scrollIntoView()").await?;
        browser.screenshot(&format!("{name}-table")).await?;
        assert_eq!(browser.js(WIDER).await?, json!(0), "{name}");
    }
    // By the example's own prices: 155, 420, 980.
    assert_eq!(sorted_by(&browser, "price").await?, json!([1, 0, 2]));
    // By its masses: 33, 125, 290 lb.
    assert_eq!(sorted_by(&browser, "mass").await?, json!([1, 0, 2]));
    assert_eq!(sorted_by(&browser, "sound").await?, json!([0, 1, 2]));
    // The machine of eleven cfm wants 240 V, which no place of the example has: what does not run comes last.
    assert_eq!(sorted_by(&browser, "draws").await?, json!([0, 1, 2]));
    browser.tap("#machines li[data-candidate='2'] button").await?;
    browser.settle().await?;
    let told = "return [document.getElementById('verdict').textContent,
        document.querySelector('#machines li[data-candidate=\"2\"] strong').textContent,
        document.querySelector('#machines li[data-candidate=\"2\"] button').ariaPressed]";
    let told = browser.js(told).await?;
    assert_eq!(
        (&told[0], &told[2]),
        (&told[1], &json!("true")),
        "the row says what the answer says"
    );
    browser.is_quiet().await?;
    Ok(())
}

/// Types figures into the boxes of the chosen machine, after another was added where one is typed already.
fn typed(figures: &[(&str, &str)]) -> String {
    format!(
        "if (document.getElementById('flow').value) document.getElementById('add-candidate').click();
         for (const [id, text] of {}) {{
           const field = document.getElementById(id);
           field.value = text;
           field.dispatchEvent(new Event('input', {{ bubbles: true }}));
         }}",
        json!(figures)
    )
}

#[tokio::test(flavor = "multi_thread")]
async fn one_that_costs_more_and_does_less_is_said_to() -> Outcome {
    let browser = Browser::start(BENCH).await?;
    browser.open_file().await?;
    for (flow, price) in [("5", "400"), ("3", "600")] {
        browser
            .js(&typed(&[
                ("flow", flow),
                ("tank", "20"),
                ("volts", "120"),
                ("amps", "11"),
                ("price", price),
            ]))
            .await?;
    }
    let sentence = browser.text("#compare-sentence").await?;
    assert!(
        sentence.starts_with("Buy the 20 gal with 5 cfm") && sentence.contains("he 20 gal with 3 cfm"),
        "{sentence}"
    );
    Ok(())
}

/// Many machines scroll within their table, not the page.
#[tokio::test(flavor = "multi_thread")]
async fn twelve_machines_leave_the_page_as_wide_as_it_is() -> Outcome {
    let browser = Browser::start(BENCH).await?;
    browser.open_file().await?;
    for flow in 2..14 {
        browser
            .js(&typed(&[
                ("flow", &flow.to_string()),
                ("tank", "20"),
                ("price", &(100 * flow).to_string()),
            ]))
            .await?;
    }
    browser.settle().await?;
    let rows = "return [document.querySelectorAll('#machines li').length, document.querySelectorAll('#compare-table tbody tr').length]";
    assert_eq!(browser.js(rows).await?, json!([12, 12]));
    browser.js("document.getElementById('side').open = true").await?;
    for screen in [BENCH, PHONE] {
        browser.resize(screen).await?;
        assert_eq!(browser.js(WIDER).await?, json!(0));
    }
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_machine_that_is_removed_comes_back_by_undo_and_focus_stays() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.open_example().await?;
    browser.tap("#machines li[data-candidate='1'] button").await?;
    browser.tap("#remove-candidate").await?;
    browser.settle().await?;
    assert_eq!(
        browser
            .js("return document.querySelectorAll('#machines li').length")
            .await?,
        json!(2)
    );
    let focused = "return document.activeElement.closest('[data-notice=undo]') !== null";
    assert_eq!(browser.js(focused).await?, json!(true), "focus fell to the page");
    browser.tap("[data-notice=undo] button").await?;
    browser.settle().await?;
    assert_eq!(
        browser
            .js("return document.querySelectorAll('#machines li').length")
            .await?,
        json!(3)
    );
    assert_eq!(
        browser
            .js("return document.activeElement === document.body")
            .await?,
        json!(false)
    );
    Ok(())
}
