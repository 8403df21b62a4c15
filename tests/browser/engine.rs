//! The engines that the suite runs in: how each is started, and what each can do at a test's word.
//!
//! `BELLOWS_ENGINE` chooses: `chromium`, which is the default, `firefox` or `webkit`. All are driven by WebDriver and,
//! where they speak it, WebDriver BiDi.

use std::env;
use std::io::Write;
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use thirtyfour::Capabilities;

use crate::support::Outcome;

/// How long a driver may take to listen; a slow machine takes a second.
const PATIENCE: Duration = Duration::from_secs(30);

/// A name that a phone might reach. It leads to loopback; no other name resolves.
pub const HOST: &str = "bellows.example";

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Engine {
    Chromium,
    Firefox,
    /// WebKitGTK in its own small browser.
    WebKit,
}

/// What a test may need and not every engine can do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Can {
    /// Hears the console and what is asked of the network.
    Listen,
    /// Runs a script before the page's own.
    Prepare,
    /// Gives the page a screen of any size.
    Screen,
    /// Has a finger for a pointer.
    Touch,
    /// States the reader's wishes, such as dark colours.
    Wish,
    /// Takes the network away.
    Offline,
    /// Puts downloads where the test says.
    Download,
    /// Prints to PDF.
    Print,
    /// Makes the processor slower.
    Slow,
    /// Finds [`HOST`] on loopback.
    Host,
}

impl Can {
    const fn name(self) -> &'static str {
        match self {
            Self::Listen => "a console that is heard",
            Self::Prepare => "scripts before the page's own",
            Self::Screen => "a screen of any size",
            Self::Touch => "touch",
            Self::Wish => "the reader's wishes",
            Self::Offline => "a network that can be taken away",
            Self::Download => "downloads into a folder",
            Self::Print => "printing",
            Self::Slow => "a processor made slower",
            Self::Host => "host names of our own",
        }
    }
}

impl Engine {
    /// The engine that this run is for.
    pub fn chosen() -> Outcome<Self> {
        match env::var("BELLOWS_ENGINE").as_deref() {
            Err(_) | Ok("" | "chromium") => Ok(Self::Chromium),
            Ok("firefox") => Ok(Self::Firefox),
            Ok("webkit") => Ok(Self::WebKit),
            Ok(other) => Err(format!("BELLOWS_ENGINE is {other:?}: use chromium, firefox or webkit").into()),
        }
    }

    pub const fn name(self) -> &'static str {
        match self {
            Self::Chromium => "Chromium",
            Self::Firefox => "Firefox",
            Self::WebKit => "WebKitGTK",
        }
    }

    /// Stated, not tried out: an engine that loses what it could do fails its tests and is not passed over.
    pub const fn can(self, what: Can) -> bool {
        match self {
            Self::Chromium => true,
            Self::Firefox => !matches!(what, Can::Touch | Can::Wish | Can::Slow),
            Self::WebKit => false,
        }
    }

    /// Whether the engine of this run can do all that a test needs. If not, says so by the test's name; the line is
    /// written past the test runner, which keeps to itself what a passed test prints.
    pub fn able(needs: &[Can]) -> Outcome<bool> {
        let engine = Self::chosen()?;
        let Some(lacks) = needs.iter().find(|need| !engine.can(**need)) else {
            return Ok(true);
        };
        say(&format!(
            "skipped in {}, which lacks {}: {}",
            engine.name(),
            lacks.name(),
            test_name()
        ));
        Ok(false)
    }

    /// What to ask of the driver for a fresh profile in a folder.
    pub fn capabilities(self, profile: &Path) -> Capabilities {
        let wanted = match self {
            Self::Chromium => chromium(profile),
            Self::Firefox => firefox(),
            Self::WebKit => json!({}),
        };
        let Value::Object(wanted) = wanted else {
            return Capabilities::new();
        };
        wanted.into()
    }
}

/// Writes a line past the test runner.
#[expect(clippy::let_underscore_must_use, reason = "a closed terminal fails no test")]
pub fn say(line: &str) {
    let _ = writeln!(std::io::stderr(), "{line}");
}

/// The name of the test that runs on this thread.
pub fn test_name() -> String {
    std::thread::current().name().unwrap_or("a test").to_owned()
}

/// Ends a test as passed where the engine cannot do what it needs, and says so by name.
macro_rules! needs {
    ($($can:ident),+) => {
        if !crate::engine::Engine::able(&[$(crate::engine::Can::$can),+])? {
            return Ok(());
        }
    };
}
pub(crate) use needs;

fn chromium(profile: &Path) -> Value {
    json!({
        "browserName": "chrome",
        "webSocketUrl": true,
        "goog:chromeOptions": { "args": [
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-dev-shm-usage",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            format!("--host-resolver-rules=MAP {HOST} 127.0.0.1, MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"),
            format!("--user-data-dir={}", profile.join("profile").display()),
        ] },
    })
}

fn firefox() -> Value {
    json!({
        "browserName": "firefox",
        "webSocketUrl": true,
        "moz:firefoxOptions": { "args": ["-headless"], "binary": "/usr/bin/firefox-esr", "prefs": {
            "network.dns.localDomains": HOST,
            // Whatever is not on loopback goes to a proxy that is not there.
            "network.proxy.type": 1,
            "network.proxy.http": "127.0.0.1",
            "network.proxy.http_port": 9,
            "network.proxy.ssl": "127.0.0.1",
            "network.proxy.ssl_port": 9,
            "network.proxy.no_proxies_on": format!("127.0.0.1, {HOST}"),
            "widget.gtk.overlay-scrollbars.enabled": true,
        } },
    })
}

/// The driver's process, and the display of an engine that cannot do without; ended by their own handles.
pub struct Driver {
    process: Child,
    display: Option<Child>,
    pub address: String,
}

impl Driver {
    pub fn start(engine: Engine, profile: &Path) -> Outcome<Self> {
        // Between the choice of a port and the driver's use of it another program may take it: then once more.
        for _ in 0..5 {
            if let Some(driver) = Self::try_start(engine, profile)? {
                return Ok(driver);
            }
        }
        Err(format!("the driver of {} ends before it listens", engine.name()).into())
    }

    fn try_start(engine: Engine, profile: &Path) -> Outcome<Option<Self>> {
        let port = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?.local_addr()?.port();
        let (mut command, display) = command(engine, port, profile)?;
        command
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null());
        let process = command.spawn().map_err(|fault| {
            format!(
                "{:?} does not start ({fault}): ./build.sh test installs it",
                command.get_program()
            )
        });
        let mut driver = Self {
            process: process?,
            display,
            address: format!("http://127.0.0.1:{port}"),
        };
        let end = Instant::now() + PATIENCE;
        while Instant::now() < end && driver.process.try_wait()?.is_none() {
            if TcpStream::connect((Ipv4Addr::LOCALHOST, port)).is_ok() {
                return Ok(Some(driver));
            }
            std::thread::sleep(Duration::from_millis(10));
        }
        Ok(None)
    }
}

impl Drop for Driver {
    #[expect(
        clippy::let_underscore_must_use,
        reason = "what has ended by itself need not be ended"
    )]
    fn drop(&mut self) {
        for process in [Some(&mut self.process), self.display.as_mut()]
            .into_iter()
            .flatten()
        {
            let _ = process.kill();
            let _ = process.wait();
        }
    }
}

/// The driver's command line, and the display that it draws on.
fn command(engine: Engine, port: u16, profile: &Path) -> Outcome<(Command, Option<Child>)> {
    let (mut command, display) = match engine {
        Engine::Chromium => (Command::new("chromedriver"), None),
        Engine::Firefox => {
            let own = Path::new(env!("CARGO_MANIFEST_DIR")).join(".tools/bin/geckodriver");
            let mut command = Command::new(own);
            command.args(["--websocket-port", "0"]);
            (command, None)
        }
        Engine::WebKit => {
            let (process, display) = display()?;
            let mut command = Command::new("WebKitWebDriver");
            // Speaks English, whatever the machine does: a first visit takes its units from the language.
            command
                .env("DISPLAY", display)
                .env("HOME", profile)
                .env("LANGUAGE", "en_US")
                .env("LANG", "en_US.UTF-8");
            (command, Some(process))
        }
    };
    command.arg(format!("--port={port}")).env("TMPDIR", profile);
    Ok((command, display))
}

/// A display in memory and its name.
fn display() -> Outcome<(Child, String)> {
    let mut process = Command::new("Xvfb")
        .args([
            "-displayfd",
            "1",
            "-screen",
            "0",
            "1600x1200x24",
            "-nolisten",
            "tcp",
        ])
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .map_err(|fault| {
            format!("Xvfb does not start ({fault}): ./build.sh test --all-engines installs it")
        })?;
    let mut number = String::new();
    if let Some(stdout) = process.stdout.as_mut() {
        std::io::BufRead::read_line(&mut std::io::BufReader::new(stdout), &mut number)?;
    }
    Ok((process, format!(":{}", number.trim())))
}
