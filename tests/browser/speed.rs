//! How long an answer takes. Figures are printed (`--nocapture`), and no limit asserted: machines differ.

use crate::reader::labelled;
use crate::site::Site;
use crate::support::{BENCH, Browser, Outcome, dist};

/// Times the core alone and a whole keystroke, each call with another flow so that nothing remembered can answer.
/// A keystroke's time includes the layout that it causes, which reading a height forces.
const TIMED: &str = r#"
    const { assess } = await import("./core.js");
    const shop = SHOP;
    const summary = (times) => {
        times.sort((a, b) => a - b);
        return { median: times[times.length >> 1], worst: times.at(-1) };
    };
    const timed = (count, act) => {
        const times = [], heard = new Set();
        for (let i = 0; i < count; i++) {
            const flow = `${(2 + i * 0.03).toFixed(2)} cfm`;
            const start = performance.now();
            const said = act(flow);
            times.push(performance.now() - start);
            heard.add(said);
        }
        return { ...summary(times), answers: heard.size };
    };
    const core = timed(200, (flow) => {
        shop.candidates[0].flow = flow;
        return assess(shop, { place: 0, task: null }).answer.sentence;
    });
    const field = document.getElementById("flow");
    const key = timed(60, (flow) => {
        field.value = flow;
        field.dispatchEvent(new InputEvent("input", { bubbles: true }));
        return document.body.offsetHeight > 0 && document.getElementById("sentence").textContent;
    });
    return { core, key };
"#;

#[tokio::test(flavor = "multi_thread")]
async fn an_answer_is_timed_plain_and_on_a_slow_processor() -> Outcome {
    let site = Site::start(dist().join("site"))?;
    let browser = Browser::start(BENCH).await?;
    browser.open(&site.url()).await?;
    browser.type_label().await?;
    let run = TIMED.replace("SHOP", &serde_json::to_string(&labelled())?);
    for slower in [1.0, 4.0] {
        browser.slow_down(slower).await?;
        let found = browser.js(&run).await?;
        println!("processor slowed {slower} times, ms: {found}");
        for part in ["core", "key"] {
            for figure in ["median", "worst"] {
                let time = found[part][figure].as_f64();
                assert!(
                    time.is_some_and(|ms| ms.is_finite() && ms > 0.0),
                    "{part}: {found}"
                );
            }
            assert!(
                found[part]["answers"].as_u64() > Some(1),
                "always the same: {found}"
            );
        }
    }
    assert_eq!(browser.console_errors().await?, [""; 0]);
    Ok(())
}
