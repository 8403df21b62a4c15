//! What a browser says by itself: its console, its requests, its downloads. WebDriver BiDi tells them as they happen.

use std::collections::{HashMap, VecDeque};
use std::path::PathBuf;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use futures_util::stream::SplitSink;
use futures_util::{SinkExt, StreamExt};
use serde_json::{Value, json};
use thirtyfour::WebDriver;
use tokio::net::TcpStream;
use tokio::sync::oneshot;
use tokio_tungstenite::tungstenite::Message;
use tokio_tungstenite::{MaybeTlsStream, WebSocketStream, connect_async};

use crate::engine::say;
use crate::support::{Outcome, PATIENCE};

/// What the console alone would not tell in each engine: what the policy refused, what failed to load.
const WATCH: &str = "() => {
    addEventListener('securitypolicyviolation', ({ effectiveDirective, blockedURI }) => console.error('refused', effectiveDirective, blockedURI));
    addEventListener('error', ({ target }) => { if (target !== window) console.error('not loaded', target.src ?? target.href); }, true);
}";

/// Begins a line on the console up to which all is to be heard.
const MARK: &str = "heard up to here: ";

#[derive(Default)]
struct Heard {
    /// Who waits for the reply to which command.
    waiting: HashMap<u64, oneshot::Sender<Value>>,
    commands: u64,
    errors: Vec<String>,
    outside: Vec<String>,
    downloads: VecDeque<PathBuf>,
    /// Marks set, and the last one heard.
    marks: u64,
    mark: String,
}

impl Heard {
    /// Takes in a reply or an event.
    #[expect(
        clippy::let_underscore_must_use,
        reason = "who gave up waiting wants no reply"
    )]
    fn hear(&mut self, message: Value) {
        if let Some(waiting) = message["id"].as_u64().and_then(|id| self.waiting.remove(&id)) {
            let _ = waiting.send(message);
            return;
        }
        let text = |path: &str| {
            message["params"]
                .pointer(path)
                .and_then(Value::as_str)
                .unwrap_or_default()
        };
        match message["method"].as_str().unwrap_or_default() {
            "log.entryAdded" if text("/text").starts_with(MARK) => text("/text").clone_into(&mut self.mark),
            "log.entryAdded" if text("/level") == "error" => self.errors.push(text("/text").to_owned()),
            "network.beforeRequestSent" if is_outside(text("/request/url")) => {
                self.outside.push(text("/request/url").to_owned());
            }
            "browsingContext.downloadEnd" if text("/status") == "complete" => {
                self.downloads.push_back(text("/filepath").into());
            }
            _ => {}
        }
    }
}

/// Whether an address leads beyond disk, loopback and the page itself.
fn is_outside(url: &str) -> bool {
    // "chrome:" is the start page that Chromium carries in itself.
    const INSIDE: [&str; 6] = [
        "file:",
        "data:",
        "blob:",
        "about:",
        "chrome:",
        "http://127.0.0.1:",
    ];
    !INSIDE.iter().any(|start| url.starts_with(start))
}

pub struct Ears {
    out: tokio::sync::Mutex<SplitSink<WebSocketStream<MaybeTlsStream<TcpStream>>, Message>>,
    heard: Arc<Mutex<Heard>>,
}

impl Ears {
    /// Listens from now on.
    pub async fn open(driver: &WebDriver) -> Outcome<Self> {
        let capabilities = driver.capabilities();
        let address = capabilities.get("webSocketUrl").and_then(Value::as_str);
        let (socket, _) = connect_async(address.ok_or("no WebDriver BiDi")?).await?;
        let (out, mut messages) = socket.split();
        let heard = Arc::new(Mutex::new(Heard::default()));
        let hearer = Arc::clone(&heard);
        tokio::spawn(async move {
            while let Some(Ok(message)) = messages.next().await {
                if let Ok(message) = serde_json::from_slice(&message.into_data()) {
                    lock(&hearer).hear(message);
                }
            }
        });
        let ears = Self {
            out: out.into(),
            heard,
        };
        let wanted = ["log.entryAdded", "network.beforeRequestSent"];
        ears.command("session.subscribe", json!({ "events": wanted }))
            .await?;
        // Older releases do not tell when a download ends: a test that waits for one fails there, and no other.
        let downloads = json!({ "events": ["browsingContext.downloadEnd"] });
        if let Err(fault) = ears.command("session.subscribe", downloads).await {
            say(&format!("downloads are not heard: {fault}"));
        }
        ears.command("script.addPreloadScript", json!({ "functionDeclaration": WATCH }))
            .await?;
        Ok(ears)
    }

    /// Sends a command of WebDriver BiDi and waits until it is carried out.
    pub async fn command(&self, method: &str, params: Value) -> Outcome {
        let (reply, replied) = oneshot::channel();
        let id = {
            let mut heard = lock(&self.heard);
            heard.commands += 1;
            let id = heard.commands;
            heard.waiting.insert(id, reply);
            id
        };
        let command = json!({ "id": id, "method": method, "params": params });
        self.out
            .lock()
            .await
            .send(Message::text(command.to_string()))
            .await?;
        let reply = tokio::time::timeout(PATIENCE, replied).await??;
        match reply["type"].as_str() {
            Some("success") => Ok(()),
            _ => Err(format!("{method}: {reply}").into()),
        }
    }

    /// Waits until all that was on the console before is heard.
    async fn catch_up(&self, driver: &WebDriver) -> Outcome {
        let mark = {
            let mut heard = lock(&self.heard);
            heard.marks += 1;
            format!("{MARK}{}", heard.marks)
        };
        driver
            .execute(format!("console.debug({mark:?})"), Vec::new())
            .await?;
        for _ in 0..1_000 {
            if lock(&self.heard).mark == mark {
                return Ok(());
            }
            tokio::time::sleep(Duration::from_millis(20)).await;
        }
        Err("the console is not heard".into())
    }

    /// Errors on the console since last asked.
    pub async fn errors(&self, driver: &WebDriver) -> Outcome<Vec<String>> {
        self.catch_up(driver).await?;
        Ok(std::mem::take(&mut lock(&self.heard).errors))
    }

    /// Addresses beyond disk, loopback and the page that were asked for since last asked.
    pub async fn outside(&self, driver: &WebDriver) -> Outcome<Vec<String>> {
        self.catch_up(driver).await?;
        Ok(std::mem::take(&mut lock(&self.heard).outside))
    }

    /// The next file that is whole on disk, if there is one.
    pub fn download(&self) -> Option<PathBuf> {
        lock(&self.heard).downloads.pop_front()
    }
}

fn lock(heard: &Mutex<Heard>) -> MutexGuard<'_, Heard> {
    heard.lock().unwrap_or_else(PoisonError::into_inner)
}
