// Loads the core. What arrives may be missing, cut short, or the login page of a Wi-Fi: each is said.

import { initSync } from "./core.js";
import { bytes } from "./wasm.js";

async function compiled() {
  if (typeof WebAssembly !== "object") throw new Error("This browser has WebAssembly switched off, and Bellows needs it. Use another browser, or switch it on in this one’s settings.");
  const source = await bytes().catch(() => {
    throw new Error("The calculator did not arrive. Check the connection, then load again.");
  });
  if (!(source instanceof Response)) return WebAssembly.compile(/** @type {BufferSource} */ (source));
  if (!source.ok) throw new Error(`The host has no calculator to give (it answers ${source.status}). Load again, or ask who runs this page.`);
  const whole = await source.arrayBuffer();
  try {
    return await WebAssembly.compile(whole);
  } catch {
    throw new Error("What arrived is not the calculator: it is cut short, or a Wi-Fi login page came in its place. Sign in to the Wi-Fi, then load again.");
  }
}

/** Compiles the core once, for the page and for its worker. */
export async function load() {
  const module = await compiled();
  initSync({ module });
  return module;
}
