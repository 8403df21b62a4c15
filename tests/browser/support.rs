//! A browser, and what a test asks of it.

use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use thirtyfour::WebDriver;
use thirtyfour::common::print::{PrintPage, PrintParameters};

use crate::ears::Ears;
use crate::engine::{Can, Driver, Engine, say, test_name};

/// What every test returns.
pub type Outcome<T = ()> = Result<T, Box<dyn Error + Send + Sync>>;

/// How long anything may take before a test gives up on it; a slow machine takes a few seconds.
pub const PATIENCE: Duration = Duration::from_secs(30);

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
    #[expect(
        clippy::let_underscore_must_use,
        reason = "left-overs in the system's temporary folder fail no test"
    )]
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// One browser on a fresh profile. Dropping it closes the browser, then the driver, then removes the profile:
/// the order of the fields.
pub struct Browser {
    pub driver: WebDriver,
    engine: Engine,
    ears: Option<Ears>,
    _process: Driver,
    profile: Scratch,
}

impl Browser {
    /// Starts the engine of this run with a screen as near as it has to the one wanted.
    pub async fn start(screen: Screen) -> Outcome<Self> {
        let (engine, profile) = (Engine::chosen()?, Scratch::new()?);
        let process = Driver::start(engine, profile.path())?;
        let driver = WebDriver::new(&process.address, engine.capabilities(profile.path())).await?;
        driver.set_script_timeout(PATIENCE).await?;
        let ears = if engine.can(Can::Listen) {
            Some(Ears::open(&driver).await?)
        } else {
            None
        };
        let browser = Self {
            driver,
            engine,
            ears,
            _process: process,
            profile,
        };
        browser.resize(screen).await?;
        if engine.can(Can::Download) {
            // Older releases cannot: a test that waits for a file fails there, and no other.
            if let Err(fault) = browser.keep_downloads().await {
                say(&format!("downloads are not kept: {fault}"));
            }
        }
        Ok(browser)
    }

    /// Whether this engine can do something that the rest of a test does without.
    pub const fn can(&self, what: Can) -> bool {
        self.engine.can(what)
    }

    pub const fn engine_name(&self) -> &'static str {
        self.engine.name()
    }

    fn ears(&self) -> Outcome<&Ears> {
        let engine = self.engine.name();
        self.ears
            .as_ref()
            .ok_or_else(|| format!("{engine} has no WebDriver BiDi").into())
    }

    /// Sends a command of WebDriver BiDi.
    async fn command(&self, method: &str, parameters: Value) -> Outcome {
        self.ears()?.command(method, parameters).await
    }

    /// Sends a command of WebDriver BiDi about the page, which goes by the name of its window.
    async fn command_here(&self, method: &str, mut parameters: Value) -> Outcome {
        parameters["contexts"] = json!([self.driver.window().await?.to_string()]);
        self.command(method, parameters).await
    }

    /// Sets the viewport to exactly this size, as a window cannot be made as narrow as a phone; where the engine
    /// cannot, the window.
    pub async fn resize(&self, screen: Screen) -> Outcome {
        if !self.can(Can::Screen) {
            self.driver
                .set_window_rect(0, 0, screen.width, screen.height)
                .await?;
            return Ok(());
        }
        let viewport = json!({
            "context": self.driver.window().await?.to_string(),
            "viewport": { "width": screen.width, "height": screen.height },
            "devicePixelRatio": 1,
        });
        self.command("browsingContext.setViewport", viewport).await?;
        if self.can(Can::Touch) {
            let touch = screen.touch;
            let points = touch.then_some(1);
            self.command_here("emulation.setTouchOverride", json!({ "maxTouchPoints": points }))
                .await?;
            // A phone's scroll bars lie over the page.
            let bars = json!({ "scrollbarType": touch.then_some("overlay") });
            // Older releases cannot: their bars take room, and nothing else changes.
            if let Err(fault) = self
                .command_here("emulation.setScrollbarTypeOverride", bars)
                .await
            {
                say(&format!("bars that take room: {fault}"));
            }
        }
        Ok(())
    }

    /// Opens the single file from disk and waits until the core has answered.
    pub async fn open_file(&self) -> Outcome {
        self.open(&file_url()).await
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

    /// Waits until the page is wired and its worker has told all of the answer.
    pub async fn ready(&self) -> Outcome {
        let waited = self
            .until("document.documentElement.dataset.core === 'ready' && document.documentElement.dataset.answer === 'settled'")
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
            tokio::time::sleep(Duration::from_millis(20)).await;
        }
        Err(format!("not within {PATIENCE:?}: {expression}").into())
    }

    /// Runs the body of an asynchronous function in the page and gives what it returns.
    pub async fn js(&self, body: &str) -> Outcome<Value> {
        let script = format!("return (async () => {{ {body} }})()");
        Ok(self.driver.execute(script, Vec::new()).await?.json().clone())
    }

    /// Errors on the console since last asked: thrown, logged, refused by the policy, failed to load. None where the
    /// engine cannot hear them.
    pub async fn console_errors(&self) -> Outcome<Vec<String>> {
        match &self.ears {
            Some(ears) => ears.errors(&self.driver).await,
            None => Ok(Vec::new()),
        }
    }

    /// Asserts that the console shows no error since last asked. An engine that cannot hear it says so.
    pub async fn is_quiet(&self) -> Outcome {
        if !self.can(Can::Listen) {
            say(&format!(
                "not checked in {}, console errors: {}",
                self.engine.name(),
                test_name()
            ));
        }
        assert_eq!(self.console_errors().await?, [""; 0]);
        Ok(())
    }

    /// Asserts that the page asked nobody beyond disk, loopback and itself since last asked.
    pub async fn asks_nobody(&self) -> Outcome {
        if !self.can(Can::Listen) {
            say(&format!(
                "not checked in {}, requests: {}",
                self.engine.name(),
                test_name()
            ));
            return Ok(());
        }
        assert_eq!(self.requests_outside().await?, [""; 0]);
        Ok(())
    }

    /// Addresses that the page asked for since last asked, without those on disk, on loopback or in the page itself.
    pub async fn requests_outside(&self) -> Outcome<Vec<String>> {
        self.ears()?.outside(&self.driver).await
    }

    /// Runs a script in each page before the page's own.
    pub async fn before_load(&self, script: &str) -> Outcome {
        let function = format!("() => {{ {script} }}");
        self.command(
            "script.addPreloadScript",
            json!({ "functionDeclaration": function }),
        )
        .await
    }

    /// Makes the processor `times` slower; 4 stands for a middling phone. No standard has this: it is Chromium's own
    /// command, and for figures that are printed, never for a test that passes or fails by it.
    pub async fn slow_down(&self, times: f64) -> Outcome {
        self.driver
            .cdp()
            .send_raw("Emulation.setCPUThrottlingRate", json!({ "rate": times }))
            .await?;
        Ok(())
    }

    /// States one of the reader's wishes: `prefers-color-scheme` is `dark`, `prefers-reduced-motion` is `reduce`.
    pub async fn prefer(&self, feature: &str, value: &str) -> Outcome {
        let wish = json!({ "features": { feature: value } });
        self.command_here("emulation.setMediaFeaturesOverride", wish)
            .await
    }

    /// The colour schemes that this engine can be given: to be shown in, one after the other.
    pub const fn schemes(&self) -> &'static [&'static str] {
        if self.can(Can::Wish) {
            &["light", "dark"]
        } else {
            &["light"]
        }
    }

    /// Shows the page in a colour scheme, one of [`Self::schemes`].
    pub async fn show_in(&self, scheme: &str) -> Outcome {
        if self.can(Can::Wish) {
            self.prefer("prefers-color-scheme", scheme).await?;
        }
        Ok(())
    }

    /// Takes the network from the page, or gives it back. A service worker's own requests are not reached by this:
    /// stop the [`Site`](crate::site::Site) for those.
    pub async fn offline(&self, offline: bool) -> Outcome {
        let conditions = offline.then(|| json!({ "type": "offline" }));
        self.command_here(
            "emulation.setNetworkConditions",
            json!({ "networkConditions": conditions }),
        )
        .await
    }

    async fn keep_downloads(&self) -> Outcome {
        let folder = self.profile.path().join("downloads");
        fs::create_dir_all(&folder)?;
        let allowed = json!({ "type": "allowed", "destinationFolder": folder });
        self.command(
            "browser.setDownloadBehavior",
            json!({ "downloadBehavior": allowed }),
        )
        .await
    }

    /// The text of the next file that was downloaded: read once the browser says that it is whole.
    pub async fn downloaded(&self) -> Outcome<String> {
        let end = Instant::now() + PATIENCE;
        while Instant::now() < end {
            if let Some(path) = self.ears()?.download() {
                return Ok(fs::read_to_string(path)?);
            }
            tokio::time::sleep(Duration::from_millis(20)).await;
        }
        Err(format!("no file arrived within {PATIENCE:?}").into())
    }

    /// Prints to PDF on paper of this size in inches, as the browser's own dialogue would.
    pub async fn print(&self, width: f64, height: f64) -> Outcome<Vec<u8>> {
        let page = PrintPage {
            width: width * 2.54,
            height: height * 2.54,
        };
        let parameters = PrintParameters {
            page,
            ..PrintParameters::default()
        };
        Ok(self.driver.print_page(parameters).await?)
    }

    /// Keeps what the screen shows as `screens/NAME.png` in Cargo's target folder, to be looked at.
    pub async fn screenshot(&self, name: &str) -> Outcome<PathBuf> {
        let path = screens()?.join(format!("{name}.png"));
        self.driver.screenshot(&path).await?;
        Ok(path)
    }
}

/// The single file's address on this disk.
pub fn file_url() -> String {
    format!("file://{}", dist().join("bellows.html").display())
}

/// The folder of pictures to be looked at, by engine.
pub fn screens() -> Outcome<PathBuf> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("screens");
    let folder = match Engine::chosen()? {
        Engine::Chromium => folder,
        other => folder.join(other.name()),
    };
    fs::create_dir_all(&folder)?;
    Ok(folder)
}
