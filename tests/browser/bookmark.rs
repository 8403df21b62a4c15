//! A shop travels as a link: into a fresh browser it brings the same answer; a bad one changes nothing.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use bellows::shop::link;
use bellows::shop::{SCHEMA, Shop};
use serde_json::{Value, json};

use crate::reader::{NOTICE, labelled, reckoned};
use crate::site::Site;
use crate::support::{Browser, Outcome, PHONE, dist, file_url};

fn other_shop() -> Shop {
    let mut shop = labelled();
    shop.name = "Travelling shop".into();
    shop.places[0].altitude = "7,000 ft".into();
    shop
}

/// A link as a newer build would write it: a higher schema in the same envelope, which `link::write` never makes.
fn newer_link() -> String {
    let newer = format!(r#"{{"version":{}}}"#, SCHEMA + 1);
    let mut bytes = miniz_oxide::deflate::compress_to_vec(newer.as_bytes(), 10);
    let sum = crc32fast::hash(&bytes);
    bytes.extend(sum.to_be_bytes());
    format!("b1.{}", URL_SAFE_NO_PAD.encode(bytes))
}

#[tokio::test(flavor = "multi_thread")]
async fn a_copied_link_brings_the_same_answer_to_a_fresh_browser() -> Outcome {
    let site = Site::start(dist().join("site"))?;
    let sender = Browser::start(PHONE).await?;
    sender.open(&site.url()).await?;
    sender.type_label().await?;
    sender.keep_as("Tall hangar").await?;
    sender.tap("#copy-link").await?;
    let link = sender.js("return location.href").await?;
    let link = link.as_str().ok_or("no address")?;
    let mut kept = labelled();
    kept.name = "Tall hangar".into();
    assert_eq!(link::read(link)?, kept, "the link holds another shop");

    let receiver = Browser::start(PHONE).await?;
    receiver.open(link).await?;
    assert_eq!(receiver.shown().await?, sender.shown().await?);
    assert_eq!(receiver.typed("#shop-name").await?, "Tall hangar");
    assert_eq!(receiver.kept().await?, json!({}), "opening kept it");
    receiver.tap(&format!("{NOTICE} button")).await?;
    receiver
        .until("localStorage.getItem('bellows.shop.Tall hangar') !== null")
        .await
}

#[tokio::test(flavor = "multi_thread")]
async fn an_opened_link_leaves_what_is_kept_alone() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    // The stranger's shop has the same name.
    browser.keep_as("Travelling shop").await?;
    let kept = browser.kept().await?;
    let before = browser.shown().await?;

    browser.follow(&link::write(&other_shop())).await?;
    assert_ne!(browser.shown().await?, before, "the link was not opened");
    browser.retype("#flow", "9.9 cfm").await?;
    let written =
        "document.getElementById('link-text').value === location.href && !location.hash.includes('OLD')";
    let written = written.replace("OLD", &link::write(&other_shop()));
    browser.until(&written).await?; // the pause after a keystroke is over
    assert_eq!(browser.kept().await?, kept);

    browser.tap(&format!("{NOTICE} button")).await?;
    browser
        .until("Object.keys(localStorage).filter((key) => key.startsWith('bellows.shop.')).length === 2")
        .await?;
    let both = browser.kept().await?;
    let key = "bellows.shop.Travelling shop";
    assert_eq!(both[key], kept[key], "the stranger's shop went over the own one");
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_bad_link_says_so_and_changes_nothing() -> Outcome {
    let whole = link::write(&other_shop());
    let middle = whole.len() / 2;
    let altered = if &whole[middle..=middle] == "A" { "B" } else { "A" };
    let altered = format!("{}{altered}{}", &whole[..middle], &whole[middle + 1..]);
    let cut = whole[..middle].to_owned();

    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    browser.keep_as("Mine").await?;
    let before = browser.shown().await?;
    let kept = browser.kept().await?;
    let mut notices = Vec::new();
    for bad in [
        cut,
        altered,
        newer_link(),
        "b9.AAAA".into(),
        "no-such-thing".into(),
    ] {
        let refusal = link::read(&bad).err().ok_or("the link is good")?.to_string();
        browser.follow(&bad).await?;
        let notice = browser.text(&format!("{NOTICE} p")).await?;
        assert!(notice.contains(&refusal), "{notice}");
        assert_eq!(browser.shown().await?, before, "{bad}");
        assert_eq!(browser.kept().await?, kept, "{bad}");
        assert_eq!(browser.typed("#shop-name").await?, "Mine");
        notices.push(notice);
        browser.tap(&format!("{NOTICE} button.plain")).await?;
        // The address goes back to the shop that is open.
        browser
            .until(&format!("!location.href.endsWith({bad:?})"))
            .await?;
    }
    assert!(
        notices[0] == notices[1] && !notices[2..].contains(&notices[0]),
        "{notices:?}"
    );
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_bad_link_opens_a_fresh_browser_on_a_usable_page() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    let file = file_url();
    for bad in [newer_link(), "b1.cutshort".into()] {
        browser.driver.goto("about:blank").await?;
        browser.open(&format!("{file}#{bad}")).await?;
        assert_ne!(browser.text(NOTICE).await?, "");
        assert_eq!(browser.kept().await?, Value::Object(serde_json::Map::new()));
    }
    browser.type_label().await?;
    assert_eq!(browser.shown().await?, reckoned(&labelled()), "after a bad link");
    browser.is_quiet().await?;
    Ok(())
}

const TO_SENT: &str = "[data-notice=link] [data-act=sent]";

async fn offered(browser: &Browser, is: bool) -> Outcome {
    let shown = format!("document.querySelector({TO_SENT:?})?.hidden === {}", !is);
    browser.until(&shown).await?;
    browser
        .until(&format!(
            "document.getElementById('back-to-sent').hidden === {}",
            !is
        ))
        .await
}

#[tokio::test(flavor = "multi_thread")]
async fn there_is_a_way_back_to_what_was_sent_over_a_reload_too() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    let sent = other_shop();
    let page = file_url();
    browser.open(&format!("{page}#{}", link::write(&sent))).await?;
    assert_eq!(browser.shown().await?, reckoned(&sent));
    offered(&browser, false).await?;
    browser.reload().await?;
    assert!(
        browser
            .text(NOTICE)
            .await?
            .contains("is from a link; it is not kept")
    );
    offered(&browser, false).await?;

    browser.retype("#flow", "9.9 cfm").await?;
    offered(&browser, true).await?;
    let changed = browser.shown().await?;
    browser.press_words(NOTICE, "Back to what was sent").await?;
    assert_eq!(browser.shown().await?, reckoned(&sent));
    offered(&browser, false).await?;
    browser.press_words(NOTICE, "Undo").await?;
    assert_eq!(browser.shown().await?, changed);
    assert_eq!(browser.typed("#flow").await?, "9.9 cfm");
    offered(&browser, true).await?;
    for scheme in browser.schemes() {
        browser.show_in(scheme).await?;
        browser.js("scrollTo(0, 0)").await?;
        browser.screenshot(&format!("sent-phone-{scheme}")).await?;
    }

    browser.reload().await?;
    assert_eq!(browser.shown().await?, changed);
    let notice = browser.text(NOTICE).await?;
    assert!(
        notice.contains("is from a link, with changes made here"),
        "{notice}"
    );
    offered(&browser, true).await?;
    browser.press_words(NOTICE, "Back to what was sent").await?;
    assert_eq!(browser.shown().await?, reckoned(&sent));
    assert_eq!(browser.kept().await?, json!({}));
    // Another link in this tab is not the first one with changes.
    let mut second = sent;
    second.places[0].altitude = "4,000 ft".into();
    browser.follow(&link::write(&second)).await?;
    browser
        .until(&format!(
            "document.querySelector('{NOTICE} p').textContent.includes('is from a link;')"
        ))
        .await?;
    assert_eq!(browser.shown().await?, reckoned(&second));
    offered(&browser, false).await?;
    browser.is_quiet().await?;
    Ok(())
}

/// What was typed here is not from a link, even where only the address holds it.
#[tokio::test(flavor = "multi_thread")]
async fn an_own_shop_that_is_not_kept_comes_back_from_a_reload_as_such() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    browser.tap("#copy-link").await?; // writes the address without the pause after a keystroke
    browser.reload().await?;
    assert_eq!(browser.shown().await?, reckoned(&labelled()));
    assert_eq!(browser.text("[data-notice]").await?, "");
    let state = browser.text("#store-state").await?;
    assert!(
        state.ends_with(": new; the draft is kept on this device."),
        "{state}"
    );
    browser.is_quiet().await?;
    Ok(())
}
