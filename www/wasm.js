// The core's bytes and the worker's address, on a site: both stand beside the page. In the single file the build puts a module in
// this one's place that carries both.

/** @returns {Promise<Response | Uint8Array>} */
export const bytes = () => fetch(/** @type {HTMLLinkElement} */ (document.querySelector("link[type='application/wasm']")).href);

/** @returns {string} */
export const workerAddress = () => /** @type {HTMLMetaElement} */ (document.querySelector("meta[name=worker]")).content;
