/** The shown records, as signals: one map a kind, and a room's own lists. */
import { computed, signal, type ReadonlySignal, type Signal } from "@preact/signals";
import { PRICES_ID, SUPPLIES_ID, type Fields, type Kind, type Row } from "../wire";
import { seesMoney } from "./status";

type Rows<K extends Kind> = Signal<ReadonlyMap<string, Row<K>>>;
const rows: { readonly [K in Kind]: Rows<K> } = {
  job: signal(new Map()),
  room: signal(new Map()),
  reading: signal(new Map()),
  placement: signal(new Map()),
  batch: signal(new Map()),
  station: signal(new Map()),
  rail_check: signal(new Map()),
  entry: signal(new Map()),
  climate: signal(new Map()),
  photo: signal(new Map()),
  alternative: signal(new Map()),
  gap: signal(new Map()),
  height_line: signal(new Map()),
  temperature_log: signal(new Map()),
  forecast_day: signal(new Map()),
  sign_off: signal(new Map()),
  prices: signal(new Map()),
  supplies: signal(new Map()),
};

/** Puts new versions of rows on show: all of them, or the ones that changed. Kinds of a later version stay stored. */
export function showRows(changed: readonly Row[]): void {
  for (const kind of new Set(changed.map((row) => row.kind))) if (isKnown(kind)) showRowsOfKind(kind, changed);
}

function isKnown(kind: string): boolean {
  return kind in rows;
}

function showRowsOfKind<K extends Kind>(kind: K, changed: readonly Row[]): void {
  const map = new Map<string, Row<K>>(rows[kind].value);
  for (const row of changed) if (isOfKind(row, kind)) map.set(row.id, row);
  rows[kind].value = map;
}

/** Takes rows off show of which nothing is known any more. */
export function hideRows(keys: readonly (readonly [Kind, string])[]): void {
  for (const [kind, id] of keys) if (isKnown(kind)) hideRow(rows[kind], id);
}

function hideRow<K extends Kind>(shown: Rows<K>, id: string): void {
  const map = new Map(shown.value);
  map.delete(id);
  shown.value = map;
}

/** Forgets every row on show, for a fresh load. */
export function clearRows(): void {
  for (const kind of Object.keys(rows) as Kind[]) rows[kind].value = new Map();
}

function isOfKind<K extends Kind>(row: Row, kind: K): row is Row<K> {
  return row.kind === kind;
}

export function rowOf<K extends Kind>(kind: K, id: string): Row<K> | undefined {
  return rows[kind].value.get(id);
}

/** The same without subscribing: for actions. */
export function peekRow<K extends Kind>(kind: K, id: string): Row<K> | undefined {
  return rows[kind].peek().get(id);
}

/** Every row on show, of every kind. Subscribes. */
export function allRows(): readonly Row[] {
  return Object.values(rows).flatMap((shown: Rows<Kind>) => [...shown.value.values()]);
}

/** Subscribes to every change of any record, and reads none. */
export function allKinds(): number {
  return Object.values(rows).reduce((count, shown: Rows<Kind>) => count + shown.value.size, 0);
}

/** Record ids are made in order of time, so sorting by id is sorting by making. */
function living<K extends Kind>(kind: K, keep: (fields: Fields<K>) => boolean = () => true): readonly Row<K>[] {
  const kept = [...rows[kind].value.values()].filter((row) => !isDeleted(row) && keep(row.fields));
  return kept.sort((a, b) => (a.id < b.id ? -1 : 1));
}

export function isDeleted(row: Row): boolean {
  return (row.fields as { deleted?: boolean | null }).deleted === true;
}

/** Jobs that are not deleted, oldest first. */
export const jobs: ReadonlySignal<readonly Row<"job">[]> = computed(() => living("job"));

/** The rooms in which mortar was placed, or of which somebody let a milestone pass. */
export const placedRooms: ReadonlySignal<ReadonlySet<string>> = computed(() => {
  const placed = living("placement", ({ placed_at: at }) => Boolean(at));
  const passed = living("entry", ({ what }) => what === "milestone");
  return new Set([...placed, ...passed].map(({ fields }) => fields.room_id ?? ""));
});

/** Rooms of every job that are not deleted, oldest first. Subscribes. */
export function roomRows(): readonly Row<"room">[] {
  return living("room");
}

/** Deleted jobs and rooms, to bring back. */
export const deletedRows: ReadonlySignal<readonly (Row<"job"> | Row<"room">)[]> = computed(() => [
  ...[...rows.job.value.values()].filter(isDeleted),
  ...[...rows.room.value.values()].filter(isDeleted),
]);

/** What was deleted inside a room, to look at and to bring back. Subscribes. */
export function deletedIn(roomId: string): readonly Row[] {
  return allRows().filter((row) => isDeleted(row) && (row.fields as { room_id?: string | null }).room_id === roomId);
}

type ListOf<K extends Kind> = (ownerId: string) => ReadonlySignal<readonly Row<K>[]>;

/** One signal an owner, made on first asking and kept. */
function listsBy<K extends Kind>(list: (ownerId: string) => readonly Row<K>[]): ListOf<K> {
  const made = new Map<string, ReadonlySignal<readonly Row<K>[]>>();
  return (ownerId) => {
    const known = made.get(ownerId) ?? computed(() => list(ownerId));
    made.set(ownerId, known);
    return known;
  };
}

export const roomsOf: ListOf<"room"> = listsBy((jobId) => living("room", (f) => f.job_id === jobId));
/** Every reading of a room that is not deleted, superseded ones included: for the room's history. */
export const allReadingsOf: ListOf<"reading"> = listsBy((roomId) => living("reading", (f) => f.room_id === roomId));
/** The readings that count: neither deleted nor corrected by a later one. */
export const readingsOf: ListOf<"reading"> = listsBy((roomId) => withoutSuperseded(allReadingsOf(roomId).value));
export const placementsOf: ListOf<"placement"> = listsBy((roomId) =>
  living("placement", (f) => f.room_id === roomId),
);
/** Batches from the mixer, oldest first. */
export const batchesOf: ListOf<"batch"> = listsBy((roomId) => living("batch", (f) => f.room_id === roomId));
/** Stations that were set, oldest first. */
export const stationsOf: ListOf<"station"> = listsBy((roomId) => living("station", (f) => f.room_id === roomId));
/** What levels showed on the rails, oldest first. */
export const railChecksOf: ListOf<"rail_check"> = listsBy((roomId) => living("rail_check", (f) => f.room_id === roomId));
/** The lines of the room's day book, oldest first. */
export const entriesOf: ListOf<"entry"> = listsBy((roomId) => living("entry", (f) => f.room_id === roomId));
export const climateOf: ListOf<"climate"> = listsBy((roomId) => living("climate", (f) => f.room_id === roomId));

export const photosOf: ListOf<"photo"> = listsBy((roomId) => living("photo", (f) => f.room_id === roomId));
/** The tops that were thought of for a room, oldest first. */
export const alternativesOf: ListOf<"alternative"> = listsBy((roomId) => living("alternative", (f) => f.room_id === roomId));

/** Gaps measured with a wedge on the bed, oldest first. */
export const gapsOf: ListOf<"gap"> = listsBy((roomId) => living("gap", (f) => f.room_id === roomId));
export const heightLinesOf: ListOf<"height_line"> = listsBy((roomId) => living("height_line", (f) => f.room_id === roomId));
export const temperatureLogsOf: ListOf<"temperature_log"> = listsBy((roomId) => living("temperature_log", (f) => f.room_id === roomId));
/** Days foretold where the job is, in order of their making. */
export const forecastOf: ListOf<"forecast_day"> = listsBy((jobId) => living("forecast_day", (f) => f.job_id === jobId));
/** Dated copies that somebody signed, oldest first. */
export const signOffsOf: ListOf<"sign_off"> = listsBy((roomId) => living("sign_off", (f) => f.room_id === roomId));

/** What the company buys in which packages; undefined before anybody said. Subscribes. */
export function companySupplies(): Row<"supplies"> | undefined {
  return livingRow("supplies", SUPPLIES_ID);
}

/** What things cost, where this person may see it. Subscribes. */
export function companyPrices(): Row<"prices"> | undefined {
  return seesMoney.value ? livingRow("prices", PRICES_ID) : undefined;
}

function livingRow<K extends Kind>(kind: K, id: string): Row<K> | undefined {
  const row = rowOf(kind, id);
  return row && !isDeleted(row) ? row : undefined;
}

/** Every photo that is not deleted, of all rooms. */
export const photosShown: ReadonlySignal<readonly Row<"photo">[]> = computed(() => living("photo"));

export function withoutSuperseded(readings: readonly Row<"reading">[]): readonly Row<"reading">[] {
  const superseded = new Set(readings.map((reading) => reading.fields.supersedes));
  return readings.filter((reading) => !superseded.has(reading.id));
}

/** A job or room by id as a signal; undefined where it is not (yet) on this phone. */
export function jobOf(id: string): Row<"job"> | undefined {
  return rowOf("job", id);
}

export function roomOf(id: string): Row<"room"> | undefined {
  return rowOf("room", id);
}
