// @ts-check
/**
 * Registers the service worker, tells when the page is stored, and offers a newer version.
 */

import { scriptAddress } from "./trusted.js";

/**
 * @param {(what: "stored" | "newer", act: () => void) => void} tell
 * @param {() => boolean} save what was begun on the page, before it is loaded again; false: it cannot be
 */
export async function keepOffline(tell, save) {
  const { serviceWorker } = navigator;
  if (!serviceWorker) return;
  let asked = false;
  serviceWorker.addEventListener("controllerchange", () => {
    // Asked for in another tab, it changes nothing here: this page goes on with its own files.
    if (asked) location.reload();
  });
  try {
    const registration = await serviceWorker.register(scriptAddress("sw.js"), { updateViaCache: "none" });
    serviceWorker.controller?.postMessage("tidy");
    const offer = () => {
      if (!registration.waiting || !serviceWorker.controller) return;
      tell("newer", () => {
        if (!save()) return;
        asked = true;
        // Another tab may have asked before.
        if (registration.waiting) registration.waiting.postMessage("take over");
        else location.reload();
      });
    };
    offer();
    registration.addEventListener("updatefound", () => {
      const coming = registration.installing;
      // WebKit tells the states late: the first version may have the page by then.
      const newer = registration.active;
      coming?.addEventListener("statechange", () => {
        if (newer && coming.state === "installed") offer();
        if (coming.state === "activated" && !asked) tell("stored", () => {});
      });
    });
  } catch {
    // Without a secure origin, or with storage blocked, the page works from the network alone.
  }
}
