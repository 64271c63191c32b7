/**
 * The doors behind the state: storage, engine, office and update. The app gives each one at the start (`connect`);
 * screens never see them.
 */
import type { Edit, HistoryEntry, Kind, Loaded, WriteTogether } from "../wire";

export interface StoragePort {
  load(): Promise<Loaded>;
  /** Resolves once edits, numbers, undo steps and draft are committed in one transaction, and the rows are shown. */
  write(edits: readonly Edit[], together: WriteTogether): Promise<void>;
  saveDraft(key: string, value: string | null): Promise<void>;
  dismissRefused(changeId: string): Promise<void>;
}

export interface EnginePort {
  /** Plans a room; a later call for the same room ends an earlier one with an AbortError. */
  plan(roomId: string, document: string): Promise<string>;
}

export type JoinOutcome =
  | { readonly outcome: "joined" }
  | { readonly outcome: "wrong_code" | "too_many_tries" | "offline" | "update_needed" }
  | { readonly outcome: "failed"; readonly message: string };

export interface OfficePort {
  join(code: string, person: string, deviceName: string): Promise<JoinOutcome>;
  leave(): Promise<void>;
  syncNow(): Promise<void>;
  historyOf(kind: Kind, id: string): Promise<readonly HistoryEntry[]>;
}

export interface UpdatePort {
  accept(): void;
}

export interface Ports {
  readonly storage: StoragePort;
  readonly engine: EnginePort;
  readonly office: OfficePort;
  readonly update: UpdatePort;
}

let connected: Ports | null = null;

export function connectPorts(ports: Ports): void {
  connected = ports;
}

/** Throws before the app has connected the ports: an action called too early is a defect, not a lost change. */
export function port<P extends keyof Ports>(name: P): Ports[P] {
  if (connected === null) throw new Error(`The ${name} port is used before the app connected it.`);
  return connected[name];
}
