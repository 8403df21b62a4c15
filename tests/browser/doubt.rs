//! How sure the answer is: beside the headline and as a subject, once typing rests.

use bellows::answer::Draws;
use bellows::answer::report::Told;
use bellows::shop::Shop;
use serde_json::{Value, json};

use crate::reader::{labelled, put};
use crate::site::Site;
use crate::support::{BENCH, Browser, Outcome, PHONE, dist};

/// What the same core says outside a browser.
fn told(shop: &Shop) -> Told {
    let mut draws = Draws::default();
    assert!(draws.start(shop));
    while !draws.step(100) {}
    draws.told()
}

const SETTLED: &str = "!document.getElementById('sure').hidden && !document.getElementById('sure').classList.contains('pending')";

async fn sentence(browser: &Browser) -> Outcome<Value> {
    browser.until(SETTLED).await?;
    browser
        .js("return document.getElementById('sure').textContent")
        .await
}

#[tokio::test(flavor = "multi_thread")]
async fn the_doubt_shows_and_a_timed_pump_up_changes_it() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    // Nothing is known yet: nothing to doubt.
    browser
        .until("document.querySelector('#on-doubt .sums').textContent.includes('no verdict to doubt')")
        .await?;
    let hidden = browser
        .js("return document.getElementById('sure').hidden")
        .await?;
    assert_eq!(hidden, json!(true));

    browser.type_label().await?;
    let mut shop = labelled();
    let by_label = told(&shop);
    assert_eq!(sentence(&browser).await?, json!(by_label.sentence));
    // The picture's bars are told in words as well, and the table has a row for each task at each place.
    let bars = browser
        .js("return [document.querySelectorAll('#on-doubt polyline.bar').length > 0, document.querySelectorAll('#on-doubt tbody tr').length, document.querySelectorAll('#on-doubt svg .word').length > 0]")
        .await?;
    let rows = by_label.section.chart.as_ref().map(|chart| chart.rows.len());
    assert_eq!(bars, json!([true, rows, true]));
    for (name, screen) in [("phone", PHONE), ("bench", BENCH)] {
        browser.resize(screen).await?;
        for scheme in ["light", "dark"] {
            browser.prefer("prefers-color-scheme", scheme).await?;
            browser.js("document.getElementById('on-doubt').open = true; document.querySelector('h1').scrollIntoView()").await?;
            browser.screenshot(&format!("doubt-top-{name}-{scheme}")).await?;
            browser
                .js("document.getElementById('on-doubt').scrollIntoView()")
                .await?;
            browser.screenshot(&format!("doubt-{name}-{scheme}")).await?;
            browser
                .js("document.querySelector('#on-doubt figure').scrollIntoView()")
                .await?;
            browser.screenshot(&format!("doubt-bars-{name}-{scheme}")).await?;
        }
    }
    browser.resize(PHONE).await?;

    browser.js("document.getElementById('plate').open = true").await?;
    for (field, text) in [
        ("pump_from", "0 psi"),
        ("pump_to", "120 psi"),
        ("pump_up", "300 s; 302 s"),
    ] {
        browser.retype(&format!("[data-own='{field}']"), text).await?;
    }
    let label = &mut shop.candidates[0];
    (label.pump_from, label.pump_to) = ("0 psi".into(), "120 psi".into());
    label.pump_up = "300 s; 302 s".into();
    let measured = told(&shop);
    assert_ne!(measured.section, by_label.section);
    browser
        .until(&format!(
            "{SETTLED} && document.getElementById('sure').textContent === {}",
            json!(measured.sentence)
        ))
        .await?;
    let grounds = browser
        .js("return document.querySelector('#on-doubt .figures').textContent")
        .await?;
    let flow = &measured.section.figures[0].value;
    assert!(
        grounds.as_str().is_some_and(|text| text.contains(flow.as_str())),
        "{grounds}, {flow}"
    );
    assert_eq!(browser.console_errors().await?, [""; 0]);
    Ok(())
}

/// A key pressed hides what belongs to the older answer at once; the old text never stands beside the new.
#[tokio::test(flavor = "multi_thread")]
async fn an_older_doubt_is_not_shown_beside_a_newer_answer() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    browser.type_label().await?;
    let before = sentence(&browser).await?;
    let seen = browser
        .js("
            const field = document.getElementById('flow'), line = document.getElementById('sure');
            field.value = '9 cfm';
            field.dispatchEvent(new InputEvent('input', { bubbles: true }));
            return [getComputedStyle(line).visibility, getComputedStyle(document.querySelector('#on-doubt .sums')).visibility];")
        .await?;
    assert_eq!(seen, json!(["hidden", "hidden"]));
    let mut shop = labelled();
    put(&mut shop, "flow", "9 cfm");
    let after = sentence(&browser).await?;
    assert_eq!(after, json!(told(&shop).sentence));
    assert_ne!(after, before);
    assert_eq!(browser.console_errors().await?, [""; 0]);
    Ok(())
}

/// Times a thousand draws of each machine of the example, the fastest of six runs, as whatever else the machine does
/// can only slow one down. The flow differs by the clock's digits, so that nothing kept answers. And the longest time that the page is held up while it draws by itself.
const TIMED: &str = r#"
    const RUNS = 6;
    const { demo, doubt_start, doubt_step, doubt_told } = await import("./core.js");
    const shop = demo(), machines = [];
    const flows = [4.2, 2.2, 11.2];
    for (let chosen = 0; chosen < 3; chosen++) {
        const totals = [], calls = [];
        for (let run = 0; run < RUNS; run++) {
            const first = performance.now() % 1e4;
            Object.assign(shop, { chosen });
            shop.candidates[chosen].flow = `${flows[chosen] + first * 1e-8} cfm`;
            const start = performance.now();
            if (!doubt_start(shop)) throw new Error("nothing to draw");
            for (let done = false; !done; ) {
                const before = performance.now();
                done = doubt_step(4);
                calls.push(performance.now() - before);
            }
            doubt_told();
            totals.push(performance.now() - start);
        }
        machines.push({ total: Math.min(...totals), longest_call: Math.max(...calls) });
    }
    const field = document.getElementById("flow"), line = document.getElementById("sure");
    field.value = `4.27${Math.floor(performance.now() % 1e4)} cfm`;
    field.dispatchEvent(new InputEvent("input", { bubbles: true }));
    const typed = performance.now();
    let last = typed, held = 0;
    // A timer as often as the page's own: the longest gap between two is what a key would wait.
    await new Promise((done) => {
        const beat = () => {
            const now = performance.now();
            held = Math.max(held, now - last);
            last = now;
            if (line.classList.contains("pending")) setTimeout(beat);
            else done();
        };
        setTimeout(beat);
    });
    return { machines, shown_after: performance.now() - typed, held };
"#;

#[tokio::test(flavor = "multi_thread")]
async fn a_thousand_draws_are_timed() -> Outcome {
    let site = Site::start(dist().join("site"))?;
    let browser = Browser::start(BENCH).await?;
    browser.open(&site.url()).await?;
    browser.type_label().await?;
    for slower in [1.0, 4.0] {
        browser.slow_down(slower).await?;
        let found = browser.js(TIMED).await?;
        println!("processor slowed {slower} times, ms: {found}");
        let machines = found["machines"].as_array().ok_or("no machines")?;
        assert_eq!(machines.len(), 3);
        for machine in machines {
            assert!(machine["total"].as_f64().is_some_and(|ms| ms > 0.0), "{found}");
        }
    }
    assert_eq!(browser.console_errors().await?, [""; 0]);
    Ok(())
}
