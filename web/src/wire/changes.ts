/** Changes and the replies to them, as they cross the wire. Each side's names are fixed; protocol and schema are numbered. */
import type { AnyFields, Kind } from "./records";

export const PROTOCOL = 1;
/** Version of what the fields of a change mean. */
export const SCHEMA = 1;
/** Most changes in one push, and most records in one page of a pull. */
export const PAGE = 500;

export interface Change {
  readonly change_id: string;
  /** The device's own number: 1, 2, 3... without a gap. */
  readonly number: number;
  readonly kind: Kind;
  readonly record_id: string;
  readonly fields: AnyFields;
  /** The service's number that this device had seen when the change was made. */
  readonly seen: number;
  readonly device_time: string;
  readonly schema: number;
}

export interface PushResult {
  readonly number: number;
  readonly change_id: string;
  readonly outcome: "applied" | "already_applied" | "refused";
  readonly reason: string | null;
  readonly message: string | null;
  readonly sequence: number | null;
}

export interface PushReply {
  readonly database: string;
  readonly server_time: string;
  readonly latest: number;
  readonly results: readonly PushResult[];
}

export interface PulledRecord {
  readonly kind: Kind;
  readonly id: string;
  readonly fields: AnyFields;
  readonly sequence: number;
}

export interface PullReply {
  readonly database: string;
  readonly protocol: number;
  readonly server_time: string;
  readonly latest: number;
  readonly more: boolean;
  readonly next: number;
  readonly records: readonly PulledRecord[];
}

export interface SessionReply {
  readonly device_id: string;
  readonly person: string;
  readonly database: string;
  readonly server_time: string;
}

export interface JoinReply {
  readonly device_id: string;
  readonly database: string;
  readonly server_time: string;
}

export interface HistoryEntry {
  readonly sequence: number;
  readonly change_id: string;
  readonly person: string;
  readonly device_id: string;
  readonly device_name: string;
  readonly at: string;
  readonly fields: AnyFields;
  readonly replaced: AnyFields;
  readonly concurrent: boolean;
}
