// @ts-check
/**
 * Registers the service worker, tells when the page is stored, and offers a newer version.
 */

/**
 * @param {(what: "stored" | "newer", act: () => void) => void} tell
 */
export async function keepOffline(tell) {
  if (!("serviceWorker" in navigator)) return;
  let asked = false;
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (asked) location.reload();
  });
  try {
    const registration = await navigator.serviceWorker.register("sw.js");
    const offer = () => {
      const waiting = registration.waiting;
      if (!waiting || !navigator.serviceWorker.controller) return;
      tell("newer", () => {
        asked = true;
        waiting.postMessage("take over");
      });
    };
    offer();
    registration.addEventListener("updatefound", () => {
      const coming = registration.installing;
      coming?.addEventListener("statechange", () => {
        if (coming.state === "installed") offer();
        if (coming.state === "activated" && !asked) tell("stored", () => {});
      });
    });
  } catch {
    // Without a secure origin, or with storage blocked, the page works from the network alone.
  }
}
