//! What the page can call.

use wasm_bindgen::prelude::wasm_bindgen;

/// Runs as the module loads: a panic is a defect, and the console gets its text.
#[wasm_bindgen(start)]
pub fn start() {
    console_error_panic_hook::set_once();
}

/// Version of the shop schema that this build writes.
#[wasm_bindgen]
pub fn schema() -> u32 {
    crate::shop::SCHEMA
}
