// Without a network: sw.js keeps the page, all its files under one version. A new version is offered, never forced.
import { notify } from "./notice.js";
import { say } from "./program.js";

export async function keepOffline() {
  const workers = navigator.serviceWorker;
  if (!workers) return; // an old browser or a private window: the page works, from the network
  const registration = await workers.register("sw.js");
  const offer = () => {
    if (!registration.waiting || !workers.controller) return; // the first version has nothing to replace
    notify(say("web.update"), say("web.update_now"), () => {
      const { waiting } = registration;
      if (!waiting) return location.reload(); // accepted in another tab meanwhile
      workers.addEventListener("controllerchange", () => location.reload(), { once: true });
      waiting.postMessage("now");
    });
  };
  // It may have begun before this script ran, or be on its way, or come later.
  const watch = () => registration.installing?.addEventListener("statechange", offer);
  registration.addEventListener("updatefound", watch);
  watch();
  offer();
  // Browsers look for a new version in their own time, which may be much later.
  if (workers.controller) registration.update().catch(() => {}); // no network: later
}
