// Keeps a page that came over http for use without a network. A page opened from disk needs no keeping.

/**
 * Registers the worker, and calls `onNewer(load)` once a newer build has arrived and waits.
 * `load()` is for the reader to ask for: it changes to that build and reloads.
 * Returns whether the page is kept; a browser may refuse (private window, storage switched off).
 * @param {(load: () => void) => void} onNewer
 */
export async function register(onNewer) {
  if (!location.protocol.startsWith("http") || !navigator.serviceWorker) return false;
  try {
    const registration = await navigator.serviceWorker.register("sw.js", { updateViaCache: "none" });
    watch(registration, () => onNewer(() => change(registration.waiting)));
    return true;
  } catch {
    return false;
  }
}

/** @param {ServiceWorkerRegistration} registration
 * @param {() => void} onWaiting */
function watch(registration, onWaiting) {
  const offer = () => {
    if (registration.waiting && navigator.serviceWorker.controller) onWaiting();
  };
  offer();
  registration.addEventListener("updatefound", () => registration.installing.addEventListener("statechange", offer));
}

/** @param {ServiceWorker} worker */
function change(worker) {
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  worker.postMessage("take over");
}
