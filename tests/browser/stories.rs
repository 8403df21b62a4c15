//! The users' stories: the aisle, the hangar, the bookmark, a remedy, a browser that keeps nothing.

use serde_json::{Value, json};
use thirtyfour::By;

use crate::site::Site;
use crate::support::{BENCH, Browser, Outcome, PHONE, dist};

/// What the page answers: verdict, sentence, grade, and each task's verdict at each place.
/// The subjects come a frame later, so two frames are waited for.
const ANSWER: &str = r#"
    for (let i = 0; i < 2; i++) await new Promise(requestAnimationFrame);
    const text = (id) => document.getElementById(id).textContent;
    const rows = [...document.querySelectorAll('#places .place')].map((place) =>
        [...place.querySelectorAll(".rows button")].map((row) => [row.querySelector(".task").textContent, row.dataset.grade]));
    const circuits = [...document.querySelectorAll('#places .circuit > li')].map((finding) => finding.dataset.grade);
    return { verdict: text("verdict"), sentence: text("sentence"), rows, circuits };
"#;

/// Types into a field as a person does, key by key.
async fn type_into(browser: &Browser, id: &str, text: &str) -> Outcome {
    let field = browser.driver.find(By::Id(id)).await?;
    field.send_keys(text).await?;
    Ok(())
}

/// Sets a field of the shop, wherever it is folded away, by the event that typing makes.
async fn set(browser: &Browser, path: &str, text: &str) -> Outcome {
    let found = browser
        .js(&format!(
            r#"const field = document.querySelector('[data-path="{path}"]');
               if (!field) return false;
               field.value = {};
               field.dispatchEvent(new Event("input", {{ bubbles: true }}));
               return true;"#,
            json!(text)
        ))
        .await?;
    assert_eq!(found, json!(true), "no field {path}");
    Ok(())
}

async fn click(browser: &Browser, id: &str) -> Outcome {
    browser
        .js(&format!("document.getElementById('{id}').click()"))
        .await?;
    Ok(())
}

/// The label that the aisle's builder reads.
async fn type_label(browser: &Browser) -> Outcome {
    for (id, text) in [
        ("flow", "4.2 cfm"),
        ("at", "90 psi"),
        ("tank", "20 gal"),
        ("volts", "120"),
        ("amps", "11.5 A"),
    ] {
        type_into(browser, id, text).await?;
    }
    Ok(())
}

async fn the_aisle(browser: &Browser) -> Outcome {
    let first = browser.js(ANSWER).await?;
    assert!(
        first["sentence"]
            .as_str()
            .unwrap_or_default()
            .starts_with("Look for at least"),
        "{first}"
    );

    // The answer follows each key: no button is pressed.
    let mut seen = vec![first["sentence"].clone()];
    for key in ["1", "1"] {
        type_into(browser, "flow", key).await?;
        seen.push(browser.js(ANSWER).await?["sentence"].clone());
    }
    assert_ne!(seen[0], seen[1]);
    assert_ne!(seen[1], seen[2]);
    browser.driver.find(By::Id("flow")).await?.clear().await?;
    type_into(browser, "flow", "4.2 cfm").await?;
    for (id, text) in [
        ("at", "90 psi"),
        ("tank", "20 gal"),
        ("volts", "120 V"),
        ("amps", "11.5 A"),
    ] {
        type_into(browser, id, text).await?;
    }
    let answer = browser.js(ANSWER).await?;
    assert_eq!(answer["rows"][0].as_array().map(Vec::len), Some(9), "{answer}");
    assert_eq!(
        answer["rows"][0][0][1],
        json!("good"),
        "drilling in the garage: {answer}"
    );
    assert_eq!(
        answer["rows"][1][0][1],
        json!("poor"),
        "drilling in the hangar: {answer}"
    );

    // The answer is in view while the last field has the focus, and nothing overflows sideways.
    let seen = browser
        .js(
            r#"const box = document.getElementById("said").getBoundingClientRect();
               return { inside: box.top >= 0 && box.bottom <= innerHeight, focus: document.activeElement.id,
                        wide: document.documentElement.scrollWidth - innerWidth };"#,
        )
        .await?;
    assert_eq!(seen, json!({ "inside": true, "focus": "amps", "wide": 0 }));
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_aisle_from_the_file() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    the_aisle(&browser).await?;
    browser.screenshot("aisle").await?;
    assert_eq!(browser.console_errors().await?, [""; 0]);
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_aisle_from_a_host() -> Outcome {
    let site = Site::start(dist().join("site"))?;
    let browser = Browser::start(PHONE).await?;
    browser.open(&site.url()).await?;
    the_aisle(&browser).await?;
    assert_eq!(browser.requests_outside().await?, [""; 0]);
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_label_with_horsepower_only_gets_a_range() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    type_into(&browser, "power", "2 hp").await?;
    let answer = browser.js(ANSWER).await?;
    assert_eq!(
        browser
            .js("return document.getElementById('answer').dataset.grade")
            .await?,
        json!("unsure")
    );
    let sentence = answer["sentence"].as_str().unwrap_or_default();
    assert!(
        sentence.contains("horsepower") && sentence.matches("cfm").count() >= 2,
        "{sentence}"
    );
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn what_cannot_be_read_is_told_and_kept() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    type_label(&browser).await?;
    let before = browser.js(ANSWER).await?;
    type_into(&browser, "power", "lots").await?;
    let after = browser
        .js(r#"const field = document.getElementById("power");
               return { value: field.value, invalid: field.getAttribute("aria-invalid"),
                        fault: document.getElementById("power-fault").textContent.length > 10 };"#)
        .await?;
    assert_eq!(
        after,
        json!({ "value": "lots", "invalid": "true", "fault": true })
    );
    assert_eq!(browser.js(ANSWER).await?, before, "the other fields still answer");

    let tank = browser.driver.find(By::Id("tank")).await?;
    tank.clear().await?;
    type_into(&browser, "tank", "20 psi").await?;
    let fault = browser
        .js("return document.getElementById('tank-fault').textContent")
        .await?;
    assert!(fault.as_str().unwrap_or_default().contains("pressure"), "{fault}");
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_hangar_without_a_signal() -> Outcome {
    let mut site = Site::start(dist().join("site"))?;
    let browser = Browser::start(PHONE).await?;
    browser.open(&site.url()).await?;
    browser
        .until("(await navigator.serviceWorker.ready).active.state === 'activated'")
        .await?;
    browser.reload().await?;
    browser
        .until("navigator.serviceWorker.controller !== null")
        .await?;
    type_label(&browser).await?;
    browser.until("location.hash.length > 50").await?;
    site.stop();
    browser.reload().await?;
    the_cord(&browser).await
}

#[tokio::test(flavor = "multi_thread")]
async fn the_hangar_from_the_file() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    type_label(&browser).await?;
    the_cord(&browser).await
}

/// A thin long cord fails the start, a heavy short one carries it.
async fn the_cord(browser: &Browser) -> Outcome {
    set(browser, "places.1.cord_gauge", "16 AWG").await?;
    set(browser, "places.1.cord_length", "100 ft").await?;
    let thin = browser.js(ANSWER).await?;
    assert_eq!(thin["circuits"], json!(["good", "bad"]), "{thin}");
    set(browser, "places.1.cord_gauge", "10").await?;
    set(browser, "places.1.cord_length", "25 ft").await?;
    let heavy = browser.js(ANSWER).await?;
    assert_eq!(heavy["circuits"], json!(["good", "good"]), "{heavy}");
    assert_ne!(thin["sentence"], heavy["sentence"]);
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_remedy_is_tried_on_and_put_back() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    type_label(&browser).await?;
    set(&browser, "places.1.cord_gauge", "16 AWG").await?;
    set(&browser, "places.1.cord_length", "100 ft").await?;
    let before = browser.js(ANSWER).await?;
    assert_eq!(before["circuits"][1], json!("bad"));

    let tried = browser
        .js(
            r#"const offer = [...document.querySelectorAll('#on-mend .remedies button')].find((button) => button.textContent.includes("AWG"));
               offer.click();
               return offer.textContent;"#,
        )
        .await?;
    let during = browser.js(ANSWER).await?;
    assert_eq!(during["circuits"][1], json!("good"), "{tried}: {during}");
    assert_eq!(
        browser
            .js("return document.getElementById('trial').hidden")
            .await?,
        json!(false)
    );
    browser.screenshot("trial").await?;

    click(&browser, "trial-undo").await?;
    assert_eq!(browser.js(ANSWER).await?, before);
    assert_eq!(
        browser
            .js("return document.querySelector('[data-path=\"places.1.cord_gauge\"]').value")
            .await?,
        json!("16 AWG")
    );
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_bookmark_opens_the_same_answer_elsewhere() -> Outcome {
    let site = Site::start(dist().join("site"))?;
    let here = Browser::start(PHONE).await?;
    here.open(&site.url()).await?;
    type_label(&here).await?;
    set(&here, "candidates.0.name", "Ångström “quoted” & <b>").await?;
    click(&here, "keep").await?;
    here.until("location.hash.length > 50 && localStorage.getItem('bellows.current') !== null")
        .await?;
    let link = here
        .js("return location.hash")
        .await?
        .as_str()
        .unwrap_or_default()
        .to_owned();
    let answer = here.js(ANSWER).await?;
    assert!(link.len() < 2_000);

    let there = Browser::start(BENCH).await?;
    there.open(&format!("{}{link}", site.url())).await?;
    assert_eq!(there.js(ANSWER).await?, answer);
    let kept = there
        .js("return Object.keys(localStorage).filter((key) => key.startsWith('bellows.shop.'))")
        .await?;
    assert_eq!(kept, json!([]), "a link is kept only when asked");

    // Bad links change nothing and say so.
    let half = &link[..link.len() / 2];
    let altered = format!("{}{}", &link[..link.len() - 6], "AAAAAA");
    for bad in [half, &altered, "#b9.AAAA", "#nonsense"] {
        here.js(&format!("location.hash = {}", json!(bad))).await?;
        here.until("document.querySelector('[data-notice=link]') !== null")
            .await?;
        let notice = here
            .js("return document.querySelector('[data-notice=link]').textContent")
            .await?;
        assert!(
            notice
                .as_str()
                .unwrap_or_default()
                .contains("nothing was changed"),
            "{bad}: {notice}"
        );
        assert_eq!(here.js(ANSWER).await?, answer, "{bad}");
        here.js("document.querySelector('[data-notice=link] .plain').click()")
            .await?;
    }
    Ok(())
}

/// Names of the shops that are kept.
async fn names(browser: &Browser) -> Outcome<Value> {
    browser
        .js("return [...document.querySelectorAll('#kept strong')].map((name) => name.textContent)")
        .await
}

async fn press(browser: &Browser, label: &str) -> Outcome {
    let found = browser
        .js(&format!(
            r#"const button = [...document.querySelectorAll("button")].find((button) => (button.ariaLabel ?? button.textContent) === {});
               button?.click();
               return button !== undefined;"#,
            json!(label)
        ))
        .await?;
    assert_eq!(found, json!(true), "no button {label}");
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn shops_are_kept_doubled_deleted_and_brought_back() -> Outcome {
    let site = Site::start(dist().join("site"))?;
    let browser = Browser::start(BENCH).await?;
    browser.open(&site.url()).await?;
    type_label(&browser).await?;
    let answer = browser.js(ANSWER).await?;
    click(&browser, "keep").await?;
    assert_eq!(names(&browser).await?, json!(["My shop"]));
    press(&browser, "Duplicate: My shop").await?;
    assert_eq!(names(&browser).await?.as_array().map(Vec::len), Some(2));
    press(&browser, "Delete: My shop").await?;
    assert_eq!(names(&browser).await?.as_array().map(Vec::len), Some(1));
    press(&browser, "Undo").await?;
    assert_eq!(names(&browser).await?.as_array().map(Vec::len), Some(2));
    browser.driver.goto("about:blank").await?;
    browser.open(&site.url()).await?;
    assert_eq!(browser.js(ANSWER).await?, answer, "what is kept is there again");
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn damaged_and_newer_data_are_shown_and_left_alone() -> Outcome {
    let site = Site::start(dist().join("site"))?;
    let browser = Browser::start(BENCH).await?;
    browser.open(&site.url()).await?;
    browser
        .js(r#"localStorage.setItem("bellows.shop.Broken", "{ half");
               localStorage.setItem("bellows.shop.Later", '{"version":99,"name":"Later"}');"#)
        .await?;
    browser.driver.goto("about:blank").await?;
    browser.open(&site.url()).await?;
    assert_eq!(names(&browser).await?, json!(["Broken", "Later"]));
    let offers = browser
        .js("return [...document.querySelectorAll('#kept button')].filter((button) => button.ariaLabel.startsWith('Save its data')).length")
        .await?;
    assert_eq!(offers, json!(2));
    let left = browser
        .js("return localStorage.getItem('bellows.shop.Broken')")
        .await?;
    assert_eq!(left, json!("{ half"));
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_browser_that_keeps_nothing_is_told() -> Outcome {
    let site = Site::start(dist().join("site"))?;
    let browser = Browser::start(PHONE).await?;
    browser.open(&site.url()).await?;
    browser
        .js("Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }")
        .await?;
    type_label(&browser).await?;
    click(&browser, "keep").await?;
    let notice = browser
        .js("return document.getElementById('notices').textContent")
        .await?;
    assert!(notice.as_str().unwrap_or_default().len() > 20, "{notice}");
    assert_eq!(
        browser.js(ANSWER).await?["rows"][0].as_array().map(Vec::len),
        Some(9),
        "the page goes on"
    );
    Ok(())
}

/// Not a timed test: it prints what a keystroke costs, so that a change can be seen.
#[tokio::test(flavor = "multi_thread")]
async fn a_keystroke_is_measured() -> Outcome {
    const KEYS: &str = r#"
        const field = document.getElementById("flow"), spent = [], said = new Set();
        for (let i = 0; i < 40; i++) {
            field.value = `${3 + (i % 20) / 10} cfm`;
            const from = performance.now();
            field.dispatchEvent(new Event("input", { bubbles: true }));
            spent.push(performance.now() - from);
            said.add(document.getElementById("sentence").textContent);
        }
        spent.sort((one, other) => one - other);
        return { median: spent[20], most: spent[39], said: said.size };
    "#;
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    type_label(&browser).await?;
    for times in [1.0, 4.0] {
        browser.slow_down(times).await?;
        let cost = browser.js(KEYS).await?;
        println!(
            "processor slowed {times} times: median {} ms, most {} ms",
            cost["median"], cost["most"]
        );
        assert!(cost["median"].as_f64().is_some_and(|spent| spent > 0.0), "{cost}");
        assert!(
            cost["said"].as_u64().is_some_and(|said| said > 3),
            "the answer does not follow: {cost}"
        );
    }
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_map_is_drawn_when_opened() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    click(&browser, "new-shop").await?;
    browser
        .js("document.getElementById('on-map').open = true")
        .await?;
    browser
        .until("document.querySelectorAll('#on-map svg rect').length > 12")
        .await?;
    let points = browser
        .js("return document.querySelectorAll('#on-map .findings > li').length")
        .await?;
    assert_eq!(points, json!(3));
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_label_is_reached_by_keyboard_and_the_answer_announces_itself() -> Outcome {
    let browser = Browser::start(BENCH).await?;
    browser.open_file().await?;
    let tag = browser
        .js("return document.getElementById('said').tagName")
        .await?;
    assert_eq!(tag, json!("OUTPUT"));
    let body = browser.driver.find(By::Css("body")).await?;
    body.send_keys(thirtyfour::Key::Tab + "").await?;
    let mut reached = Vec::new();
    for _ in 0..12 {
        let focus = browser.driver.active_element().await?;
        reached.push(focus.attr("id").await?.unwrap_or_default());
        focus.send_keys(thirtyfour::Key::Tab + "").await?;
    }
    for id in ["flow", "at", "tank", "volts", "amps"] {
        assert!(
            reached.iter().any(|seen| seen == id),
            "{id} is not among {reached:?}"
        );
    }
    Ok(())
}
