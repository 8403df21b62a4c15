//! The answer stays in view and leaves the screen to the rest: only the verdict and what is being tried stick.

use serde_json::{Value, json};

use crate::engine::needs;
use crate::support::{BENCH, Browser, Outcome, PHONE};

const SURE: &str = "!document.getElementById('sure').hidden && !document.getElementById('sure').classList.contains('pending')";

/// Heights of the answer and of its words, and how far the doubt's line stands below the answer.
const MEASURED: &str = "
    const box = (id) => document.getElementById(id).getBoundingClientRect();
    return [box('answer').height, box('said').height, box('sure').top - box('answer').bottom];";

async fn measured(browser: &Browser) -> Outcome<[f64; 3]> {
    Ok(serde_json::from_value(browser.js(MEASURED).await?)?)
}

async fn to(browser: &Browser, y: u32) -> Outcome {
    browser
        .js(&format!(
            "scrollTo(0, {y}); await new Promise(requestAnimationFrame)"
        ))
        .await?;
    Ok(())
}

/// A control is 44 px high; a rule and two margins of less than half a line stand above it.
const TRIAL_PX: f64 = 64.0;
/// Double rules above and below, and the space between them and the words.
const FRAME_PX: f64 = 26.0;

#[tokio::test(flavor = "multi_thread")]
async fn only_the_verdict_and_what_is_tried_stay_on_the_screen() -> Outcome {
    needs!(Screen);
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.open_example().await?;
    browser.until(SURE).await?;
    for (name, screen) in [("phone", PHONE), ("bench", BENCH)] {
        browser.resize(screen).await?;
        to(&browser, 0).await?;
        browser.screenshot(&format!("room-{name}")).await?;
        let [answer, said, below] = measured(&browser).await?;
        assert!(
            answer <= said + FRAME_PX,
            "{name}: {answer} px for {said} px of words"
        );
        assert!(
            (0.0..=24.0).contains(&below),
            "{name}: the doubt stands {below} px below"
        );
        to(&browser, 900).await?;
        let stuck = browser
            .js("return [document.getElementById('answer').getBoundingClientRect().top, document.getElementById('sure').getBoundingClientRect().bottom < 0]")
            .await?;
        assert_eq!(stuck, json!([0, true]), "{name}");

        browser.tap("#on-mend button[data-sets]").await?;
        browser.until(SURE).await?;
        let [tried, said, _] = measured(&browser).await?;
        assert!(
            tried <= said + FRAME_PX + TRIAL_PX,
            "{name}: {tried} px for {said} px of words"
        );
        let shown = "return ['trial-what', 'trial-keep', 'trial-undo'].map((id) => document.elementFromPoint(...(({ x, y, width, height }) => [x + width / 2, y + height / 2])(document.getElementById(id).getBoundingClientRect()))?.id)";
        assert_eq!(
            browser.js(shown).await?,
            json!(["trial-what", "trial-keep", "trial-undo"]),
            "{name}"
        );
        for scheme in browser.schemes() {
            browser.show_in(scheme).await?;
            browser
                .screenshot(&format!("room-{name}-{scheme}-scrolled"))
                .await?;
            to(&browser, 0).await?;
            browser.screenshot(&format!("room-{name}-{scheme}-trial")).await?;
        }
        let before: Value = browser
            .js("return document.getElementById('trial-before').textContent")
            .await?;
        assert!(
            before.as_str().is_some_and(|text| text.starts_with("Before: ")),
            "{before}"
        );
        browser.tap("#trial-undo").await?;
        assert_eq!(
            browser.js("return [document.getElementById('trial').hidden, document.getElementById('trial-before').hidden]").await?,
            json!([true, true])
        );
    }
    browser.is_quiet().await?;
    Ok(())
}
