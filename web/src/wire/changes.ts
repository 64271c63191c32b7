/** Changes and the replies to them, as they cross the wire. Each side's names are fixed; protocol and schema are numbered. */
import type { components } from "./generated/service";
import type { AnyFields, Kind } from "./records";

export const PROTOCOL = 2;
/** Version of what the fields of a change mean. */
export const SCHEMA = 3;
/** Most changes in one push, and most records in one page of a pull. */
export const PAGE = 500;

/** Where a change comes from that was read out of a file: somebody made it elsewhere, or long ago. */
export interface Origin {
  /** ISO 8601, the maker's clock corrected. */
  readonly at: string;
  /** Null where the file does not say. */
  readonly person: string | null;
  readonly device_id: string | null;
  readonly device_name: string | null;
  /** What its maker had seen of the record: of each device that had edited it, the last change known, by id. */
  readonly knew: readonly string[];
}

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
  /** For a change that was read out of a file. */
  readonly origin?: Origin;
}

type Schemas = components["schemas"];

export type PushResult = Schemas["PushResult"];
export type PushReply = Schemas["PushReply"];
export type PulledRecord = Schemas["PulledRecord"];
export type PullReply = Schemas["PullReply"];
export type SessionReply = Schemas["SessionReply"];
export type JoinReply = Schemas["JoinReply"];
export type JoinRequest = Schemas["JoinRequest"];
export type JobChange = Schemas["JobChange"];
export type JobHistoryReply = Schemas["JobHistoryReply"];
export type HistoryEntry = Schemas["HistoryEntry"];
export type Conflict = Schemas["Conflict"];
/** By field: the values that lost against the one that stands, until somebody who saw both decides. */
export type Conflicts = Readonly<Record<string, readonly Conflict[]>>;
export type Role = SessionReply["role"];
/** The stable codes of every error reply. */
export type ProblemCode = Schemas["Code"];
