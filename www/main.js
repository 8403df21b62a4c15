// Wires the page: the core, the form, the answer.
import init, { schema } from "./core.js";
import { register } from "./offline.js";
import { wasm } from "./wasm.js";

await init({ module_or_path: wasm() });
document.querySelector("output").textContent = schema();
document.documentElement.dataset.core = "ready"; // the browser tests wait for this

await register((load) => {
  const newer = document.querySelector("#newer");
  newer.querySelector("button").addEventListener("click", load);
  newer.hidden = false;
});
