//! What is kept in the browser: it comes back, can be renamed, doubled and deleted, and a browser that refuses,
//! or keeps what cannot be read, loses nobody's work.

use bellows::shop::SCHEMA;
use bellows::shop::file;
use serde_json::{Value, json};

use crate::engine::needs;
use crate::reader::{labelled, reckoned};
use crate::support::{Browser, Outcome, PHONE};

/// Storage that takes nothing: full.
const FULL: &str =
    "Storage.prototype.setItem = () => { throw new DOMException('no room left', 'QuotaExceededError'); };";
/// Storage that is not there: switched off, as in some private windows.
const OFF: &str = "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('switched off', 'SecurityError'); } });";
/// Storage that fills up at a word from the test.
const FILLS: &str = "
    const set = Storage.prototype.setItem;
    Storage.prototype.setItem = function (key, text) {
        if (window.full) throw new DOMException('no room left', 'QuotaExceededError');
        set.call(this, key, text);
    };";

fn entry(name: &str, act: &str) -> String {
    format!("#kept [data-key='bellows.shop.{name}'] [data-act={act}]")
}

fn keys(kept: &Value) -> Vec<String> {
    kept.as_object()
        .into_iter()
        .flatten()
        .map(|(key, _)| key.clone())
        .collect()
}

#[tokio::test(flavor = "multi_thread")]
async fn a_kept_shop_comes_back() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    browser.keep_as("Kept").await?;
    browser.retype("#tank", "33 gal").await?;
    let mut shop = labelled();
    shop.name = "Kept".into();
    shop.candidates[0].tank = "33 gal".into();
    browser
        .until("localStorage.getItem('bellows.shop.Kept').includes('33 gal')")
        .await?;

    browser.reload().await?;
    assert_eq!(browser.shown().await?, reckoned(&shop));
    assert_eq!(browser.typed("#shop-name").await?, "Kept");
    let page = browser.js("return location.pathname").await?;
    let page = page.as_str().ok_or("no address")?.to_owned();
    browser.driver.goto("about:blank").await?;
    browser.open(&format!("file://{page}")).await?; // without what the address held
    assert_eq!(browser.shown().await?, reckoned(&shop));
    assert_eq!(
        browser.text("[data-notice]").await?,
        "",
        "it came back with a notice"
    );
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn shops_are_renamed_doubled_and_deleted_with_undo() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    browser.keep_as("First").await?;
    browser.enter("#shop-name", "Renamed").await?;
    browser
        .until("localStorage.getItem('bellows.shop.Renamed') !== null")
        .await?;
    assert_eq!(keys(&browser.kept().await?), ["bellows.shop.Renamed"]);

    browser.tap(&entry("Renamed", "duplicate")).await?;
    let two = ["bellows.shop.Renamed", "bellows.shop.Renamed (2)"];
    assert_eq!(keys(&browser.kept().await?), two);
    browser.enter("#shop-name", "Renamed (2)").await?;
    assert_ne!(
        browser.text("#shop-name-fault").await?,
        "",
        "a taken name is accepted"
    );
    let both = browser.kept().await?;
    assert_eq!(keys(&both), two);

    browser.tap(&entry("Renamed (2)", "remove")).await?;
    assert_eq!(keys(&browser.kept().await?), ["bellows.shop.Renamed"]);
    browser.tap("[data-notice='removed Renamed (2)'] button").await?;
    assert_eq!(browser.kept().await?, both, "undo brings back something else");
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_browser_that_keeps_nothing_still_answers() -> Outcome {
    needs!(Prepare, Download);
    for refusal in [FULL, OFF] {
        let browser = Browser::start(PHONE).await?;
        browser.before_load(refusal).await?;
        browser.open_file().await?;
        browser.type_label().await?;
        assert_eq!(browser.shown().await?, reckoned(&labelled()));
        assert_ne!(browser.text("#store-state").await?, "");
        let hidden = "return document.getElementById('keep').hidden";
        assert_eq!(
            browser.js(hidden).await?,
            json!(true),
            "what cannot be done is offered"
        );

        browser.tap("#export").await?;
        assert_eq!(file::from_json(&browser.downloaded().await?)?, labelled());
        browser.is_quiet().await?;
    }
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn storage_that_fills_up_is_said_and_the_shop_offered_as_a_file() -> Outcome {
    needs!(Prepare, Download);
    let browser = Browser::start(PHONE).await?;
    browser.before_load(FILLS).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    browser.keep_as("Full").await?;
    let kept = browser.kept().await?;
    browser.js("window.full = true").await?;
    browser.retype("#tank", "33 gal").await?;
    browser
        .until("document.querySelector('[data-notice=saving]') !== null")
        .await?;
    assert_eq!(browser.kept().await?, kept);

    browser.tap("[data-notice=saving] button").await?;
    let shop = file::from_json(&browser.downloaded().await?)?;
    assert_eq!(shop.candidates[0].tank, "33 gal");
    Ok(())
}

/// Puts what cannot be read under a name, as if it had been there for long.
async fn planted(text: &str) -> Outcome<Browser> {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    let plant = format!(
        "localStorage.setItem('bellows.shop.Old', {}); localStorage.setItem('bellows.current', 'Old')",
        json!(text)
    );
    browser.js(&plant).await?;
    browser.driver.goto("about:blank").await?;
    browser.open_file().await?;
    Ok(browser)
}

#[tokio::test(flavor = "multi_thread")]
async fn damaged_and_newer_data_is_left_alone_and_offered_as_a_file() -> Outcome {
    needs!(Download);
    let newer = format!(r#"{{"version":{}}}"#, SCHEMA + 1);
    for text in ["{\"version\":1,\"candidates\":[{\"flow", newer.as_str()] {
        let browser = planted(text).await?;
        let refusal = file::from_json(text).err().ok_or("it can be read")?.to_string();
        assert!(browser.text("[data-notice=store]").await?.contains(&refusal));
        assert!(
            browser
                .text("#kept [data-key='bellows.shop.Old']")
                .await?
                .contains(&refusal)
        );
        browser.tap(&entry("Old", "save")).await?;
        assert_eq!(browser.downloaded().await?, text);

        browser.type_label().await?;
        assert_eq!(browser.shown().await?, reckoned(&labelled()));
        browser.enter("#shop-name", "Old").await?;
        browser.tap("#keep").await?;
        browser
            .until("Object.keys(localStorage).filter((key) => /^bellows[.](shop|aside)[.]/.test(key)).length === 2")
            .await?;
        let kept = browser.kept().await?;
        let texts = kept.as_object().ok_or("nothing kept")?;
        assert!(
            texts.values().any(|value| value == text),
            "the old data is gone: {kept}"
        );
        assert!(
            texts
                .values()
                .any(|value| value.as_str().is_some_and(|text| file::from_json(text).is_ok())),
            "the new shop is not kept: {kept}"
        );
    }
    Ok(())
}
