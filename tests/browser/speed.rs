//! How long an answer takes, as figures that are printed: machines differ, and a busy one is slow. What is asserted is
//! only that none runs away: it stays within ten times what it takes today, counted in runs of a loop beside it.

use serde_json::Value;

use crate::engine::{Can, say};
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

/// Times each key twice: what it takes of the painting thread, with the layout that it causes, which reading a height forces;
/// and until the worker's sentence stands. Each has another flow, so that nothing remembered can answer, and a run of the
/// reference beside it.
const KEYS: &str = r#"
    const field = document.getElementById("flow");
    const root = document.documentElement;
    const answered = () => new Promise((done) => {
        const watch = new MutationObserver(() => {
            if (root.dataset.answer === "working") return;
            watch.disconnect();
            done();
        });
        watch.observe(root, { attributeFilter: ["data-answer"] });
    });
    const found = { echo: [], answer: [], beside: [], heard: new Set() };
    for (let i = 0; i < 50; i++) {
        found.beside.push(reference());
        const start = performance.now();
        const told = answered();
        field.value = (2 + i * 0.13).toFixed(2);
        field.dispatchEvent(new InputEvent("input", { bubbles: true }));
        if (!(document.body.offsetHeight > 0)) throw new Error("nothing is laid out");
        found.echo.push(performance.now() - start);
        await told;
        found.answer.push(performance.now() - start);
        found.heard.add(document.getElementById("sentence").textContent);
    }
    const last = (times) => times.sort((a, b) => a - b)[Math.floor(times.length * 0.95)];
    const of = (times) => ({ "95 of 100": last(times), median: median(times), reference: median(found.beside) });
    return { echo: of(found.echo), answer: of(found.answer), answers: found.heard.size };
"#;

/// Runs of the reference that a key takes of the painting thread today, and until its answer stands.
const ECHO: f64 = 3.0;
const ANSWER: f64 = 12.0;

/// The page on a host, a label typed.
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
    let found = figures(&browser, "a key", KEYS).await?;
    assert!(found["answers"].as_u64() > Some(1), "always the same: {found}");
    for (part, today) in [("echo", ECHO), ("answer", ANSWER)] {
        holds(&found[part], "median", today)?;
    }
    if browser.can(Can::Slow) {
        browser.slow_down(4.0).await?;
        figures(&browser, "a key on a painting thread slowed four times", KEYS).await?;
    }
    browser.is_quiet().await
}
