//! In the store aisle: a label is typed on a phone, and the answer follows.

use bellows::shop::Shop;
use serde_json::json;

use crate::reader::{LABEL, labelled, put, reckoned};
use crate::site::Site;
use crate::support::{Browser, Outcome, PHONE, dist};

/// Whether the whole of the answer's words stands on the screen, with nothing drawn over it.
const IN_VIEW: &str = "
    const box = document.getElementById('said').getBoundingClientRect();
    const inside = box.height > 0 && box.top >= 0 && box.left >= 0 && box.bottom <= innerHeight && box.right <= innerWidth;
    const corners = [[box.left + 2, box.top + 2], [box.left + 2, box.bottom - 2]];
    return inside && corners.every(([x, y]) => document.elementFromPoint(x, y)?.closest('#answer') !== null);";

/// By how much the page is wider than the screen, and what sticks out unless it scrolls by itself.
const OVERFLOW: &str = "
    const out = [...document.querySelectorAll('main *')].filter((node) =>
        node.checkVisibility() && node.getBoundingClientRect().right > innerWidth + 1 &&
        !node.closest('.scroll, svg, .unseen, .fault'));
    return [document.documentElement.scrollWidth - innerWidth, out.map((node) => node.id || node.className || node.tagName)];";

async fn the_label_is_typed(browser: &Browser) -> Outcome {
    let mut shop = Shop::fresh();
    assert_eq!(browser.shown().await?, reckoned(&shop), "before the first key");
    for (field, text) in LABEL {
        for (at, key) in text.char_indices() {
            browser.press(&format!("#{field}"), &key.to_string()).await?;
            let so_far = &text[..at + key.len_utf8()];
            put(&mut shop, field, so_far);
            assert_eq!(browser.shown().await?, reckoned(&shop), "{field}: {so_far}");
        }
    }
    Ok(())
}

/// Seen while the last field of the label has the focus.
async fn the_answer_is_whole_and_in_view(browser: &Browser) -> Outcome {
    assert_eq!(
        browser.js("return document.activeElement.id").await?,
        json!("price")
    );
    assert_eq!(
        browser.js(IN_VIEW).await?,
        json!(true),
        "the answer is out of view"
    );
    let shown = browser.shown().await?;
    let sentence = shown["sentence"].as_str().unwrap_or_default();
    assert!(
        sentence.ends_with('.') && sentence.len() > 40,
        "no sentence: {sentence}"
    );
    let on = Shop::fresh().tasks.iter().filter(|task| task.on).count();
    let places = shown["places"].as_array().ok_or("no places")?;
    assert_eq!(places.len(), Shop::fresh().places.len());
    for place in places {
        let tasks = place["tasks"].as_array().ok_or("no tasks")?;
        assert_eq!(tasks.len(), on);
        for row in tasks {
            let judged = row[1] != json!("unsure") && row[1] != json!("note");
            assert!(judged && row[2] != json!(""), "a full label leaves {row} open");
        }
    }
    assert_eq!(browser.js(OVERFLOW).await?, json!([0, []]));
    const LEAKS: &str =
        "return document.querySelector('main').innerText.match(/undefined|NaN|null|\\[object/g)";
    assert_eq!(browser.js(LEAKS).await?, json!(null), "values without words");
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_sentence_follows_each_key_from_the_file() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    the_label_is_typed(&browser).await?;
    the_answer_is_whole_and_in_view(&browser).await?;
    browser.is_quiet().await?;
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_sentence_follows_each_key_from_a_host() -> Outcome {
    let site = Site::start(dist().join("site"))?;
    let browser = Browser::start(PHONE).await?;
    browser.open(&site.url()).await?;
    the_label_is_typed(&browser).await?;
    the_answer_is_whole_and_in_view(&browser).await?;
    browser.is_quiet().await?;
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn horsepower_alone_gives_a_range_and_no_verdict_that_looks_measured() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.press("#power", "2 hp").await?;
    let mut shop = Shop::fresh();
    put(&mut shop, "power", "2 hp");
    let shown = browser.shown().await?;
    assert_eq!(shown, reckoned(&shop));

    let closed = browser.text("#on-tasks .sums").await?;
    assert!(!closed.contains("No job waits"), "of a guess: {closed}");

    // "Likely 2.1 cfm to 4.2 cfm." stands below the sentence, which asks for the flow.
    let why = browser
        .js("return document.getElementById('odds').textContent")
        .await?;
    let why = why.as_str().unwrap_or_default();
    let words: Vec<_> = why.split(' ').collect();
    let flows = words.windows(2).filter(|pair| pair[1].starts_with("cfm"));
    let flows = flows
        .map(|pair| pair[0].parse())
        .collect::<Result<Vec<f64>, _>>()?;
    assert!(
        matches!(flows[..], [low, high] if low < high),
        "no range of flow: {why}"
    );
    let grade = shown["grade"].as_str().unwrap_or_default();
    assert!(
        ["unsure", "fair"].contains(&grade),
        "a guess may warn, no more: {grade}"
    );
    for place in shown["places"].as_array().ok_or("no places")? {
        for row in place["tasks"].as_array().ok_or("no tasks")? {
            // Where both ends of the guess agree there may be a grade, but then no figure that looks timed.
            let figure = row[2]
                .as_str()
                .unwrap_or_default()
                .contains(|c: char| c.is_ascii_digit());
            assert!(
                row[1] == json!("unsure") || !figure,
                "a guess looks measured: {row}"
            );
        }
    }
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn what_cannot_be_read_is_kept_and_spoils_nothing_else() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    browser.retype("#tank", "twenty").await?;

    let mut shop = labelled();
    put(&mut shop, "tank", "twenty");
    assert_eq!(browser.typed("#tank").await?, "twenty");
    assert_eq!(browser.shown().await?, reckoned(&shop));
    let fault = browser.text("#tank-fault").await?;
    assert!(
        fault.contains("twenty"),
        "the fault does not say what was read: {fault}"
    );
    const BESIDE: &str = "
        const field = document.getElementById('tank').getBoundingClientRect();
        const fault = document.getElementById('tank-fault').getBoundingClientRect();
        return [document.getElementById('tank').getAttribute('aria-invalid'), fault.height > 0 && fault.top - field.bottom < 12];";
    assert_eq!(browser.js(BESIDE).await?, json!(["true", true]));
    for other in ["flow", "at", "power", "volts", "amps", "price"] {
        assert_eq!(browser.text(&format!("#{other}-fault")).await?, "");
    }
    let rows = "return document.querySelectorAll('button[data-task]').length > 0";
    assert_eq!(browser.js(rows).await?, json!(true), "the other answers are gone");

    browser.retype("#tank", "20 gal").await?;
    assert_eq!(browser.text("#tank-fault").await?, "");
    assert_eq!(browser.shown().await?, reckoned(&labelled()));
    Ok(())
}
