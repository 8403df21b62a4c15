// Answers from the files of one build, so that the page opens with no network.
const PREFIX = "bellows-";
const CACHE = PREFIX + "BUILD_ID"; // the build sets a hash of the shipped files
const FILES = ["FILES"]; // and their names

async function fill() {
  const cache = await caches.open(CACHE);
  await cache.addAll(FILES.map((file) => new Request(file, { cache: "reload" })));
}

async function dropOld() {
  const old = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
}

async function answer(request) {
  const cache = await caches.open(CACHE);
  const page = new URL(request.url).pathname.endsWith("/index.html");
  return (await cache.match(page ? "./" : request, { ignoreSearch: true })) ?? fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(fill()));
self.addEventListener("activate", (event) => event.waitUntil(dropOld()));
self.addEventListener("fetch", (event) => {
  if (event.request.method === "GET") event.respondWith(answer(event.request));
});
// A page in use keeps its build until its reader asks for the newer one.
self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});
