//! The printed sheet: one page of Letter and of A4, whatever the shop, with a code that a camera reads off it.

use std::fs;

use bellows::shop::link;
use bellows::shop::{Candidate, Place, Shop, Task, TaskKind, Units};
use serde_json::json;

use crate::engine::needs;
use crate::handing::scanned;
use crate::support::{BENCH, Browser, Outcome, PHONE, file_url, screens};

/// Letter and A4, inches.
const PAPERS: [(&str, f64, f64); 2] = [("letter", 8.5, 11.0), ("a4", 8.27, 11.69)];

/// The example with every field of its tasks typed, a second tank and limits: two places, ten tasks, three machines.
fn large() -> Shop {
    let mut shop = Shop::demo();
    shop.name = "Two places, ten tasks".into();
    for task in &mut shop.tasks {
        task.on = true;
        task.name = format!("{:?} on the left wing's inboard skins", task.kind);
        task.pause = "7 min".into();
    }
    shop.auxiliary.tank = "10 gal".into();
    shop.limits.budget = "$900".into();
    shop
}

/// As much as a shop may hold of places and tasks, all with long names.
fn largest() -> Shop {
    let mut shop = large();
    shop.name = "All that a shop may hold".into();
    let place = shop.places[1].clone();
    shop.places = (1..=bellows::quantity::field::PLACES.list.map_or(0, |list| list.most))
        .map(|number| Place {
            name: format!("Hangar number {number} on the far side of the field"),
            ..place.clone()
        })
        .collect();
    shop.tasks = (1..=bellows::quantity::field::TASKS.list.map_or(0, |list| list.most))
        .map(|number| Task {
            kind: if number % 2 == 0 {
                TaskKind::Drill
            } else {
                TaskKind::Sander
            },
            name: format!("Job {number}, a task with a name of some length"),
            on: true,
            ..Task::default()
        })
        .collect();
    shop
}

/// Opens a shop by its link.
async fn open(browser: &Browser, shop: &Shop) -> Outcome {
    browser.driver.goto("about:blank").await?;
    let page = file_url();
    browser.open(&format!("{page}#{}", link::write(shop))).await
}

/// Prints, keeps it to be looked at, and counts its pages.
async fn pages(browser: &Browser, name: &str, width: f64, height: f64) -> Outcome<usize> {
    let pdf = browser.print(width, height).await?;
    fs::write(screens()?.join(format!("sheet-{name}.pdf")), &pdf)?;
    Ok(page_count(&pdf))
}

/// The pages of a PDF: its objects of that type, plain or within a stream that is packed by ZIP's method
/// (ISO 32000-1, 7.5.7 and 7.7.3.3).
fn page_count(pdf: &[u8]) -> usize {
    let mut text = String::from_utf8_lossy(pdf).into_owned();
    for packed in pdf.windows(6).enumerate().filter(|(_, word)| word == b"stream") {
        let rest = pdf[packed.0 + 6..].trim_ascii_start();
        if let Ok(plain) = miniz_oxide::inflate::decompress_to_vec_zlib(rest) {
            text.push_str(&String::from_utf8_lossy(&plain));
        }
    }
    let types = text.split("/Type").skip(1).map(str::trim_start);
    types
        .filter_map(|rest| rest.strip_prefix("/Page"))
        .filter(|rest| !rest.starts_with('s'))
        .count()
}

#[tokio::test(flavor = "multi_thread")]
async fn every_shop_prints_on_one_page_of_letter_and_a4() -> Outcome {
    needs!(Print);
    let metric = Shop {
        units: Units::Metric,
        ..Shop::demo()
    };
    let silent = Shop {
        candidates: vec![Candidate::default()],
        ..Shop::demo()
    };
    let screens = [(PHONE, "phone"), (BENCH, "bench")];
    for (name, shop) in [
        ("us", Shop::demo()),
        ("metric", metric),
        ("fresh", Shop::fresh()),
        ("silent", silent),
        ("large", large()),
        ("largest", largest()),
    ] {
        // What is printed must not hang on the screen; one shop shows that.
        for (screen, device) in screens.into_iter().take(if name == "large" { 2 } else { 1 }) {
            let browser = Browser::start(screen).await?;
            browser.show_in("dark").await?;
            open(&browser, &shop).await?;
            for (paper, width, height) in PAPERS {
                let printed = format!("{name}-{device}-{paper}");
                assert_eq!(pages(&browser, &printed, width, height).await?, 1, "{printed}");
            }
            let sheet = browser.text("#sheet").await?;
            for part in [
                "#verdict",
                "#sentence",
                "#on-window .sums",
                "#cautions li:last-child",
            ] {
                let text = browser.text(part).await?;
                assert!(sheet.contains(&text), "{name}: {part} is not on the sheet");
            }
            let hidden = "return document.getElementById('sheet').hidden && document.documentElement.scrollWidth <= innerWidth";
            assert_eq!(
                browser.js(hidden).await?,
                json!(true),
                "{name}: the sheet stays on the screen"
            );
            browser.is_quiet().await?;
        }
    }
    Ok(())
}

/// What must be on the sheet of a usual shop: all of it, not only what is never left out.
#[tokio::test(flavor = "multi_thread")]
async fn the_example_s_sheet_has_map_plan_and_remedies() -> Outcome {
    needs!(Print);
    let browser = Browser::start(PHONE).await?;
    open(&browser, &Shop::demo()).await?;
    assert_eq!(pages(&browser, "example", 8.5, 11.0).await?, 1);
    let sheet = browser.text("#sheet").await?;
    for part in ["#odds", "#next", "#on-plan .findings p", "#on-mend .findings p"] {
        let text = browser.text(part).await?;
        assert!(!text.is_empty() && sheet.contains(&text), "{part}: {text}");
    }
    let assumed = browser.text("#assumed").await?;
    assert!(!assumed.is_empty() && sheet.contains(&assumed), "{assumed}");
    let missing = browser.text("#sheet .missing").await?;
    for part in ["the map", "the plan", "what would mend it", "side by side"] {
        assert!(!missing.contains(part), "{missing}");
    }
    let drawn = "return document.querySelectorAll('#sheet svg.chart rect.band').length > 12";
    assert_eq!(browser.js(drawn).await?, json!(true), "the map is left out");
    for task in ["drill to size", "deburr and countersink"] {
        assert!(sheet.contains(task), "{task} is left out");
    }
    Ok(())
}

/// Lays the page out on the screen as on paper: rules for print hold.
const PRINT_STYLE: &str = "
    for (const sheet of document.styleSheets)
        for (const rule of sheet.cssRules)
            if (rule.media?.mediaText === 'print') rule.media.mediaText = 'all';";

/// At 96 dots an inch a module of 0.4 mm is 1.5 dots, which no camera resolves either: drawn four times as large.
#[tokio::test(flavor = "multi_thread")]
async fn a_camera_reads_the_code_off_the_printed_sheet() -> Outcome {
    let browser = Browser::start(BENCH).await?;
    open(&browser, &Shop::demo()).await?;
    browser.js("dispatchEvent(new Event('beforeprint'))").await?;
    browser.js(PRINT_STYLE).await?;
    let millimetres =
        "return document.querySelector('#sheet svg.code').getBoundingClientRect().width / 96 * 25.4";
    let modules = "return document.querySelector('#sheet svg.code').viewBox.baseVal.width";
    let (wide, modules) = (browser.js(millimetres).await?, browser.js(modules).await?);
    let module = wide.as_f64().ok_or("no width")? / modules.as_f64().ok_or("no modules")?;
    assert!(module >= 0.399, "a module is {module} mm wide");
    browser
        .js("Object.assign(document.querySelector('#sheet svg.code').style, { transform: 'scale(4)', position: 'relative', zIndex: 9 })")
        .await?;
    assert_eq!(
        link::read(&scanned(&browser, "#sheet svg.code").await?)?,
        Shop::demo()
    );
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_link_too_long_for_a_code_is_said_on_the_sheet() -> Outcome {
    needs!(Print);
    let browser = Browser::start(PHONE).await?;
    // Names that no packing shortens: the decimals of square roots.
    let mut shop = largest();
    for (task, number) in shop.tasks.iter_mut().zip(2_u32..) {
        task.name = f64::from(number).sqrt().to_bits().to_string().repeat(2);
        task.flow = format!("{} cfm", f64::from(number).cbrt());
    }
    open(&browser, &shop).await?;
    assert_eq!(pages(&browser, "too-long", 8.5, 11.0).await?, 1);
    let note = browser.text("#sheet .coded figcaption").await?;
    assert!(note.contains("too many for a code"), "{note}");
    Ok(())
}

/// The example's three machines with the prices and masses of its own labels; a fourth without a name.
#[tokio::test(flavor = "multi_thread")]
async fn the_sheet_compares_the_machines() -> Outcome {
    needs!(Print);
    const ROWS: &str = "
        const table = [...document.querySelectorAll('#sheet section:not([hidden]) > h2')].find(({ textContent }) => textContent === 'Side by side')?.nextSibling;
        return [...(table?.rows ?? [])].map((row) => [...row.cells].map((cell) => cell.textContent.trim()));";
    let browser = Browser::start(PHONE).await?;
    let mut shop = Shop::demo();
    shop.candidates.push(Candidate {
        flow: "5 cfm".into(),
        tank: "26".into(),
        ..Candidate::default()
    });
    open(&browser, &shop).await?;
    for (paper, width, height) in PAPERS {
        assert_eq!(
            pages(&browser, &format!("four-{paper}"), width, height).await?,
            1,
            "{paper}"
        );
    }
    browser.js("dispatchEvent(new Event('beforeprint'))").await?;
    let rows: Vec<Vec<String>> = serde_json::from_value(browser.js(ROWS).await?)?;
    let of = |name: &str| {
        rows.iter()
            .find(|row| row.first().is_some_and(|first| first == name))
    };
    assert_eq!(rows.len(), 5, "{rows:?}");
    let upright = of("1 Upright, 20 gal").ok_or(format!("{rows:?}"))?;
    assert!(
        upright[1].ends_with(&browser.text("#verdict").await?),
        "{upright:?}"
    );
    assert!(
        upright[2].contains("420") && upright[3].contains("125"),
        "{upright:?}"
    );
    let unnamed = of("26 gal").ok_or(format!("{rows:?}"))?;
    assert_eq!(unnamed[2..], ["not on the label"; 3]);
    // One machine is no comparison.
    shop.candidates.truncate(1);
    open(&browser, &shop).await?;
    browser.js("dispatchEvent(new Event('beforeprint'))").await?;
    assert_eq!(browser.js(ROWS).await?, json!([]));
    // The room that the comparison took goes to the hardest task's figures.
    let figures = "return document.querySelectorAll('#sheet section:not([hidden]) dd').length";
    assert!(
        browser
            .js(figures)
            .await?
            .as_u64()
            .is_some_and(|count| count >= 10)
    );
    browser.is_quiet().await?;
    Ok(())
}
