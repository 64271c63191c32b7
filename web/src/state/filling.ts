/** Filling: batches, sections, stoppages, and the room's day book. Each tap is one step to undo, with its time. */
import { uuidv7 } from "uuidv7";
import type { Edit, EntryWhat, Fields, Row } from "../wire";
import { act, edit, type ActionOptions } from "./actions";
import { entriesOf, peekRow, placementsOf } from "./records";
import { sectionTimes, type SectionMoment, type SectionTimes } from "./worked";

/** A batch came from the mixer just now. */
export async function mixBatch(roomId: string, batch: { readonly section?: string; readonly size?: number } = {}): Promise<string> {
  const id = uuidv7();
  const made: Edit<"batch"> = { kind: "batch", id, fields: { room_id: roomId, mixed_at: now(), ...batch } };
  await act([made]);
  return id;
}

export function editBatch(id: string, fields: Fields<"batch">): Promise<void> {
  return edit("batch", id, fields);
}

/** How far each section is, by its id, as the plan is told. Subscribes. */
export function sectionTimesOf(roomId: string): ReadonlyMap<string, SectionTimes> {
  return sectionTimes(placementsOf(roomId).value);
}

/** A section reached a point of its filling just now, or at a time told; null takes it back, whoever told it. */
export async function markSection(roomId: string, section: string, moment: SectionMoment, at: string | null = now()): Promise<void> {
  const known = placementsOf(roomId).peek().filter(({ fields }) => fields.section === section);
  const newest = known.at(-1)?.id ?? uuidv7();
  const told = known.filter(({ fields }) => fields[moment]).map(({ id }): Edit => ({ kind: "placement", id, fields: { [moment]: null } }));
  const made: Fields<"placement"> = known.length > 0 ? {} : { room_id: roomId, section };
  const edits: readonly Edit[] = at === null ? told : [{ kind: "placement", id: newest, fields: { ...made, [moment]: at } }];
  if (edits.length > 0) await act(edits);
}

export type NewEntry = Omit<Fields<"entry">, "room_id" | "deleted" | "what"> & { readonly what: EntryWhat };

/** The edit that makes a line of the day book, at this moment unless told. */
export function entryMade(roomId: string, entry: NewEntry): Edit<"entry"> {
  return { kind: "entry", id: uuidv7(), fields: { at: now(), ...entry, room_id: roomId } };
}

export async function addEntry(roomId: string, entry: NewEntry, options?: ActionOptions): Promise<string> {
  const made = entryMade(roomId, entry);
  await act([made], options);
  return made.id;
}

export function editEntry(id: string, fields: Fields<"entry">, options?: ActionOptions): Promise<void> {
  return edit("entry", id, fields, options);
}

/** What lasts now: the stoppage, or the helper's stay. Undefined where none does. Subscribes. */
export function lasting(roomId: string, what: "stopped" | "helper"): Row<"entry"> | undefined {
  return openEntries(entriesOf(roomId).value, what).at(-1);
}

function openEntries(entries: readonly Row<"entry">[], what: EntryWhat | null | undefined): readonly Row<"entry">[] {
  return entries.filter(({ fields }) => fields.what === what && !fields.until);
}

/** Ends what lasts: where two phones began it without knowing of each other, both, in one step. */
export async function endEntry(id: string): Promise<void> {
  const { room_id: roomId, what } = peekRow("entry", id)?.fields ?? {};
  const others = openEntries(entriesOf(roomId ?? "").peek(), what).map((entry) => entry.id);
  const until = now();
  await act([...new Set([id, ...others])].map((one): Edit<"entry"> => ({ kind: "entry", id: one, fields: { until } })));
}

function now(): string {
  return new Date().toISOString();
}
