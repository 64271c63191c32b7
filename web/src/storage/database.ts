/** The phone's database: what the service said, what waits to be sent, who this phone is, and what is being typed. */
import { Dexie, type EntityTable, type Table } from "dexie";
import { uuidv7 } from "uuidv7";
import type { AnyFields, Change, Kind, Refused, UndoStep } from "../wire";

/** A record as the service last told it. */
export interface StoredRecord {
  readonly kind: Kind;
  readonly id: string;
  readonly fields: AnyFields;
  readonly sequence: number;
}

/** A change until the service's own state holds it: `acked` is the number it took effect with, 0 while it waits. */
export interface QueuedChange extends Change {
  readonly acked: number;
}

/** Who this phone is, and how far it and the service have come. One row. */
export interface Account {
  readonly key: "account";
  readonly deviceId: string;
  readonly database: string | null;
  readonly cursor: number;
  readonly nextNumber: number;
  readonly joined: boolean;
  readonly mustJoinAgain: boolean;
  readonly person: string | null;
  readonly lastSentAt: string | null;
  /** Service's clock minus this phone's, ms; null until measured. */
  readonly clockOffsetMs: number | null;
}

interface StoredDraft {
  readonly key: string;
  readonly text: string;
}

interface StoredUndo {
  readonly key: "undo";
  readonly steps: readonly UndoStep[];
}

export type RecordKey = readonly [Kind, string];

export class PhoneDatabase extends Dexie {
  records!: Table<StoredRecord, [Kind, string]>;
  /** Records of an earlier database, until what the new one lacks has been offered again. */
  held!: Table<StoredRecord, [Kind, string]>;
  changes!: EntityTable<QueuedChange, "change_id">;
  refused!: EntityTable<Refused, "change_id">;
  meta!: Table<Account | StoredUndo, string>;
  drafts!: EntityTable<StoredDraft, "key">;

  constructor(name: string) {
    // Strict: a phone whose battery dies right after "saved" still holds what it showed.
    super(name, { chromeTransactionDurability: "strict" });
    this.version(1).stores({
      records: "[kind+id]",
      held: "[kind+id]",
      changes: "change_id, number, acked, [kind+record_id]",
      refused: "change_id",
      meta: "key",
      drafts: "key",
    });
    this.on("populate", (transaction) => transaction.table("meta").add(newAccount()));
  }
}

export function newAccount(): Account {
  return {
    key: "account",
    deviceId: uuidv7(),
    database: null,
    cursor: 0,
    nextNumber: 1,
    joined: false,
    mustJoinAgain: false,
    person: null,
    lastSentAt: null,
    clockOffsetMs: null,
  };
}

/** Throws where the row is missing: a database without an account is damaged. */
export async function loadAccount(database: PhoneDatabase): Promise<Account> {
  const account = await database.meta.get("account");
  if (account?.key !== "account") throw new Error("The phone's database has no account row.");
  return account;
}

export async function loadUndo(database: PhoneDatabase): Promise<readonly UndoStep[]> {
  const undo = await database.meta.get("undo");
  return undo?.key === "undo" ? undo.steps : [];
}
