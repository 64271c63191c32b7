/** What is true of this phone at the moment: saved, waiting, sent, joined, stored, engine awake, update offered. */
import { computed, signal } from "@preact/signals";
import type { Refused, Role } from "../wire";

export type SyncPhase =
  | "not_joined" // never joined, or removed: work goes on, nothing is sent
  | "idle" // nothing to do
  | "syncing"
  | "offline"
  | "retrying" // the office did not answer; asked again by itself
  | "update_needed" // the office speaks an older protocol; nothing is lost
  | "only_looks" // the person may look and not write now: changes wait, news still comes
  | "full"; // what the office says does not fit on this phone; what waits is safe and goes on waiting

export interface SaveLine {
  /** Changes saved on this phone and not yet taken by the office. */
  readonly waiting: number;
  /** Changes the office did not take; see `refused`. */
  readonly refused: number;
  /** When this phone and the office last agreed, ISO 8601, or null. */
  readonly lastSentAt: string | null;
  readonly online: boolean;
  readonly phase: SyncPhase;
  /** The office's clock minus this phone's, ms; null until measured. Readiness times are as wrong as the clock is. */
  readonly clockOffsetMs: number | null;
}

export interface Session {
  readonly joined: boolean;
  readonly person: string | null;
  readonly personId: string | null;
  /** What the office lets the person do; null before joining and after leaving. */
  readonly role: Role | null;
  readonly deviceId: string | null;
  readonly deviceName: string | null;
  /** True where the phone must join again: removed by the office, or given a new identity after a restore. */
  readonly mustJoinAgain: boolean;
  /** True where the office removed this phone: what waits stays here, and can be saved as a file. */
  readonly removed: boolean;
}

export type StorageFault = "full" | "not_available" | "failed";
/** only_looks: the person is a viewer; nothing was stored. */
export type NotSavedReason = StorageFault | "only_looks";

export interface StorageState {
  /** Whether the browser promised not to evict what is stored; null while unknown. */
  readonly persisted: boolean | null;
  /** When this phone last asked the browser for that promise, ISO 8601; null if it never did. */
  readonly askedAt: string | null;
  /** The last write that failed, until one succeeds. */
  readonly error: StorageFault | null;
  /** True while another tab with an older version of the app holds the database shut: close that tab. */
  readonly blocked: boolean;
  readonly usedBytes: number | null;
  readonly quotaBytes: number | null;
}

export type EngineState = "waking" | "awake" | "failed";

/** Thrown by every action whose transaction did not commit: nothing was saved, so keep what the person typed. */
export class NotSavedError extends Error {
  constructor(
    readonly reason: NotSavedReason,
    options?: ErrorOptions,
  ) {
    super(`Not saved: ${reason}`, options);
    this.name = "NotSavedError";
  }
}

/** False until the stored records have been read; screens show nothing rather than an empty list before that. */
export const loaded = signal(false);
export const sync = signal<Omit<SaveLine, "refused">>({
  waiting: 0,
  lastSentAt: null,
  online: true,
  phase: "not_joined",
  clockOffsetMs: null,
});
export const refused = signal<readonly Refused[]>([]);
export const saveLine = computed<SaveLine>(() => ({ ...sync.value, refused: refused.value.length }));
export const session = signal<Session>({
  joined: false,
  person: null,
  personId: null,
  role: null,
  deviceId: null,
  deviceName: null,
  mustJoinAgain: false,
  removed: false,
});
/** False for a viewer: every action then throws NotSavedError "only_looks". */
export const mayWrite = computed(() => session.value.role !== "viewer");
export const isForeman = computed(() => session.value.role === "foreman");
/** What things cost is for foremen alone; a phone that never joined is its own foreman. */
export const seesMoney = computed(() => session.value.role === null || session.value.role === "foreman");
export const storageState = signal<StorageState>({
  persisted: null,
  askedAt: null,
  error: null,
  blocked: false,
  usedBytes: null,
  quotaBytes: null,
});
export const engineState = signal<EngineState>("waking");
export const updateOffered = signal(false);

/** Throws for a viewer, before anything is stored. */
export function checkMayWrite(): void {
  if (!mayWrite.peek()) throw new NotSavedError("only_looks");
}
