//! What holds the page: it opens from disk and from a host, stays open without either, and asks nobody else.

use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::json;

use crate::reader::{labelled, reckoned};
use crate::site::Site;
use crate::support::{BENCH, Browser, Outcome, PHONE, Scratch, dist, file_url};

/// Tries an inline script and a request to a stranger; gives the page's policy and what it refused.
const TRY_POLICY: &str = r#"
    const refused = [];
    document.addEventListener("securitypolicyviolation", (event) => refused.push(event.effectiveDirective));
    const script = document.createElement("script");
    script.textContent = "window.strange = true";
    document.body.append(script);
    const asked = await fetch("STRANGER", { mode: "no-cors" }).then(() => true, () => false);
    for (let i = 0; i < 100 && refused.length < 2; i++) await new Promise((done) => setTimeout(done, 20));
    const policy = document.querySelector("meta[http-equiv=Content-Security-Policy]").content;
    return { policy, refused, ran: window.strange ?? false, asked };
"#;

#[tokio::test(flavor = "multi_thread")]
async fn the_file_opens_from_disk_and_asks_for_nothing() -> Outcome {
    let browser = Browser::start(PHONE).await?;
    browser.open_file().await?;
    let shot = browser.screenshot("file-phone").await?;
    assert!(fs::metadata(shot)?.len() > 0);
    browser.is_quiet().await?;
    browser.asks_nobody().await?;
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_site_runs_the_core_of_this_crate() -> Outcome {
    let site = Site::start(dist().join("site"))?;
    let browser = Browser::start(BENCH).await?;
    browser.open(&site.url()).await?;
    let schema = browser
        .js("return Number(document.documentElement.dataset.schema)")
        .await?;
    assert_eq!(schema, json!(bellows::shop::SCHEMA));
    browser.screenshot("site-bench").await?;

    browser
        .until("(await navigator.serviceWorker.ready).active.state === 'activated'")
        .await?;
    browser.is_quiet().await?;
    browser.asks_nobody().await?;
    let missing = site.served().into_iter().filter(|served| !served.found);
    let missing: Vec<_> = missing.map(|served| served.path).collect();
    assert_eq!(missing, [""; 0]);
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_policy_is_strict_and_works() -> Outcome {
    let site = Site::start(dist().join("site"))?;
    let stranger = Site::start(dist().join("site"))?;
    let attempt = TRY_POLICY.replace("STRANGER", &stranger.url());
    let browser = Browser::start(PHONE).await?;
    let file = file_url();
    for (url, connect) in [(site.url(), "connect-src 'self'"), (file, "connect-src 'none'")] {
        browser.open(&url).await?;
        let found = browser.js(&attempt).await?;
        let policy = found["policy"].as_str().unwrap_or_default();
        assert!(
            policy.starts_with("default-src 'none'; ") && policy.contains(connect),
            "{policy}"
        );
        assert!(
            !policy.contains("'unsafe-inline'") && !policy.contains("'unsafe-eval'"),
            "{policy}"
        );
        assert_eq!(
            found["refused"],
            json!(["script-src-elem", "connect-src"]),
            "{url}"
        );
        assert_eq!(
            (&found["ran"], &found["asked"]),
            (&json!(false), &json!(false)),
            "{url}"
        );
    }
    assert!(stranger.served().is_empty());
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_site_opens_after_its_host_is_gone() -> Outcome {
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

    site.stop();
    browser.reload().await?;
    for address in ["", "?from=mail", "index.html", "index.html?from=mail#shop"] {
        browser.driver.goto("about:blank").await?;
        browser.open(&format!("{}{address}", site.url())).await?;
    }
    let kept = browser
        .js("return fetch('never-shipped.js').then(() => true, () => false)")
        .await?;
    assert_eq!(kept, json!(false), "the host still answers");
    browser.asks_nobody().await?;
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_newer_build_waits_until_it_is_asked_for() -> Outcome {
    const CACHES: &str = "return (await caches.keys()).sort()";
    let copy = Scratch::new()?;
    copy_folder(&dist().join("site"), copy.path())?;
    let site = Site::start(copy.path().to_owned())?;
    let browser = Browser::start(PHONE).await?;
    browser.open(&site.url()).await?;
    browser
        .until("(await navigator.serviceWorker.ready).active.state === 'activated'")
        .await?;
    browser.reload().await?;
    browser.js("await caches.open('neighbour')").await?;
    let before = browser.js(CACHES).await?;
    let old = before[0].as_str().unwrap_or_default().to_owned();
    assert_eq!(before, json!([old, "neighbour"]));

    let (worker, page) = (copy.path().join("sw.js"), copy.path().join("index.html"));
    let hash = hash_of(&page)?;
    let newer = fs::read_to_string(&page)?.replace("<html ", "<html data-build=newer ");
    fs::write(&page, newer)?;
    let newer = fs::read_to_string(&worker)?.replace(old.trim_start_matches("bellows-"), "newer");
    assert!(newer.contains(&hash), "the worker does not know its page");
    fs::write(&worker, newer.replace(&hash, &hash_of(&page)?))?;
    browser
        .js("await (await navigator.serviceWorker.ready).update()")
        .await?;
    browser
        .until("(await navigator.serviceWorker.ready).waiting !== null")
        .await?;

    browser.reload().await?;
    assert_eq!(
        browser
            .js("return document.documentElement.dataset.build ?? 'old'")
            .await?,
        json!("old")
    );
    assert_eq!(
        browser.js(CACHES).await?,
        json!([old, "bellows-newer", "neighbour"])
    );
    browser.until("!document.querySelector('#newer').hidden").await?;
    browser
        .js("document.querySelector('#newer button').click()")
        .await?;
    browser
        .until("document.documentElement.dataset.build === 'newer'")
        .await?;
    browser.ready().await?;
    browser
        .until(
            "!(await caches.keys()).some((name) => name === 'OLD')"
                .replace("OLD", &old)
                .as_str(),
        )
        .await?;
    assert_eq!(browser.js(CACHES).await?, json!(["bellows-newer", "neighbour"]));
    Ok(())
}

/// The SHA-256 of a file, by the system's own tool.
fn hash_of(path: &Path) -> Outcome<String> {
    let told = Command::new("sha256sum").arg(path).output()?;
    let told = String::from_utf8(told.stdout)?;
    Ok(told.split_whitespace().next().ok_or("no hash")?.to_owned())
}

/// A host that has lost the core, holds half of it, or answers with a login page.
#[tokio::test(flavor = "multi_thread")]
async fn a_core_that_is_missing_cut_short_or_a_login_page_is_said() -> Outcome {
    for (fault, words) in [("missing", "404"), ("cut", "cut short"), ("login", "Sign in")] {
        let copy = Scratch::new()?;
        copy_folder(&dist().join("site"), copy.path())?;
        let core = copy.path().join("core_bg.wasm");
        let whole = fs::read(&core)?;
        match fault {
            "missing" => fs::remove_file(&core)?,
            "cut" => fs::write(&core, &whole[..whole.len() / 2])?,
            _ => fs::write(&core, "<!doctype html><title>Guest Wi-Fi</title>")?,
        }
        let site = Site::start(copy.path().to_owned())?;
        let browser = Browser::start(PHONE).await?;
        browser.driver.goto(site.url()).await?;
        browser
            .until("document.documentElement.dataset.core === 'dead'")
            .await?;
        let said = browser
            .js("return document.getElementById('dead').innerText")
            .await?;
        let said = said.as_str().unwrap_or_default();
        assert!(said.contains(words) && said.contains("again"), "{fault}: {said}");
        // What was wrong was not kept: once the host is well again, so is the page.
        fs::write(&core, &whole)?;
        browser.reload().await?;
        browser.type_label().await?;
        assert_eq!(browser.shown().await?, reckoned(&labelled()), "{fault}");
    }
    Ok(())
}

fn copy_folder(from: &Path, to: &Path) -> Outcome {
    fs::create_dir_all(to)?;
    for entry in fs::read_dir(from)? {
        let entry = entry?;
        let target = to.join(entry.file_name());
        if entry.file_type()?.is_dir() {
            copy_folder(&entry.path(), &target)?;
        } else {
            fs::copy(entry.path(), target)?;
        }
    }
    Ok(())
}
