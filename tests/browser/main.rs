//! The built page in a real browser: run by `./build.sh test`, or after `./build.sh` by
//! `cargo test --test browser`, with a name to run one of them.
//!
//! Each test starts its own Chromium on a fresh profile. Nothing beyond loopback can be reached: names do not resolve.

mod aisle;
mod bookmark;
mod compare;
mod doubt;
mod handing;
mod hangar;
mod harness;
mod keyboard;
mod map;
mod measured;
mod moving;
mod reader;
mod remedy;
mod room;
mod screens;
mod sheet;
mod shell;
mod site;
mod speed;
mod storage;
mod sums;
mod support;
