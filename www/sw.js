// Answers from the files of one build, so that the page opens with no network.
const PREFIX = "bellows-";
const CACHE = PREFIX + "BUILD_ID"; // the build sets a hash of the shipped files
/** Names of the files, and the SHA-256 of what is in each. @type {[string, string][]} */
const FILES = [["FILES", ""]];

/** The worker, as a browser runs it. */
const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));

/** A file of this build, and no login page or half of it: else nothing is kept, and the next visit tries again. @param {[name: string, hash: string]} file */
async function fetched([name, hash]) {
  // What bears the build in its name was downloaded by the page a moment ago: it is not downloaded twice.
  const response = await fetch(name, { cache: name.includes("?") ? "default" : "no-cache" });
  const digest = await crypto.subtle.digest("SHA-256", await response.clone().arrayBuffer());
  const hex = [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  if (!response.ok || hex !== hash) throw new Error(`${name} is not what this build ships`);
  return response;
}

async function fill() {
  const responses = await Promise.all(FILES.map(fetched));
  const cache = await caches.open(CACHE);
  await Promise.all(responses.map((response, index) => cache.put(FILES[index][0], response)));
}

async function dropOld() {
  const old = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
}

/** @param {Request} request */
async function answer(request) {
  const cache = await caches.open(CACHE);
  const page = new URL(request.url).pathname.endsWith("/index.html");
  return (await cache.match(page ? "./" : request, { ignoreSearch: true })) ?? fetch(request);
}

worker.addEventListener("install", (event) => event.waitUntil(fill()));
worker.addEventListener("activate", (event) => event.waitUntil(dropOld()));
worker.addEventListener("fetch", (event) => {
  if (event.request.method === "GET") event.respondWith(answer(event.request));
});
// A page in use keeps its build until its reader asks for the newer one.
worker.addEventListener("message", (event) => {
  if (event.data === "take over") worker.skipWaiting();
});
