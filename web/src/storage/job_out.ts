/** Everything that this phone knows of one job, as a file holds it: what the office told, and its own changes on top. */
import { VERSION, type FileChange, type FilePhoto, type JobContents, type JobKind } from "../carrying";
import { SCHEMA, type Bytes, type Row } from "../wire";
import { loadAccount, type Account, type PhoneDatabase, type QueuedChange, type StoredPast, type StoredRecord } from "./database";
import { idFromText } from "./id_from_text";
import { belongsTo } from "./of_job";
import { keyText, rowsFrom } from "./overlay";

export interface JobOut {
  readonly contents: JobContents;
  readonly photos: ReadonlyMap<string, Bytes>;
}

type JobRow = Row & { readonly kind: JobKind };

/** Null where no such job is here. Inside the caller's transaction. */
export async function jobOut(database: PhoneDatabase, jobId: string, app: string): Promise<JobOut | null> {
  const [records, held, changes, account] = await Promise.all([
    database.records.toArray(),
    database.held.toArray(),
    database.changes.toArray(),
    loadAccount(database),
  ]);
  const rows = belongsTo(rowsFrom(records, held, changes), jobId);
  if (rows.length === 0) return null;
  const keys = new Set(rows.map(({ kind, id }) => keyText(kind, id)));
  const ofJob = (kind: StoredRecord["kind"], id: string) => keys.has(keyText(kind, id));
  const history = await historyOf(database, {
    jobId,
    account,
    stored: [...held.filter((one) => !records.some(({ kind, id }) => kind === one.kind && id === one.id)), ...records].filter(({ kind, id }) => ofJob(kind, id)),
    changes: changes.filter(({ kind, record_id }) => ofJob(kind, record_id)),
    order: rows,
  });
  const photos = await picturesOf(database, rows);
  return { contents: contentsOf({ jobId, app, account, rows, history, photos }), photos: photos.bytes };
}

interface Told {
  readonly jobId: string;
  readonly app: string;
  readonly account: Account;
  readonly rows: readonly JobRow[];
  readonly history: History;
  readonly photos: Pictures;
}

function contentsOf({ jobId, app, account, rows, history, photos }: Told): JobContents {
  return {
    evenbed_job: VERSION,
    made_at: new Date().toISOString(),
    made_by: { person: account.person, device: account.deviceName, app },
    schema: SCHEMA,
    job: jobId,
    records: rows.map(({ kind, id, fields }) => ({ kind, id, fields })),
    history: history.changes,
    photos: photos.told,
    complete: { history: history.isWhole, photos: photos.told.map(({ hash }) => hash).filter((hash) => !photos.bytes.has(hash)) },
  };
}

interface History {
  readonly changes: readonly FileChange[];
  readonly isWhole: boolean;
}

interface Known {
  readonly jobId: string;
  readonly account: Account;
  readonly stored: readonly StoredRecord[];
  readonly changes: readonly QueuedChange[];
  /** Parents before children. */
  readonly order: readonly JobRow[];
}

async function historyOf(database: PhoneDatabase, { jobId, account, stored, changes, order }: Known): Promise<History> {
  const opened = await database.opened.get(jobId);
  const pasts = await database.pasts.where("[job_id+sequence]").between([jobId, 0], [jobId, Infinity]).toArray();
  const lacking = stored.filter(({ sequence }) => opened?.isWhole !== true || sequence === 0 || sequence > opened.next);
  const inOrder = order.flatMap(({ kind, id }) => lacking.filter((one) => one.kind === kind && one.id === id));
  const known = new Set(pasts.map(({ change_id }) => change_id));
  const own = [...changes].filter(({ change_id }) => !known.has(change_id)).sort((a, b) => (a.acked || Infinity) - (b.acked || Infinity) || a.number - b.number);
  const used = pasts.filter(({ sequence }) => opened !== undefined && sequence <= opened.next);
  const summaries = inOrder.map((record) => summaryOf(record, used, account));
  const teller = new Teller(account, used, inOrder, summaries);
  const before = [...used.map(changeFromPast), ...summaries];
  return { changes: [...before, ...ownAfter(before, own, teller)], isWhole: summaries.length === 0 };
}

/** The phone's own changes, less those told before: it may have taken the very same whole of a record out of a file. */
function ownAfter(before: readonly FileChange[], own: readonly QueuedChange[], teller: Teller): readonly FileChange[] {
  const ids = new Set(before.map(({ change_id }) => change_id));
  return own.map((change) => teller.own(change)).filter(({ change_id }) => !ids.has(change_id));
}

function changeFromPast(past: StoredPast): FileChange {
  const { change_id, kind, record_id, fields, schema, at, person, device_id: id, device_name, knew } = past;
  return { change_id, kind: kind as JobKind, record_id, fields, schema, at, person, device: { id, name: device_name || null }, knew };
}

/** The whole of a record whose history is not here, as one change: always with the same id, so that it counts once. */
function summaryOf(record: StoredRecord, pasts: readonly StoredPast[], { database, person }: Account): FileChange {
  const { kind, id, fields, sequence, changed_at, changed_by } = record;
  const before = pasts.filter((past) => past.record_id === id && past.kind === kind);
  return {
    change_id: idFromText(JSON.stringify([database, kind, id, sequence, fields])),
    kind: kind as JobKind,
    record_id: id,
    fields,
    schema: SCHEMA,
    at: changed_at ?? new Date().toISOString(),
    person: changed_by ?? (sequence === 0 ? person : null),
    device: null,
    knew: lastOfEach(before.map((past) => [past.device_id, past.change_id])),
  };
}

/** Of each device the last: pairs of device and change, in order. */
function lastOfEach(pairs: readonly (readonly [string, string])[]): readonly string[] {
  return [...new Map(pairs).values()];
}

/** Tells of this phone's own changes, one after the other. */
class Teller {
  readonly #brought: QueuedChange[] = [];

  constructor(
    readonly account: Account,
    readonly pasts: readonly StoredPast[],
    readonly lacking: readonly StoredRecord[],
    readonly summaries: readonly FileChange[],
  ) {}

  own(change: QueuedChange): FileChange {
    const { change_id, kind, record_id, fields, schema, origin } = change;
    const told = { change_id, kind: kind as JobKind, record_id, fields, schema };
    if (origin === undefined) return { ...told, ...this.#here(change) };
    this.#brought.push(change);
    const device = origin.device_id === null ? null : { id: origin.device_id, name: origin.device_name };
    return { ...told, at: origin.at, person: origin.person, device, knew: origin.knew };
  }

  #here(change: QueuedChange): Pick<FileChange, "at" | "person" | "device" | "knew"> {
    const { deviceId, deviceName, person, clockOffsetMs } = this.account;
    const at = new Date(Date.parse(change.device_time) + (clockOffsetMs ?? 0)).toISOString();
    return { at, person, device: { id: deviceId, name: deviceName }, knew: this.#knew(change) };
  }

  /** What stood in the numbers it had seen, and what this phone itself had read out of files before. */
  #knew({ kind, record_id, seen }: QueuedChange): readonly string[] {
    const isSame = (one: { readonly kind: string; readonly record_id: string }) => one.kind === kind && one.record_id === record_id;
    const past = this.pasts.filter((one) => isSame(one) && (one.sequence <= seen || one.brought_by?.device_id === this.account.deviceId));
    const whole = this.summaries.filter((one, index) => isSame(one) && (this.lacking[index]?.sequence ?? 0) <= seen);
    const brought = this.#brought.filter(isSame);
    return lastOfEach([
      ...past.map((one) => [one.device_id, one.change_id] as const),
      ...whole.map((one) => ["whole", one.change_id] as const),
      ...brought.map((one) => [one.origin?.device_id ?? "file", one.change_id] as const),
    ]);
  }
}

interface Pictures {
  readonly told: readonly FilePhoto[];
  readonly bytes: ReadonlyMap<string, Bytes>;
}

async function picturesOf(database: PhoneDatabase, rows: readonly JobRow[]): Promise<Pictures> {
  const byHash = new Map(rows.filter(({ kind }) => kind === "photo").map(({ fields }) => photoFrom(fields)).map((photo) => [photo.hash, photo]));
  const told = [...byHash.values()].sort((a, b) => (a.hash < b.hash ? -1 : 1));
  const found = await database.pictures.bulkGet(told.map(({ hash }) => hash));
  return { told, bytes: new Map(found.flatMap((one) => (one === undefined ? [] : [[one.hash, one.bytes] as const]))) };
}

function photoFrom(fields: Row["fields"]): FilePhoto {
  const { hash, media_type, size } = fields as unknown as FilePhoto;
  return { hash, media_type, size };
}
