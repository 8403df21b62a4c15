// Where the core's bytes come from. The site fetches core_bg.wasm beside core.js, which is what `undefined` asks for;
// in the single file the build puts a module in this one's place that carries the bytes.
export const wasm = () => undefined;
