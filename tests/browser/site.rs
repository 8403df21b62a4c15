//! A static host on loopback.

use std::collections::HashMap;
use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;

use crate::support::Outcome;

/// One answered request.
#[derive(Clone, Debug)]
pub struct Served {
    pub path: String,
    pub found: bool,
}

/// A static host on loopback that remembers what it was asked, and can be stopped.
pub struct Site {
    address: SocketAddr,
    served: Arc<Mutex<Vec<Served>>>,
    stopping: Arc<AtomicBool>,
    listener: Option<JoinHandle<()>>,
}

impl Site {
    /// Serves a folder: `dist().join("site")`, or a test's own copy of it.
    pub fn start(root: PathBuf) -> Outcome<Self> {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?;
        let address = listener.local_addr()?;
        let (served, stopping) = (Arc::new(Mutex::new(Vec::new())), Arc::new(AtomicBool::new(false)));
        let (log, stop) = (Arc::clone(&served), Arc::clone(&stopping));
        let listener = std::thread::spawn(move || {
            for stream in listener.incoming() {
                if stop.load(Ordering::SeqCst) {
                    break;
                }
                let (root, log, stop) = (root.clone(), Arc::clone(&log), Arc::clone(&stop));
                // A connection that the browser opens and leaves must not hold up the next one.
                std::thread::spawn(move || stream.map(|stream| answer(&stream, &root, &log, &stop)));
            }
        });
        Ok(Self {
            address,
            served,
            stopping,
            listener: Some(listener),
        })
    }

    pub fn url(&self) -> String {
        format!("http://{}/", self.address)
    }

    /// All that was asked for so far.
    pub fn served(&self) -> Vec<Served> {
        self.served.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// Stops: whoever connects now is refused, and connections that the browser opened beforehand go unanswered.
    #[expect(
        clippy::let_underscore_must_use,
        reason = "a listener that is gone has stopped"
    )]
    pub fn stop(&mut self) {
        if let Some(listener) = self.listener.take() {
            self.stopping.store(true, Ordering::SeqCst);
            let _ = TcpStream::connect(self.address); // wakes the listener
            let _ = listener.join();
        }
    }
}

impl Drop for Site {
    fn drop(&mut self) {
        self.stop();
    }
}

/// Answers one request and closes; a connection that fails has gone away and wants no answer.
fn answer(
    stream: &TcpStream,
    root: &Path,
    log: &Mutex<Vec<Served>>,
    stop: &AtomicBool,
) -> std::io::Result<()> {
    let mut lines = BufReader::new(stream).lines();
    let first = lines.next().transpose()?.unwrap_or_default();
    for header in lines {
        if header?.is_empty() {
            break;
        }
    }
    if stop.load(Ordering::SeqCst) {
        return Ok(());
    }
    let Some(target) = first.split(' ').nth(1) else {
        return Ok(());
    };
    let path = target
        .split('?')
        .next()
        .unwrap_or_default()
        .trim_start_matches('/');
    let path = if path.is_empty() { "index.html" } else { path };
    let inside = !Path::new(path).components().any(|part| part.as_os_str() == "..");
    let body = match inside.then(|| fs::read(root.join(path))) {
        Some(Ok(body)) => Some(body),
        Some(Err(_)) | None => None,
    };
    log.lock().unwrap_or_else(PoisonError::into_inner).push(Served {
        path: path.to_owned(),
        found: body.is_some(),
    });
    let status = if body.is_some() { "200 OK" } else { "404 Not Found" };
    let body = body.unwrap_or_default();
    let mut stream = stream;
    write!(
        stream,
        "HTTP/1.1 {status}\r\nContent-Type: {}\r\nContent-Length: {}\r\nConnection: close\r\n\r\n",
        media_type(path),
        body.len()
    )?;
    stream.write_all(&body)
}

fn media_type(path: &str) -> &'static str {
    let known = HashMap::from([
        ("html", "text/html; charset=utf-8"),
        ("css", "text/css"),
        ("js", "text/javascript"),
        ("wasm", "application/wasm"),
        ("svg", "image/svg+xml"),
        ("webmanifest", "application/manifest+json"),
    ]);
    let extension = path.rsplit('.').next().unwrap_or_default();
    known
        .get(extension)
        .copied()
        .unwrap_or("application/octet-stream")
}
