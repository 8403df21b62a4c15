//! How long an answer takes, as figures that are printed: machines differ, and a busy one is slow. What is asserted is
//! only that none runs away: it stays within ten times what it takes today, counted in runs of a loop beside it.

use serde_json::Value;

use crate::engine::{Can, say};
use crate::reader::labelled;
use crate::site::Site;
use crate::support::{BENCH, Browser, Outcome, dist};

/// Four million dependent multiplications and additions: what no engine can do faster than the processor's latency.
const REFERENCE: &str = r#"
    const timed = (act) => {
        const start = performance.now();
        act();
        return performance.now() - start;
    };
    const reference = () => timed(() => {
        let sum = 0;
        for (let i = 0; i < 4e6; i++) sum = sum * 0.999 + i;
        if (!(sum > 0)) throw new Error("no loop was run");
    });
    const median = (times) => times.sort((a, b) => a - b)[times.length >> 1];
"#;

/// Times the core alone and a whole keystroke, each call with another flow so that nothing remembered can answer, and
/// each beside a run of the reference. A keystroke's time includes the layout that it causes, which reading a height
/// forces.
const KEYS: &str = r#"
    const { assess } = await import("./core.js");
    const shop = SHOP;
    const each = (act) => {
        const times = [], beside = [], heard = new Set();
        for (let i = 0; i < 50; i++) {
            const flow = `${(2 + i * 0.13).toFixed(2)} cfm`;
            beside.push(reference());
            times.push(timed(() => heard.add(act(flow))));
        }
        return { worst: Math.max(...times), median: median(times), reference: median(beside), answers: heard.size };
    };
    const core = each((flow) => {
        shop.candidates[0].flow = flow;
        return assess(shop, { place: 0, task: null }).answer.sentence;
    });
    const field = document.getElementById("flow");
    const key = each((flow) => {
        field.value = flow;
        field.dispatchEvent(new InputEvent("input", { bubbles: true }));
        return document.body.offsetHeight > 0 && document.getElementById("sentence").textContent;
    });
    return { core, key };
"#;

/// Runs of the reference that the core's answer and a keystroke take today.
const CORE: f64 = 6.0;
const KEY: f64 = 7.0;

/// The page on a host, as modules of their own can be asked there.
async fn labelled_page(site: &Site) -> Outcome<Browser> {
    let browser = Browser::start(BENCH).await?;
    browser.open(&site.url()).await?;
    browser.type_label().await?;
    Ok(browser)
}

/// Runs a script that times, and prints its figures.
async fn figures(browser: &Browser, what: &str, script: &str) -> Outcome<Value> {
    let found = browser.js(&format!("{REFERENCE}{script}")).await?;
    say(&format!("{}, {what}, ms: {found}", browser.engine_name()));
    Ok(found)
}

/// Asserts that a time is within ten times what it takes today, in runs of the reference beside it.
fn holds(figures: &Value, time: &str, today: f64) -> Outcome {
    let [time, reference] = [time, "reference"].map(|name| figures[name].as_f64());
    let runs = time.ok_or("no time")? / reference.ok_or("no reference")?;
    assert!(
        runs < 10.0 * today,
        "{runs} runs of the reference, {today} today: {figures}"
    );
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn an_answer_is_timed_plain_and_on_a_slow_processor() -> Outcome {
    let site = Site::start(dist().join("site"))?;
    let browser = labelled_page(&site).await?;
    let script = KEYS.replace("SHOP", &serde_json::to_string(&labelled())?);
    let found = figures(&browser, "an answer", &script).await?;
    for (part, today) in [("core", CORE), ("key", KEY)] {
        assert!(
            found[part]["answers"].as_u64() > Some(1),
            "always the same: {found}"
        );
        holds(&found[part], "median", today)?;
    }
    if browser.can(Can::Slow) {
        browser.slow_down(4.0).await?;
        figures(&browser, "an answer on a processor slowed four times", &script).await?;
    }
    browser.is_quiet().await
}
