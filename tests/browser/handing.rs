//! What is handed on: the link as a code for a camera, the share sheet, and units that stay as they were chosen.

use std::io::Cursor;

use bellows::shop::link;
use bellows::shop::{Shop, Units};

use serde_json::json;

use crate::engine::{HOST, needs};
use crate::reader::{NOTICE, labelled, reckoned};
use crate::site::Site;
use crate::support::{Browser, Outcome, PHONE, dist};

const BACK: &str = "return [...document.querySelectorAll('[data-notice=link] button')].some(({ textContent }) => textContent.startsWith('Back to what was open'))";

/// A share sheet that takes down what it is given, as no desktop browser under test has one.
const SHEET: &str = "
    navigator.canShare = () => true;
    navigator.share = async (data) => { window.shared = data; };";
/// The same, closed again by the reader, or failing.
const SHEET_FAILS: &str = "
    navigator.canShare = () => true;
    navigator.share = async () => { throw new DOMException('no', 'NotAllowedError'); };";
const NO_SHEET: &str = "
    Object.defineProperty(Navigator.prototype, 'share', { value: undefined });
    Object.defineProperty(Navigator.prototype, 'canShare', { value: undefined });";

/// What a camera reads from the screen once a part of the page is brought to its middle.
pub async fn scanned(browser: &Browser, selector: &str) -> Outcome<String> {
    let show = format!("document.querySelector({selector:?}).scrollIntoView({{ block: 'center' }})");
    browser.js(&show).await?;
    let picture = browser.driver.screenshot_as_png().await?;
    let mut reader = png::Decoder::new(Cursor::new(picture)).read_info()?;
    let mut bytes = vec![0; reader.output_buffer_size().ok_or("too large a picture")?];
    let info = reader.next_frame(&mut bytes)?;
    let (width, samples) = (info.width as usize, info.color_type.samples());
    let mut picture = rqrr::PreparedImage::prepare_from_greyscale(width, info.height as usize, |x, y| {
        bytes[(y * width + x) * samples]
    });
    let grids = picture.detect_grids();
    let [grid] = grids.as_slice() else {
        return Err(format!("{} codes are found", grids.len()).into());
    };
    Ok(grid.decode()?.1)
}

/// An address that a phone would reach.
fn hosted(site: &Site) -> String {
    site.url().replace("127.0.0.1", HOST)
}

async fn code_of(browser: &Browser) -> Outcome<String> {
    browser
        .js("document.getElementById('code').open = true; document.getElementById('code').scrollIntoView()")
        .await?;
    browser
        .until("document.querySelector('#code path').getAttribute('d') !== null")
        .await?;
    scanned(browser, "#code svg").await
}

#[tokio::test(flavor = "multi_thread")]
async fn a_camera_reads_the_link_from_the_page_in_light_and_dark() -> Outcome {
    needs!(Host, Wish);
    let site = Site::start(dist().join("site"))?;
    for scheme in ["light", "dark"] {
        let browser = Browser::start(PHONE).await?;
        browser.show_in(scheme).await?;
        browser.open(&hosted(&site)).await?;
        browser.type_label().await?;
        let address = browser.address_of(&labelled()).await?;
        assert_eq!(code_of(&browser).await?, address, "{scheme}");
    }
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_code_from_a_page_on_disk_is_pasted_on_the_phone() -> Outcome {
    let sender = Browser::start(PHONE).await?;
    sender.open_file().await?;
    sender.open_example().await?;
    let text = code_of(&sender).await?;
    assert_eq!(link::read(&text)?, Shop::demo());
    assert_eq!(sender.js("document.getElementById('import').scrollIntoView(); document.getElementById('new-shop').click(); return scrollY").await?, json!(0), "the answer is out of sight");
    assert!(!text.contains("file"), "{text}");
    assert!(sender.text("#code figcaption").await?.contains("Open a link"));

    let phone = Browser::start(PHONE).await?;
    phone.open_file().await?;
    phone.enter("#link-in", &text).await?;
    phone
        .until(&format!("document.querySelector({NOTICE:?}) !== null"))
        .await?;
    assert_eq!(phone.shown().await?, reckoned(&Shop::demo()));
    phone.enter("#link-in", "no link at all").await?;
    phone
        .until("document.querySelector('[data-notice=link] p').textContent.includes('nothing was changed')")
        .await?;
    assert_eq!(phone.shown().await?, reckoned(&Shop::demo()));
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_share_sheet_gets_the_sentence_and_the_link() -> Outcome {
    needs!(Prepare, Host);
    let site = Site::start(dist().join("site"))?;
    let browser = Browser::start(PHONE).await?;
    browser.before_load(SHEET).await?;
    browser.open(&hosted(&site)).await?;
    browser.type_label().await?;
    browser.tap("#share").await?;
    browser.until("window.shared !== undefined").await?;
    let shared = browser.js("return window.shared").await?;
    let sentence = browser.text("#sentence").await?;
    assert!(
        shared["text"]
            .as_str()
            .is_some_and(|text| text.contains(&sentence)),
        "{shared}"
    );
    assert!(
        shared["title"]
            .as_str()
            .is_some_and(|title| title.contains("My shop"))
    );
    assert_eq!(link::read(shared["url"].as_str().ok_or("no link")?)?, labelled());

    let on_disk = Browser::start(PHONE).await?;
    on_disk.before_load(SHEET).await?;
    on_disk.open_file().await?;
    on_disk.tap("#share").await?;
    on_disk.until("window.shared !== undefined").await?;
    let shared = on_disk.js("return window.shared").await?;
    assert_eq!(
        shared.get("url"),
        None,
        "an address on this disk leads nobody anywhere"
    );
    let text = shared["text"].as_str().ok_or("no text")?;
    assert_eq!(link::read(text.lines().last().ok_or("no line")?)?, Shop::fresh());
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn where_there_is_no_share_sheet_the_link_is_copied() -> Outcome {
    needs!(Prepare);
    let without = Browser::start(PHONE).await?;
    without.before_load(NO_SHEET).await?;
    without.open_file().await?;
    let hidden = "return document.getElementById('share').hidden";
    assert_eq!(without.js(hidden).await?, json!(true));

    let failing = Browser::start(PHONE).await?;
    failing.before_load(SHEET_FAILS).await?;
    failing.open_file().await?;
    failing.tap("#share").await?;
    failing
        .until("document.getElementById('copy-link').textContent.startsWith('Copied') || !document.getElementById('link-out').hidden")
        .await
}

#[tokio::test(flavor = "multi_thread")]
async fn chosen_units_stay_across_shops_and_visits() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.tap("[name=units][value=metric]").await?;
    browser.open_example().await?;
    let metric = Shop {
        units: Units::Metric,
        ..Shop::demo()
    };
    assert_eq!(browser.shown().await?, reckoned(&metric));

    browser.driver.goto("about:blank").await?;
    browser.open_file().await?;
    assert_eq!(browser.shown().await?, reckoned(&metric), "the draft");
    browser.tap("#blank-shop").await?;
    assert_eq!(browser.shown().await?, reckoned(&Shop::fresh_in(Units::Metric)));

    // A link in other units: what was typed stays, a bare number keeps its meaning, the answer is in the reader's.
    let mut sent = labelled();
    sent.candidates[0].flow = "4.2".into();
    browser.follow(&link::write(&sent)).await?;
    let read = Shop {
        units: Units::Metric,
        ..labelled()
    };
    assert_eq!(browser.shown().await?, reckoned(&read));
    assert_eq!(browser.typed("#flow").await?, "4.2 cfm");
    assert_eq!(browser.typed("#tank").await?, "20 gal");
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_first_visit_takes_its_units_from_the_language_and_a_link_keeps_its_own() -> Outcome {
    needs!(Prepare);
    for (language, units) in [("de-AT", Units::Metric), ("en-US", Units::Us)] {
        let browser = Browser::start(PHONE).await?;
        let speaks =
            format!("Object.defineProperty(Navigator.prototype, 'language', {{ get: () => {language:?} }})");
        browser.before_load(&speaks).await?;
        browser.open_file().await?;
        let checked = "return document.querySelector('[name=units]:checked').value";
        assert_eq!(browser.js(checked).await?, json!(units));
        browser.follow(&link::write(&labelled())).await?;
        assert_eq!(browser.js(checked).await?, json!(Units::Us));
        assert_eq!(
            browser.js(BACK).await?,
            json!(false),
            "there is nothing to go back to"
        );
    }
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_way_back_is_offered_where_there_is_something_to_go_back_to() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.retype("#flow", "5 cfm").await?;
    let before = browser.shown().await?;
    browser.follow(&link::write(&labelled())).await?;
    assert_eq!(browser.shown().await?, reckoned(&labelled()));
    assert_eq!(browser.js(BACK).await?, json!(true));
    browser.press_words(NOTICE, "Back to what was open").await?;
    assert_eq!(browser.shown().await?, before);
    assert_eq!(browser.typed("#flow").await?, "5 cfm");
    Ok(())
}
