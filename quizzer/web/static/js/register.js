/** The service worker: there from the first visit on; a newer one waits until the person takes it. */

import { WORKER } from "./html.js";

/** Register it; `offer` is handed what takes a waiting one. @param {(take: () => void) => void} offer */
export function register(offer) {
  const workers = navigator.serviceWorker;
  if (!workers) return; // no HTTPS, or a browser that forbids it: everything works but for a loss of the line
  let taking = false;
  const offered = new WeakSet();
  /** @param {ServiceWorker | null} worker */
  const ready = (worker) => {
    // With nobody in control this is the first one, and nothing waits.
    if (!worker || !workers.controller || offered.has(worker)) return;
    offered.add(worker);
    offer(() => { taking = true; worker.postMessage("take"); });
  };
  workers.addEventListener("controllerchange", () => { if (taking) location.reload(); });
  workers.register(WORKER, { updateViaCache: "none" }).then((registration) => {
    ready(registration.waiting);
    registration.addEventListener("updatefound", () => {
      const worker = registration.installing;
      worker?.addEventListener("statechange", () => { if (worker.state === "installed") ready(worker); });
    });
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") registration.update().catch(() => {});
    });
  }).catch(() => {});
}
