//! What everybody does, in one test that every engine must pass: a label is typed and answered, the shop is kept and
//! comes back, and its link brings the same answer to another browser; from a host, and from the single file.

use bellows::shop::Shop;
use serde_json::json;

use crate::reader::{labelled, reckoned};
use crate::site::Site;
use crate::support::{Browser, Outcome, PHONE, dist, file_url};

async fn the_main_path(page: &str) -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open(page).await?;
    assert_eq!(browser.shown().await?, reckoned(&Shop::fresh()), "a first visit");
    browser.type_label().await?;
    let answer = reckoned(&labelled());
    assert_eq!(browser.shown().await?, answer, "a label");

    browser.keep_as("Main path").await?;
    let mut kept = labelled();
    kept.name = "Main path".into();
    let link = browser.address_of(&kept).await?;
    browser.driver.goto("about:blank").await?;
    browser.open(page).await?;
    assert_eq!(browser.typed("#shop-name").await?, "Main path");
    assert_eq!(browser.shown().await?, answer, "a kept shop");
    browser.is_quiet().await?;

    let receiver = Browser::start(PHONE).await?;
    receiver.open(&link).await?;
    assert_eq!(receiver.shown().await?, answer, "a link");
    assert_eq!(receiver.kept().await?, json!({}), "opening kept it");
    receiver.is_quiet().await
}

#[tokio::test(flavor = "multi_thread")]
async fn from_a_host() -> Outcome {
    let site = Site::start(dist().join("site"))?;
    the_main_path(&site.url()).await
}

#[tokio::test(flavor = "multi_thread")]
async fn from_the_file() -> Outcome {
    the_main_path(&file_url()).await
}
