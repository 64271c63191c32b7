/**
 * Keeps the whole app on the phone, the engine included, so that it opens with the network off. It never touches /api:
 * what the service says is kept by the app itself, in its database.
 */
import {
  cleanupOutdatedCaches,
  createHandlerBoundToURL,
  precacheAndRoute,
  type PrecacheEntry,
} from "workbox-precaching";

declare const self: ServiceWorkerGlobalScope;
/** Put in by the build: every file of the app, with a revision where its name does not change with it. */
declare const APP_FILES: readonly PrecacheEntry[];

precacheAndRoute([...APP_FILES]);
cleanupOutdatedCaches();

const appPage = createHandlerBoundToURL("/index.html");

/** Every address of the app's own opens its one page; the screens read the address. */
self.addEventListener("fetch", (event) => {
  const { pathname } = new URL(event.request.url);
  if (event.request.mode !== "navigate" || pathname.startsWith("/api/")) return;
  event.respondWith(appPage({ event, request: event.request, url: new URL(event.request.url) }));
});

self.addEventListener("message", (event: ExtendableMessageEvent) => {
  if ((event.data as { say?: unknown }).say === "take over") void self.skipWaiting();
});

/** The first visit's pages are served at once; a later version waits until the person agrees. */
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

/** A tapped message of an alarm brings the app to the front, at the room that is filled. */
self.addEventListener("notificationclick", (event: NotificationEvent) => {
  event.notification.close();
  event.waitUntil(showApp(String(event.notification.data)));
});

async function showApp(address: string): Promise<void> {
  const [open] = await self.clients.matchAll({ type: "window" });
  if (open) await open.focus();
  else await self.clients.openWindow(address);
}
