//! All shops move to another browser in one file: the same answers there, a question where names clash, nothing lost.

use std::collections::BTreeMap;

use bellows::answer::report::View;
use bellows::shop::bundle;
use bellows::shop::file;
use bellows::shop::{SCHEMA, Shop};
use serde_json::{Value, json};

use crate::engine::needs;
use crate::reader::{labelled, reckoned};
use crate::support::{Browser, Outcome, PHONE};

const NOTICE: &str = "[data-notice=link] p";

/// Three shops whose names a page might stumble over.
fn shops() -> Vec<Shop> {
    let mut tall = labelled();
    tall.name = "\"Tall\" hangar & <b>shed</b>".into();
    tall.places[0].altitude = "7,000 ft".into();
    let mut metric = Shop::demo();
    metric.name = "🛠️ قاعة".into();
    metric.units = bellows::shop::Units::Metric;
    metric.chosen = 2;
    let mut plain = labelled();
    plain.name = "__proto__".into();
    plain.candidates[0].tank = "60 gal".into();
    vec![tall, metric, plain]
}

/// Puts shops into storage as if they had been kept on an earlier visit, and opens the page anew.
async fn plant(browser: &Browser, shops: &[Shop]) -> Outcome {
    for shop in shops {
        let (key, text) = (format!("bellows.shop.{}", shop.name), file::to_json(shop));
        browser
            .js(&format!("localStorage.setItem({}, {})", json!(key), json!(text)))
            .await?;
    }
    reopen(browser).await
}

/// Opens the page without what the address held.
async fn reopen(browser: &Browser) -> Outcome {
    browser.driver.goto("about:blank").await?;
    browser.open_file().await
}

/// Chooses a file in the page, as the browser's own dialogue would.
async fn choose(browser: &Browser, text: &str) -> Outcome {
    let script = format!(
        "const chosen = new DataTransfer();
         chosen.items.add(new File([{}], 'shops.json'));
         const input = document.getElementById('import-file');
         input.files = chosen.files;
         input.dispatchEvent(new Event('change'));",
        json!(text)
    );
    browser.js(&script).await?;
    Ok(())
}

/// What is kept, read as shops: two builds may write the fields of one in another order.
async fn kept_shops(browser: &Browser) -> Outcome<BTreeMap<String, Shop>> {
    let kept = browser.kept().await?;
    let texts = kept.as_object().into_iter().flatten();
    texts
        .map(|(key, text)| Ok((key.clone(), file::from_json(text.as_str().unwrap_or_default())?)))
        .collect()
}

async fn open_kept(browser: &Browser, name: &str) -> Outcome {
    let open = format!(
        "[...document.querySelectorAll('#kept li')].find(({{ dataset }}) => dataset.key === {}).querySelector('[data-act=open]')?.click()",
        json!(format!("bellows.shop.{name}"))
    );
    browser.js(&open).await?;
    assert_eq!(browser.typed("#shop-name").await?, name);
    Ok(())
}

async fn answers(browser: &Browser, names: &[String]) -> Outcome<Vec<Value>> {
    let mut answers = Vec::new();
    for name in names {
        open_kept(browser, name).await?;
        answers.push(browser.shown().await?);
    }
    Ok(answers)
}

#[tokio::test(flavor = "multi_thread")]
async fn all_shops_come_back_with_the_same_answers_after_all_was_cleared() -> Outcome {
    needs!(Download);
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    plant(&browser, &shops()).await?;
    let names: Vec<_> = shops().into_iter().map(|shop| shop.name).collect();
    let before = answers(&browser, &names).await?;
    assert_eq!(before, shops().iter().map(reckoned).collect::<Vec<_>>());
    let kept = kept_shops(&browser).await?;
    // One more is open and kept nowhere.
    browser.open_example().await?;
    browser.tap("#export-all").await?;
    let text = browser.downloaded().await?;
    assert_eq!(bundle::from_json(&text)?.len(), 4);
    // What was said of that file does not stand beside a later fault.
    choose(&browser, "no shop at all").await?;
    browser
        .until(&format!(
            "document.querySelector('{NOTICE}')?.textContent.includes('nothing was changed')"
        ))
        .await?;
    assert_eq!(browser.text("[data-notice=exported]").await?, "");

    browser.js("localStorage.clear()").await?;
    reopen(&browser).await?;
    assert_eq!(browser.kept().await?, json!({}));
    choose(&browser, &text).await?;
    browser
        .until("Object.keys(localStorage).filter((key) => key.startsWith('bellows.shop.')).length === 4")
        .await?;
    assert!(browser.text(NOTICE).await?.contains("Kept 4 shops"));
    assert_eq!(
        browser.typed("#shop-name").await?,
        "Example shop",
        "what was open opens"
    );
    assert_eq!(browser.shown().await?, reckoned(&Shop::demo()));
    assert_eq!(answers(&browser, &names).await?, before);
    let again = kept_shops(&browser).await?;
    for name in &names {
        let key = format!("bellows.shop.{name}");
        assert_eq!(again.get(&key), kept.get(&key), "{name}");
    }
    browser.is_quiet().await?;
    Ok(())
}

/// The same shops with another machine's tank each.
fn changed() -> Vec<Shop> {
    let mut changed = shops();
    for shop in &mut changed {
        shop.candidates[0].tank = "33 gal".into();
    }
    changed
}

#[tokio::test(flavor = "multi_thread")]
async fn clashing_names_are_asked_about_once_and_can_be_taken_back() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    plant(&browser, &shops()).await?;
    let names: Vec<_> = shops().into_iter().map(|shop| shop.name).collect();
    open_kept(&browser, &names[0]).await?;
    let kept = kept_shops(&browser).await?;
    let text = bundle::to_json(&changed())?;

    choose(&browser, &text).await?;
    browser
        .until("!document.getElementById('incoming').hidden")
        .await?;
    assert_eq!(
        kept_shops(&browser).await?,
        kept,
        "taken in before it was decided"
    );
    browser.screenshot("phone-clashes").await?;
    browser.press_words("#incoming", "Cancel").await?;
    assert_eq!(kept_shops(&browser).await?, kept);

    choose(&browser, &text).await?;
    browser
        .until("!document.getElementById('incoming').hidden")
        .await?;
    browser.tap("#incoming [name=clash-all][value=replace]").await?;
    browser.tap("#incoming [name='clash-1'][value=leave]").await?;
    browser.tap("#incoming [name='clash-2'][value=both]").await?;
    browser.press_words("#incoming", "Import").await?;
    assert_eq!(kept_shops(&browser).await?.len(), 4);
    // The open shop was replaced: the page shows the new one and does not write the old one over it.
    assert_eq!(browser.shown().await?, reckoned(&changed()[0]));
    browser.retype("#amps", "12.4 A").await?;
    let mut edited = changed()[0].clone();
    edited.candidates[0].amps = "12.4 A".into();
    let key = format!("bellows.shop.{}", names[0]);
    browser
        .until(&format!(
            "localStorage.getItem({}).includes('12.4 A')",
            json!(key)
        ))
        .await?;
    assert_eq!(kept_shops(&browser).await?[&key], edited);

    browser.press_words("[data-notice=link]", "Undo").await?;
    let notice = browser.text(NOTICE).await?;
    assert!(notice.contains("Changed since"), "{notice}");
    let back = kept_shops(&browser).await?;
    assert_eq!(back[&key], edited, "an edit made since is lost");
    assert_eq!(back.len(), 3);
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_bad_file_changes_nothing_and_says_why() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    plant(&browser, &shops()).await?;
    let (kept, before) = (browser.kept().await?, browser.shown().await?);
    let whole = bundle::to_json(&shops())?;
    let bad = [
        "no shop at all".into(),
        whole[..whole.len() / 2].to_owned(),
        "[".repeat(50_000),
        json!({ "version": SCHEMA + 1, "shops": [] }).to_string(),
        json!({ "version": SCHEMA, "shops": vec![json!({ "version": 1 }); 3_000] }).to_string(),
        json!({ "version": SCHEMA, "shops": [{ "version": 1 }, { "version": 1, "tasks": 7 }] }).to_string(),
        "x".repeat(bundle::BUNDLE_MAX + 1),
    ];
    for text in &bad {
        let why = bundle::from_json(text).err().ok_or("it can be read")?.to_string();
        choose(&browser, text).await?;
        browser
            .until(&format!(
                "document.querySelector('{NOTICE}')?.textContent.includes({})",
                json!(why)
            ))
            .await?;
        assert!(browser.text(NOTICE).await?.contains("nothing was changed"));
        assert_eq!(browser.kept().await?, kept, "{why}");
        assert_eq!(browser.shown().await?, before, "{why}");
    }
    browser.is_quiet().await?;
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn full_storage_says_which_shops_were_kept_and_opens_the_others() -> Outcome {
    needs!(Prepare);
    const HOLDS_TWO: &str = "
        const set = Storage.prototype.setItem;
        Storage.prototype.setItem = function (key, text) {
            const shops = Object.keys(localStorage).filter((key) => key.startsWith('bellows.shop.'));
            if (key.startsWith('bellows.shop.') && shops.length >= 2) throw new DOMException('no room left', 'QuotaExceededError');
            set.call(this, key, text);
        };";
    let browser = Browser::start(PHONE).await?;
    browser.before_load(HOLDS_TWO).await?;
    browser.open_file().await?;
    choose(&browser, &bundle::to_json(&shops())?).await?;
    browser
        .until(&format!("document.querySelector('{NOTICE}') !== null"))
        .await?;
    let notice = browser.text(NOTICE).await?;
    assert!(
        notice.contains("Kept 2 shops") && notice.contains("Not kept"),
        "{notice}"
    );
    assert_eq!(
        browser.kept().await?.as_object().map(serde_json::Map::len),
        Some(2)
    );
    browser
        .press_words("[data-notice=link]", "Open “__proto__”")
        .await?;
    let left = &shops()[2];
    assert_eq!(browser.shown().await?, reckoned(left));
    assert_ne!(bellows::answer::report(left, View::default()).answer.sentence, "");
    Ok(())
}
