//! A browser, and what a test asks of it.

use std::error::Error;
use std::fs;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use thirtyfour::common::capabilities::chrome::ChromeCapabilities;
use thirtyfour::{ChromiumLikeCapabilities, LoggingPrefsLogLevel, WebDriver};

/// What every test returns.
pub type Outcome<T = ()> = Result<T, Box<dyn Error + Send + Sync>>;

/// How long anything may take before a test gives up on it; a slow machine takes a few seconds.
const PATIENCE: Duration = Duration::from_secs(30);

/// A screen in CSS pixels.
#[derive(Clone, Copy, Debug)]
pub struct Screen {
    pub width: u32,
    pub height: u32,
    pub touch: bool,
}

/// A phone held upright.
pub const PHONE: Screen = Screen {
    width: 390,
    height: 844,
    touch: true,
};
/// A PC on the bench.
pub const BENCH: Screen = Screen {
    width: 1280,
    height: 800,
    touch: false,
};

/// The folder that the build fills.
pub fn dist() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("dist")
}

/// A folder of its own for one test, gone when dropped.
pub struct Scratch(PathBuf);

impl Scratch {
    pub fn new() -> Outcome<Self> {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let count = COUNT.fetch_add(1, Ordering::Relaxed);
        let path = std::env::temp_dir().join(format!("bellows-{}-{count}", std::process::id()));
        fs::create_dir_all(&path)?;
        Ok(Self(path))
    }

    pub fn path(&self) -> &Path {
        &self.0
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        // Left-overs in the system's temporary folder fail no test.
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// The driver's process, ended by its own handle.
struct Driver {
    process: Child,
    address: String,
}

impl Driver {
    fn start(temporary: &Path) -> Outcome<Self> {
        let mut process = Command::new("chromedriver")
            .arg("--port=0")
            .env("TMPDIR", temporary)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|fault| format!("chromedriver does not start ({fault}): ./build.sh test installs it"))?;
        let stdout = process.stdout.take().ok_or("chromedriver has no output")?;
        let mut driver = Self {
            process,
            address: String::new(),
        };
        for line in BufReader::new(stdout).lines() {
            if let Some((_, port)) = line?.split_once("started successfully on port ") {
                driver.address = format!("http://127.0.0.1:{}", port.trim_end_matches('.'));
                return Ok(driver);
            }
        }
        Err("chromedriver ended before it listened".into())
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

/// One Chromium on a fresh profile. Dropping it closes the browser, then the driver, then removes the profile:
/// the order of the fields.
pub struct Browser {
    pub driver: WebDriver,
    _process: Driver,
    _profile: Scratch,
}

impl Browser {
    pub async fn start(screen: Screen) -> Outcome<Self> {
        let profile = Scratch::new()?;
        let process = Driver::start(profile.path())?;
        let driver = WebDriver::new(&process.address, capabilities(profile.path())?).await?;
        driver.set_script_timeout(PATIENCE).await?;
        let browser = Self {
            driver,
            _process: process,
            _profile: profile,
        };
        browser.resize(screen).await?;
        Ok(browser)
    }

    /// Sets the viewport to exactly this size, as a window cannot be made as narrow as a phone.
    pub async fn resize(&self, screen: Screen) -> Outcome {
        let cdp = self.driver.cdp();
        cdp.emulation()
            .set_device_metrics_override(screen.width, screen.height, 1.0, screen.touch)
            .await?;
        cdp.send_raw(
            "Emulation.setTouchEmulationEnabled",
            json!({ "enabled": screen.touch }),
        )
        .await?;
        Ok(())
    }

    /// Opens the single file from disk and waits until the core has answered.
    pub async fn open_file(&self) -> Outcome {
        self.open(&format!("file://{}", dist().join("bellows.html").display()))
            .await
    }

    /// Opens an address and waits until the core has answered.
    pub async fn open(&self, url: &str) -> Outcome {
        self.driver.goto(url).await?;
        self.ready().await
    }

    /// Loads the page again and waits until the core has answered.
    pub async fn reload(&self) -> Outcome {
        self.driver.refresh().await?;
        self.ready().await
    }

    /// Waits until `main.js` says that the core has answered.
    pub async fn ready(&self) -> Outcome {
        let waited = self
            .until("document.documentElement.dataset.core === 'ready'")
            .await;
        match waited {
            Ok(()) => Ok(()),
            Err(fault) => Err(format!("{fault}; the console says {:?}", self.console_errors().await?).into()),
        }
    }

    /// Waits until an expression is true; it may `await`.
    pub async fn until(&self, expression: &str) -> Outcome {
        let end = Instant::now() + PATIENCE;
        while Instant::now() < end {
            // A page that is just being replaced answers with an error: ask again.
            if let Ok(Value::Bool(true)) = self.js(&format!("return {expression}")).await {
                return Ok(());
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
        Err(format!("not within {PATIENCE:?}: {expression}").into())
    }

    /// Runs the body of an asynchronous function in the page and gives what it returns.
    pub async fn js(&self, body: &str) -> Outcome<Value> {
        let script = format!("return (async () => {{ {body} }})()");
        Ok(self.driver.execute(script, Vec::new()).await?.json().clone())
    }

    /// Errors on the console since last asked: thrown, logged, refused by the policy, failed to load.
    pub async fn console_errors(&self) -> Outcome<Vec<String>> {
        let log = self.driver.browser_log().await?;
        Ok(log
            .into_iter()
            .filter(|entry| entry.level == "SEVERE")
            .map(|entry| entry.message)
            .collect())
    }

    /// Addresses that the page asked for since last asked, without those on disk, on loopback or in the page itself.
    pub async fn requests_outside(&self) -> Outcome<Vec<String>> {
        // "chrome:" is the start page that Chromium carries in itself.
        const INSIDE: [&str; 5] = ["file:", "data:", "blob:", "chrome:", "http://127.0.0.1:"];
        let mut outside = Vec::new();
        for entry in self.driver.get_log("performance").await? {
            let event: Value = serde_json::from_str(&entry.message)?;
            let url = event
                .pointer("/message/params/request/url")
                .and_then(Value::as_str)
                .unwrap_or_default();
            let asked = event.pointer("/message/method") == Some(&json!("Network.requestWillBeSent"));
            if asked && !INSIDE.iter().any(|start| url.starts_with(start)) {
                outside.push(url.to_owned());
            }
        }
        Ok(outside)
    }

    /// Makes the processor `times` slower; 4 stands for a middling phone.
    pub async fn slow_down(&self, times: f64) -> Outcome {
        self.driver
            .cdp()
            .send_raw("Emulation.setCPUThrottlingRate", json!({ "rate": times }))
            .await?;
        Ok(())
    }

    /// States one of the reader's wishes: `prefers-color-scheme` is `dark`, `prefers-reduced-motion` is `reduce`.
    pub async fn prefer(&self, feature: &str, value: &str) -> Outcome {
        let wish = json!({ "features": [{ "name": feature, "value": value }] });
        self.driver
            .cdp()
            .send_raw("Emulation.setEmulatedMedia", wish)
            .await?;
        Ok(())
    }

    /// Takes the network from the page, or gives it back. A service worker's own requests are not reached by this:
    /// stop the [`Site`](crate::site::Site) for those.
    pub async fn offline(&self, offline: bool) -> Outcome {
        let cdp = self.driver.cdp();
        cdp.network().enable().await?;
        let unlimited =
            json!({ "offline": offline, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1 });
        cdp.send_raw("Network.emulateNetworkConditions", unlimited)
            .await?;
        Ok(())
    }

    /// Keeps what the screen shows as `screens/NAME.png` in Cargo's target folder, to be looked at.
    pub async fn screenshot(&self, name: &str) -> Outcome<PathBuf> {
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("screens");
        fs::create_dir_all(&folder)?;
        let path = folder.join(format!("{name}.png"));
        self.driver.screenshot(&path).await?;
        Ok(path)
    }
}

fn capabilities(profile: &Path) -> Outcome<ChromeCapabilities> {
    let mut wanted = ChromeCapabilities::new();
    for argument in [
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        // One name that a phone might reach stands for a host; it leads to loopback.
        "--host-resolver-rules=MAP bellows.example 127.0.0.1, MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
    ] {
        wanted.add_arg(argument)?;
    }
    wanted.add_arg(&format!("--user-data-dir={}", profile.join("profile").display()))?;
    wanted.set_logging_prefs("browser", LoggingPrefsLogLevel::All)?;
    wanted.set_logging_prefs("performance", LoggingPrefsLogLevel::All)?;
    Ok(wanted)
}
