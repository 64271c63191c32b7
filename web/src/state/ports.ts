/**
 * The doors behind the state: storage, engine, office and update. The app gives each one at the start (`connect`);
 * screens never see them.
 */
import type { AnyFields, Fields, HistoryEntry, Kind } from "../wire";

/** A record as it is shown: the service's state with this phone's waiting changes on top. */
export interface Row<K extends Kind = Kind> {
  readonly kind: K;
  readonly id: string;
  readonly fields: Fields<K>;
  /** The service's number of its newest change seen here; 0 for a record the service has not confirmed. */
  readonly sequence: number;
  /** How many of its changes have not reached the service yet. */
  readonly waiting: number;
}

/** What an action asks to be written: one record's changed fields. */
export interface Edit<K extends Kind = Kind> {
  readonly kind: K;
  readonly id: string;
  readonly fields: Fields<K>;
}

/** One step that undo can take back: the edits that restore what was there before. */
export interface UndoStep {
  readonly at: string;
  readonly inverse: readonly Edit[];
}

/** A change the office did not take, with what it held. */
export interface Refused {
  readonly change_id: string;
  readonly kind: Kind;
  readonly record_id: string;
  readonly fields: AnyFields;
  readonly reason: string;
  readonly message: string;
  readonly at: string;
}

export interface Loaded {
  readonly rows: readonly Row[];
  readonly drafts: readonly (readonly [string, string])[];
  readonly undo: readonly UndoStep[];
}

export interface WriteTogether {
  readonly undo: readonly UndoStep[];
  /** A draft that the edit makes needless; it goes in the same transaction. */
  readonly clearDraft?: string | undefined;
}

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
