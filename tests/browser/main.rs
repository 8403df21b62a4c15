//! The built page in a real browser: run by `./build.sh test`, or after `./build.sh` by
//! `cargo test --test browser`, with a name to run one of them.
//!
//! Each test starts its own Chromium on a fresh profile. Nothing beyond loopback can be reached: names do not resolve.

mod harness;
mod shell;
mod site;
mod stories;
mod support;
