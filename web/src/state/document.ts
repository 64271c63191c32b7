/** The room document composed from a room's records: dotted choices nested, what was never chosen left out. */
import { computed, type ReadonlySignal } from "@preact/signals";
import type { AnyFields, DocumentReading, Fields, RoomDocument, Row, Setup } from "../wire";
import { checkedParts, type CheckedParts } from "./checked";
import {
  batchesOf, climateOf, companyPrices, companySupplies, entriesOf, forecastOf, gapsOf, heightLinesOf, placementsOf, railChecksOf, readingsOf, roomOf, temperatureLogsOf,
} from "./records";
import { documentSetup, FIRST_SETUP, setupsIn } from "./setups";
import { momentOf, wholeRails, workedParts, type WorkedParts } from "./worked";

type Open = Record<string, unknown>;
const GROUPS: ReadonlySet<string> = new Set(["bed", "rails", "mix", "curing", "adjustment", "joints", "supplies", "prices", "filling", "flatness"]);
const LISTS = ["openings", "fixtures", "instrument_checks"] as const;
export interface RoomParts extends WorkedParts, CheckedParts {
  readonly room: Fields<"room">;
  readonly readings: readonly Row<"reading">[];
  readonly climate: readonly Row<"climate">[];
  /** The company's, under the room's own. */
  readonly supplies?: Fields<"supplies"> | undefined;
  readonly prices?: Fields<"prices"> | undefined;
}

/** Null for a room that is not on this phone or has no outline yet: there is nothing to plan. */
export function documentFromRoom(roomId: string): RoomDocument | null {
  const room = roomOf(roomId);
  if (!room?.fields.outline) return null;
  return documentFromParts({
    room: room.fields,
    readings: readingsOf(roomId).value,
    climate: climateOf(roomId).value,
    placements: placementsOf(roomId).value,
    batches: batchesOf(roomId).value,
    railChecks: railChecksOf(roomId).value,
    entries: entriesOf(roomId).value,
    gaps: gapsOf(roomId).value,
    heightLines: heightLinesOf(roomId).value,
    temperatureLogs: temperatureLogsOf(roomId).value,
    forecast: forecastOf(room.fields.job_id ?? "").value,
    supplies: companySupplies()?.fields,
    prices: companyPrices()?.fields,
  });
}

export function documentFromParts(parts: RoomParts): RoomDocument {
  const setups = setupsFrom(parts);
  return {
    document: 1,
    outline: parts.room.outline ?? {},
    readings: parts.readings.map((row) => readingFromRow(row, setups !== null)),
    ...chosen(parts.room, LISTS),
    ...(setups ? { setups } : {}),
    ...(parts.room.marks ? { marks: parts.room.marks.map(({ name: _name, ...mark }) => mark) } : {}),
    ...nestedChoices({ ...chosenIn(parts.supplies), ...parts.prices, ...chosenIn(wholeRails(parts.room)) }),
    ...workedParts(parts),
    ...checkedParts(parts),
    climate: climateInOrder(parts.climate).map(climateFromRow),
  };
}

/** Set-ups without the names that people gave them; null where nobody began any, and every reading hangs from one line. */
function setupsFrom({ room, readings }: RoomParts): readonly Setup[] | null {
  const isOne = !room.setups?.length && readings.every(({ fields }) => !fields.setup);
  if (isOne) return null;
  return setupsIn(room, readings).map(({ name: _name, ...setup }) => ({ ...setup, id: documentSetup(setup.id) }));
}

function readingFromRow({ id, fields }: Row<"reading">, hasSetups: boolean): DocumentReading {
  const keys = fields.mark ? (["mark", "stage"] as const) : (["at", "stage"] as const);
  const setup = hasSetups ? { setup: documentSetup(fields.setup ?? FIRST_SETUP) } : {};
  const typed = typeof fields.typed === "string" ? { as_typed: fields.typed } : {};
  return { id, ...chosen(fields, ["down", ...keys, "taken_at", "sight"]), ...setup, ...typed } as DocumentReading;
}

/** Measured first, then forecast; each in order of time. */
function climateInOrder(rows: readonly Row<"climate">[]): readonly Row<"climate">[] {
  const isForetold = (row: Row<"climate">) => (row.fields.forecast === true ? 1 : 0);
  const byTime = (a: Row<"climate">, b: Row<"climate">) => momentOf(a.fields.at) - momentOf(b.fields.at) || (a.id < b.id ? -1 : 1);
  return [...rows].sort((a, b) => isForetold(a) - isForetold(b) || byTime(a, b));
}

function climateFromRow(row: Row<"climate">): Open {
  return chosen(row.fields, ["at", "bed", "air", "humidity", "wind", "forecast"]);
}

/** The named fields that hold a value: an emptied field falls back to the engine's default. */
function chosen<F extends object>(fields: F, keys: readonly (keyof F & string)[]): Open {
  const entries = keys.map((key) => [key, fields[key]] as const);
  return Object.fromEntries(entries.filter(([, value]) => value !== undefined && value !== null));
}

/** The company's prices as the engine takes them; undefined where nobody said any, or this person may not see them. */
export function documentPrices(): Open | undefined {
  return nestedChoices(companyPrices()?.fields ?? {})["prices"] as Open | undefined;
}

/** What holds a value: where a room says nothing any more, the company's holds again. */
function chosenIn(fields: AnyFields = {}): Open {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null));
}

/** `{"bed.covering.bond_thickness": 5}` becomes `{bed: {covering: {bond_thickness: 5}}}`. */
export function nestedChoices(fields: AnyFields): Open {
  const nested: Open = {};
  for (const [name, value] of Object.entries<unknown>(fields)) {
    const path = name.split(".");
    if (value === null) continue;
    if (path.length > 1 && GROUPS.has(path[0] ?? "")) placeAt(nested, path, value);
  }
  return nested;
}

function placeAt(into: Open, path: readonly string[], value: unknown): void {
  const [head = "", ...rest] = path;
  if (rest.length === 0) {
    into[head] = value;
    return;
  }
  const inner = (into[head] ?? {}) as Open;
  into[head] = inner;
  placeAt(inner, rest, value);
}

const documents = new Map<string, ReadonlySignal<string | null>>();

/** The document as text, as the engine gets it: a signal that changes only when the text does. */
export function documentTextOf(roomId: string): ReadonlySignal<string | null> {
  const known = documents.get(roomId) ?? computed(() => textFromDocument(documentFromRoom(roomId)));
  documents.set(roomId, known);
  return known;
}

function textFromDocument(document: RoomDocument | null): string | null {
  return document === null ? null : JSON.stringify(document);
}
