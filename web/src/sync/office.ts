/** The phone's side of the office: joins it, and keeps exchanging with it, one round at a time, one tab at a time. */
import type { HistoryEntry, JoinReply, Kind } from "../wire";
import type { Storage } from "../storage";
import { waitFromFailures } from "./backoff";
import { Round } from "./round";
import { NoReply, ProblemReply, Service, type Http } from "./service";

export type Phase = "not_joined" | "idle" | "syncing" | "offline" | "retrying" | "update_needed";

export type JoinOutcome =
  | { readonly outcome: "joined" }
  | { readonly outcome: "wrong_code" | "too_many_tries" | "offline" | "update_needed" }
  | { readonly outcome: "failed"; readonly message: string };

/** What the office needs of the place it runs in. */
export interface Surroundings {
  readonly http: Http;
  isOnline(): boolean;
  /** Runs the work while no other tab does the same. */
  alone<T>(work: () => Promise<T>): Promise<T>;
}

export class Office {
  readonly #service: Service;
  readonly #onPhase = new Set<(phase: Phase) => void>();
  #running: Promise<void> | null = null;
  #again = false;
  #failures = 0;
  #retry: ReturnType<typeof setTimeout> | null = null;

  constructor(
    readonly storage: Storage,
    readonly around: Surroundings,
  ) {
    this.#service = new Service(around.http);
  }

  onPhase(listener: (phase: Phase) => void): void {
    this.#onPhase.add(listener);
  }

  async join(code: string, person: string, deviceName: string): Promise<JoinOutcome> {
    const { deviceId } = await this.storage.account();
    try {
      await this.#joined(await this.#service.join({ code, device_id: deviceId, device_name: deviceName, person }), person);
    } catch (error) {
      return joinOutcomeFrom(error);
    }
    void this.syncNow();
    return { outcome: "joined" };
  }

  async #joined(reply: JoinReply, person: string): Promise<void> {
    await this.storage.adoptDatabase(reply.database);
    await this.storage.updateAccount({ deviceId: reply.device_id, joined: true, mustJoinAgain: false, person });
  }

  /** Stops sending. Everything stays on this phone, and goes out after joining again. */
  async leave(): Promise<void> {
    await this.storage.updateAccount({ joined: false });
    this.#tell("not_joined");
  }

  historyOf(kind: Kind, id: string): Promise<readonly HistoryEntry[]> {
    return this.#service.historyOf(kind, id);
  }

  /** Something was saved here: sends it, unless a retry after a failure is due anyway. */
  nudge(): void {
    if (this.#retry === null) void this.syncNow();
  }

  /** One round now; a call during a round brings another round after it. Never rejects: the phase says how it ended. */
  syncNow(): Promise<void> {
    this.#again = true;
    this.#running ??= this.#runAll().finally(() => (this.#running = null));
    return this.#running;
  }

  async #runAll(): Promise<void> {
    while (this.#again) {
      this.#again = false;
      await this.#runOnce();
    }
  }

  async #runOnce(): Promise<void> {
    this.#cancelRetry();
    try {
      const { joined } = await this.storage.account();
      if (joined) this.#tell("syncing");
      const outcome = await this.around.alone(() => new Round(this.storage, this.#service).run());
      this.#failures = 0;
      this.#tell(outcome === "done" ? "idle" : outcome);
    } catch (error) {
      this.#failed(error);
    }
  }

  /** Whatever the cause, nothing is lost: all of it is still in the queue. */
  #failed(error: unknown): void {
    if (!(error instanceof NoReply || error instanceof ProblemReply)) console.error(error);
    this.#failures += 1;
    this.#tell(this.around.isOnline() ? "retrying" : "offline");
    this.#retry = setTimeout(() => void this.syncNow(), waitFromFailures(this.#failures, Math.random()));
  }

  #cancelRetry(): void {
    if (this.#retry !== null) clearTimeout(this.#retry);
    this.#retry = null;
  }

  #tell(phase: Phase): void {
    for (const listener of this.#onPhase) listener(phase);
  }

  /** No more retries by itself. */
  close(): void {
    this.#cancelRetry();
  }
}

function joinOutcomeFrom(error: unknown): JoinOutcome {
  if (error instanceof NoReply) return { outcome: "offline" };
  if (!(error instanceof ProblemReply)) throw error;
  if (error.status === 403) return { outcome: "wrong_code" };
  if (error.status === 429) return { outcome: "too_many_tries" };
  if (error.status === 426) return { outcome: "update_needed" };
  return { outcome: "failed", message: error.detail };
}
