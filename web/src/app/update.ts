/** The service worker: registered, watched for a new version, told to take over only when the person agrees. */
import type { UpdatePort } from "../state/ports";

const LOOK_AGAIN_MS = 60 * 60_000;

/**
 * `onOffer` is called when a new version is ready to take over, or has done so at another tab's wish. Without service
 * workers the app works, online only.
 */
export function watchUpdates(onOffer: () => void): UpdatePort {
  let accept: () => void = () => undefined;
  const offer = (take: () => void) => {
    accept = take;
    onOffer();
  };
  if (import.meta.env.PROD && "serviceWorker" in navigator) void register(offer);
  return { accept: () => accept() };
}

async function register(offer: (take: () => void) => void): Promise<void> {
  const { serviceWorker } = navigator;
  const hadWorker = serviceWorker.controller !== null;
  const registration = await serviceWorker.register("/service-worker.js", { scope: "/" });
  const { waiting } = registration;
  if (waiting !== null && replacesAnother(registration)) offer(() => takeOver(waiting));
  registration.addEventListener("updatefound", () => {
    const { installing } = registration;
    installing?.addEventListener("statechange", () => {
      const isReady = installing.state === "installed" && replacesAnother(registration);
      if (isReady) offer(() => takeOver(installing));
    });
  });
  serviceWorker.addEventListener("controllerchange", () => {
    if (hadWorker) offer(() => location.reload());
  });
  setInterval(() => void registration.update().catch(noNetworkNow), LOOK_AGAIN_MS);
}

/**
 * The first worker of all is no new version. The page's controller cannot tell: WebKit sets it to the first worker
 * before the page hears that this one is installed.
 */
function replacesAnother({ active }: ServiceWorkerRegistration): boolean {
  return active !== null;
}

/** Looking for an update without a network finds none; the next look comes by itself. */
function noNetworkNow(error: unknown): void {
  if (navigator.onLine) console.warn("No look for an update:", error);
}

/** One reload, once the new worker is in charge. */
function takeOver(waiting: ServiceWorker): void {
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  waiting.postMessage({ say: "take over" });
}
