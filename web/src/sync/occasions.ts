/**
 * The occasions to exchange: the network returns, the app comes back to the front, the service says there is more, a
 * change was saved, and now and then. Without the live stream the others carry on alone.
 */
import type { Storage } from "../storage";
import type { Office, Surroundings, Told } from "./office";

const NOW_AND_THEN_MS = 60_000;
const LOCK = "evenbed-sync";

/** The browser as the office's surroundings. A browser without Web Locks syncs in every tab: slower, and as safe. */
export const browserSurroundings: Surroundings = {
  http: (path, init) => fetch(path, { ...init, credentials: "same-origin", cache: "no-store" }),
  isOnline: () => navigator.onLine,
  alone: (work) => ("locks" in navigator ? navigator.locks.request(LOCK, work) : work()) as ReturnType<typeof work>,
};

/** Starts listening for occasions; they go on as long as the page lives. */
export function watchOccasions(office: Office, storage: Storage): void {
  const live = new LiveStream(office);
  let waitingBefore = 0;
  storage.onStanding(({ waiting, account }) => {
    if (waiting > waitingBefore) office.nudge();
    waitingBefore = waiting;
    live.want(account.joined && document.visibilityState === "visible");
  });
  const comeBack = () => void storage.account().then(({ joined }) => onFront(office, live, joined));
  addEventListener("online", comeBack);
  document.addEventListener("visibilitychange", comeBack);
  setInterval(comeBack, NOW_AND_THEN_MS);
  comeBack();
}

function onFront(office: Office, live: LiveStream, joined: boolean): void {
  const inFront = document.visibilityState === "visible";
  live.endIfRefused();
  live.want(joined && inFront);
  if (joined && inFront) void office.syncNow();
}

/** The stream that only says "there is more". One that was refused is opened again when the app comes to the front. */
class LiveStream {
  #source: EventSource | null = null;

  constructor(readonly office: Office) {}

  want(wanted: boolean): void {
    if (!wanted) this.#end();
    if (wanted && this.#source === null) this.#begin();
  }

  /** Makes place for another try. Only now and then: a service that refuses streams must not be asked without end. */
  endIfRefused(): void {
    if (this.#source?.readyState === EventSource.CLOSED) this.#end();
  }

  #begin(): void {
    const source = new EventSource("/api/events");
    source.addEventListener("message", ({ data }: MessageEvent<string>) => this.office.heard(JSON.parse(data) as Told));
    // A stream that is refused rather than cut off: the next round finds out why, and stops where this phone was removed.
    source.addEventListener("error", () => source.readyState === EventSource.CLOSED && void this.office.syncNow());
    this.#source = source;
  }

  #end(): void {
    this.#source?.close();
    this.#source = null;
  }
}
