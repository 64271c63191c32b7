/** The phone's database: what the service said, what waits to be sent, who this phone is, and what is being typed. */
import { Dexie, type EntityTable, type Table, type Transaction } from "dexie";
import { uuidv7 } from "uuidv7";
import { withoutLetGo } from "../wire";
import type { AnyFields, Bytes, Change, Conflicts, HistoryEntry, JobChange, Kind, People, Refused, Role, UndoStep } from "../wire";
import { undoWithoutLetGo } from "./let_go";

/** A record as the service last told it. */
export interface StoredRecord {
  readonly kind: Kind;
  readonly id: string;
  readonly fields: AnyFields;
  readonly sequence: number;
  /** When it last changed, by the service's clock; absent until the service tells it anew. */
  readonly changed_at?: string;
  /** When a field was set, where that was not at `changed_at`; absent where the service did not tell. */
  readonly times?: Readonly<Record<string, string>>;
  /** The view it came with; absent where a tab with the app's first version stored it. */
  readonly view?: number;
  readonly conflicts?: Conflicts;
  /** Who changed it last; absent where an earlier version stored it. */
  readonly changed_by?: string;
}

/** The story of a record, as the service last told it: for looking back without a network. */
export interface StoredHistory {
  readonly kind: Kind;
  readonly id: string;
  readonly entries: readonly HistoryEntry[];
  readonly at: string;
}

/** One change of a job that was opened here, as the office told it: for its file, and for looking back. */
export interface StoredPast extends JobChange {
  readonly job_id: string;
}

/** How far the history of a job is here. */
export interface StoredOpened {
  readonly job_id: string;
  /** The office's number up to which its changes are here. */
  readonly next: number;
  /** True once a page was the last: up to `next` nothing is missing. */
  readonly isWhole: boolean;
  /** ISO 8601: when it was opened last. */
  readonly at: string;
}

/** A picture known on this phone, made here or told by the office. */
export interface StoredPhoto {
  readonly hash: string;
  /** 1 until the office has the whole of it; such a picture is never let go of. */
  readonly unsent: 0 | 1;
  /** The code with which the office did not take it. */
  readonly problem: string | null;
  readonly thumbnail: Bytes | null;
  /** ISO 8601: when it was made or, once the office has it, last looked at. */
  readonly usedAt: string;
}

interface StoredPicture {
  readonly hash: string;
  readonly bytes: Bytes;
  readonly size: number;
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
  /** How far the pull has come. It says nothing about a single record: the record's own sequence does. */
  readonly cursor: number;
  /** The view that `cursor` was counted in: the service's number for which jobs this person sees. 0 before the first. */
  readonly view: number;
  /** True from the first page of a snapshot until what did not come with it has been dropped. */
  readonly sweeping: boolean;
  readonly nextNumber: number;
  readonly joined: boolean;
  readonly mustJoinAgain: boolean;
  /** Removed by the office; until the phone joins again. */
  readonly removed: boolean;
  readonly person: string | null;
  readonly personId: string | null;
  readonly role: Role | null;
  readonly deviceName: string | null;
  readonly lastSentAt: string | null;
  /** Service's clock minus this phone's, ms; null until measured. */
  readonly clockOffsetMs: number | null;
}

interface StoredPeople extends People {
  readonly key: "people";
}

/** Changes that came from a file, so that reading it again takes nothing twice. */
interface StoredReadIn {
  readonly key: "read_in";
  readonly changeIds: readonly string[];
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
  meta!: Table<Account | StoredUndo | StoredPeople | StoredReadIn, string>;
  drafts!: EntityTable<StoredDraft, "key">;
  histories!: Table<StoredHistory, [Kind, string]>;
  photos!: EntityTable<StoredPhoto, "hash">;
  /** Their bytes, apart, so that a look at the others does not read through them. */
  pictures!: EntityTable<StoredPicture, "hash">;
  pasts!: Table<StoredPast, [string, number]>;
  opened!: EntityTable<StoredOpened, "job_id">;

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
    this.version(2)
      .stores({ histories: "[kind+id], at" })
      .upgrade(completeRows);
    this.version(3).stores({ photos: "hash, unsent, [unsent+usedAt]", pictures: "hash, size" });
    this.version(4).stores({}).upgrade(letTicksGo);
    this.version(5).stores({ pasts: "[job_id+sequence], change_id", opened: "job_id, at" });
    this.on("populate", (transaction) => transaction.table("meta").add(newAccount()));
  }
}

/** From version 1: nothing is dropped; what the new rows hold besides says that the service has not told it yet. */
async function completeRows(transaction: Transaction): Promise<void> {
  const records = transaction.table<StoredRecord>("records");
  await records.bulkPut((await records.toArray()).map((record) => ({ ...record, view: 0, conflicts: {} })));
  await transaction.table<Account, string>("meta").where("key").equals("account").modify((row, to) => {
    to.value = { ...newAccount(), ...row };
  });
}

/** From version 3: ticks of stations go from what is shown and from undo; every change that waits stays as it was made. */
async function letTicksGo(transaction: Transaction): Promise<void> {
  for (const name of ["records", "held"]) {
    const table = transaction.table<StoredRecord>(name);
    await table.where("[kind+id]").between(["room", Dexie.minKey], ["room", Dexie.maxKey]).modify((record, to) => {
      const { kind, fields, conflicts } = record;
      to.value = { ...record, fields: withoutLetGo(kind, fields), ...(conflicts ? { conflicts: withoutLetGo(kind, conflicts) } : {}) };
    });
  }
  await transaction.table<StoredUndo, string>("meta").where("key").equals("undo").modify((row, to) => {
    to.value = { ...row, steps: undoWithoutLetGo(row.steps) };
  });
}

export function newAccount(): Account {
  return {
    key: "account",
    deviceId: uuidv7(),
    database: null,
    cursor: 0,
    view: 0,
    sweeping: false,
    nextNumber: 1,
    joined: false,
    mustJoinAgain: false,
    removed: false,
    person: null,
    personId: null,
    role: null,
    deviceName: null,
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

export async function loadPeople(database: PhoneDatabase): Promise<People | null> {
  const people = await database.meta.get("people");
  return people?.key === "people" ? { list: people.list, at: people.at } : null;
}

/** Ids of the changes that were read from files. */
export async function loadReadIn(database: PhoneDatabase): Promise<readonly string[]> {
  const readIn = await database.meta.get("read_in");
  return readIn?.key === "read_in" ? readIn.changeIds : [];
}
