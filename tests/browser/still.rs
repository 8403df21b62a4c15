//! Nothing moves: while whole labels are typed, every box and button stays where the finger expects it, on every screen.

use serde_json::{Value, json};

use crate::engine::needs;
use crate::support::{Browser, Outcome, Screen};

/// Three invented labels, from the smallest to one that asks for another outlet; the last is nonsense.
const LABELS: [[&str; 6]; 4] = [
    ["2.4", "5", "11", "120", "140", "129"],
    ["4.1", "20", "14.5", "120", "135", "460"],
    ["11.2", "60", "15", "240", "165", "890"],
    ["two", "-3", "900 A", "volts", "9,000", "much"],
];
const KEYS: [&str; 6] = ["flow", "tank", "amps", "volts", "cut_out", "price"];

/// Where the boxes, their units and all buttons of the first screen stand.
const PLACES: &str = "
    const nodes = document.querySelectorAll('#boxes input, #boxes button, #questions-open, #whole, #plate > summary, #answer, #add-candidate, #shops-open');
    return [...nodes].filter((node) => node.checkVisibility()).map((node) => {
        const { left, top, width, height } = node.getBoundingClientRect();
        // A unit is as wide as its word.
        return node.classList.contains('unit') ? [node.id, top, left + width] : [node.id || node.tagName, left, top + scrollY, width, height];
    });";

/// Takes down every frame in which something of the first screen stands elsewhere than at first.
const WATCH: &str = "
    const where = () => { PLACES };
    window.moved = [];
    const first = JSON.stringify(where());
    const look = () => {
        const now = JSON.stringify(where());
        if (now !== first) window.moved.push([first, now]);
        requestAnimationFrame(look);
    };
    requestAnimationFrame(look);";

#[tokio::test(flavor = "multi_thread")]
async fn no_key_answer_or_notice_moves_a_box_or_a_button() -> Outcome {
    needs!(Screen);
    for (width, height) in [(320, 568), (390, 664), (768, 1024), (1280, 800)] {
        let touch = width < 800;
        let browser = Browser::start(Screen { width, height, touch }).await?;
        browser.open_file().await?;
        browser.js(&WATCH.replace("PLACES", PLACES)).await?;
        for (index, label) in LABELS.iter().enumerate() {
            for (key, text) in KEYS.iter().zip(label) {
                browser.retype(&format!("#{key}"), text).await?;
            }
            browser.settle().await?;
            browser.screenshot(&format!("still-{width}-{index}")).await?;
            assert_eq!(
                browser
                    .js("scrollTo(0, 0); return window.moved.slice(0, 1)")
                    .await?,
                json!([]),
                "{width} px, {label:?}"
            );
            let fits = "return [document.documentElement.scrollWidth <= innerWidth, document.getElementById('said').scrollHeight <= document.getElementById('said').clientHeight + 1]";
            assert_eq!(
                browser.js(fits).await?,
                json!([true, true]),
                "{width} px, {label:?}: {}",
                browser.text("#said").await?
            );
        }
        browser.is_quiet().await?;
    }
    Ok(())
}

/// The answer of a blank label stands in the page before any script has run, and is the core's.
#[tokio::test(flavor = "multi_thread")]
async fn the_blank_answer_stands_in_the_html_as_the_core_says_it() -> Outcome {
    let html = std::fs::read_to_string(crate::support::dist().join("site/index.html"))?;
    let browser = Browser::start(crate::support::PHONE).await?;
    browser.open_file().await?;
    for id in ["sentence", "odds", "next", "verdict", "assumed"] {
        let said = browser.text(&format!("#{id}")).await?;
        let said = said.replace('&', "&#38;");
        assert!(html.contains(&format!("id=\"{id}\">{said}<")), "{id}: {said}");
    }
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn what_was_typed_comes_back_after_a_reload_at_once() -> Outcome {
    let browser = Browser::start(crate::support::PHONE).await?;
    browser.open_file().await?;
    browser.retype("#flow", "4.4").await?;
    // No pause between the last key and the reload.
    browser.press("#tank", "2").await?;
    browser.reload().await?;
    assert_eq!(
        (browser.typed("#flow").await?, browser.typed("#tank").await?),
        ("4.4".into(), "2".into())
    );
    assert_eq!(browser.text("#whose").await?, "Draft kept");
    // What another shop put aside comes back, over a reload too.
    browser.open_example().await?;
    assert_ne!(browser.typed("#flow").await?, "4.4");
    browser.reload().await?;
    browser.tap("[data-notice=undo] button").await?;
    assert_eq!(
        (browser.typed("#flow").await?, browser.typed("#tank").await?),
        ("4.4".into(), "2".into())
    );
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_whole_label_fills_the_boxes_and_says_what_it_left() -> Outcome {
    let browser = Browser::start(crate::support::PHONE).await?;
    browser.open_file().await?;
    let label = "Twin-stack, 4.6 CFM @ 90 PSI (7.1 CFM displacement), 8 gal, 13.5 A, 120 V, max 140 PSI, $319; hose rated 300 PSI";
    browser.press("#whole", label).await?;
    browser
        .until("document.getElementById('flow').value === '4.6'")
        .await?;
    let typed: Vec<Value> = {
        let mut typed = Vec::new();
        for key in KEYS {
            typed.push(json!(browser.typed(&format!("#{key}")).await?));
        }
        typed
    };
    assert_eq!(json!(typed), json!(["4.6", "8", "13.5", "120", "140", "$319"]));
    browser.unfold("#on-read li").await?;
    let told = browser.text("#on-read").await?;
    assert!(told.contains("displacement") && told.contains("hose"), "{told}");
    // Another machine's label starts empty: no word of the first one counts for it.
    browser.tap("#add-candidate").await?;
    assert_eq!(browser.typed("#whole").await?, "");
    browser.press("#whole", "60 gal, 11.2 CFM @ 90 PSI").await?;
    browser
        .until("document.getElementById('flow').value === '11.2'")
        .await?;
    assert_eq!(
        (browser.typed("#tank").await?, browser.typed("#price").await?),
        ("60".into(), "".into())
    );
    browser.tap("[data-notice=undo] button").await?;
    assert_eq!(browser.typed("#flow").await?, "");
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn four_questions_make_the_shop_one_s_own_in_eight_taps() -> Outcome {
    let browser = Browser::start(crate::support::PHONE).await?;
    browser.open_file().await?;
    browser.tap("#questions-open").await?;
    let mut taps = 1;
    for tap in [
        "[data-sheet='0']",
        "[data-question=outlet][value='5-20']",
        "#questions-next",
        "[data-question=distance][value='50']",
        "[data-question=cord][value='12']",
        "#questions-close",
    ] {
        let fits = "return document.getElementById('questions').getBoundingClientRect().bottom <= innerHeight && document.getElementById('questions-body').scrollHeight <= document.getElementById('questions-body').clientHeight + 1";
        assert_eq!(browser.js(fits).await?, json!(true), "before {tap}");
        browser.tap(tap).await?;
        taps += 1;
    }
    assert!(taps <= 8);
    assert_eq!(
        browser.text("#assumed").await?,
        "Garage, 20 A outlet 50 ft away, drilling and riveting"
    );
    assert_eq!(
        browser.typed("[data-path='places.0.cord_gauge']").await?,
        "12 AWG"
    );
    assert_eq!(
        browser
            .js("return [document.getElementById('questions').open, document.activeElement.id]")
            .await?,
        json!([false, "questions-open"])
    );
    Ok(())
}

/// The fold of the work says of no job but the one that is looked at that it does not wait, while another does.
#[tokio::test(flavor = "multi_thread")]
async fn a_job_that_is_looked_at_does_not_speak_for_the_one_that_waits() -> Outcome {
    let browser = Browser::start(crate::support::PHONE).await?;
    browser.open_file().await?;
    for (field, text) in [
        ("#flow", "2.5"),
        ("#tank", "6"),
        ("#amps", "11"),
        ("#volts", "120"),
    ] {
        browser.press(field, text).await?;
    }
    browser.settle().await?;
    let look = "const row = [...document.querySelectorAll('#places [data-task]')].find((row) => row.textContent.includes('no wait')); row.click(); return row.querySelector('.task').textContent";
    let name = browser.js(look).await?;
    let name = name.as_str().ok_or("every job waits")?.to_lowercase();
    let said = browser.text("#on-tasks .sums").await?.to_lowercase();
    assert_eq!(said, format!("{name}: no wait."));
    Ok(())
}
