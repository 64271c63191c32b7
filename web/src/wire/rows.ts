/** The shapes that pass between a phone's storage and its state; they never leave the phone. */
import type { Conflicts, HistoryEntry, Origin } from "./changes";
import type { People } from "./people";
import type { OwnPhoto } from "./photos";
import type { AnyFields, Fields, Kind } from "./records";

/** A record as it is shown: the service's state with this phone's waiting changes on top. */
export interface Row<K extends Kind = Kind> {
  readonly kind: K;
  readonly id: string;
  readonly fields: Fields<K>;
  /** The service's number of its newest change seen here; 0 for a record the service has not confirmed. */
  readonly sequence: number;
  /** How many of its changes have not reached the service yet. */
  readonly waiting: number;
  /** What lost against the values that stand, less the fields this phone has decided since. */
  readonly conflicts: Conflicts;
}

/** A change of this phone that the office has not taken yet. */
export interface Unsent {
  readonly change_id: string;
  readonly fields: AnyFields;
  /** By this phone's own clock, ISO 8601. */
  readonly device_time: string;
  /** For a change that was read out of a file. */
  readonly origin?: Origin | undefined;
  /** Fields where it and what it met here were made without knowing of each other, and those where the other stayed. */
  readonly concurrent?: readonly string[] | undefined;
  readonly overruled?: readonly string[] | undefined;
}

/** A record's story, oldest first, as the office told it at that moment. */
export interface History {
  readonly entries: readonly HistoryEntry[];
  /** ISO 8601; null where the office was never reached for this record. */
  readonly at: string | null;
  /** False for the last one kept on the phone: the office could not be reached now. */
  readonly fresh: boolean;
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
  /** What the action wrote: it can be taken back as long as this stands. Steps of an earlier version do not know it. */
  readonly written?: readonly Edit[];
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
  readonly people: People | null;
}

export interface WriteTogether {
  readonly undo: readonly UndoStep[];
  /** A draft that the edit makes needless; it goes in the same transaction. */
  readonly clearDraft?: string | undefined;
  /** The picture of a photo's record, kept with it or not at all. */
  readonly photo?: OwnPhoto | undefined;
}
