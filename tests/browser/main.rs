//! The built page in a real browser: run by `./build.sh test`, or after `./build.sh` by
//! `cargo test --test browser`, with a name to run one of them.
//!
//! Each test starts its own browser on a fresh profile: Chromium, or what `BELLOWS_ENGINE` names. Nothing beyond
//! loopback can be reached: names do not resolve. A test that needs what an engine cannot do is skipped there by name.

mod aisle;
mod bookmark;
mod compare;
mod doubt;
mod ears;
mod engine;
mod handing;
mod hangar;
mod harness;
mod keyboard;
mod main_path;
mod map;
mod measured;
mod moving;
mod reader;
mod remedy;
mod screens;
mod sheet;
mod shell;
mod site;
mod speed;
mod still;
mod storage;
mod sums;
mod support;
