/** Filling: batches, sections, stoppages, and the room's day book. Each tap is one step to undo, with its time. */
import { uuidv7 } from "uuidv7";
import type { Edit, EntryWhat, Fields, Row } from "../wire";
import { act, edit, type ActionOptions } from "./actions";
import { planOf } from "./plans";
import { entriesOf, peekRow, placementsOf } from "./records";
import { placementEdits, placementsIn, placeOf, sectionIdOf, type SectionPlace } from "./sections";
import type { SectionMoment } from "./worked";

/** A batch came from the mixer just now, for that section where one is told. */
export async function mixBatch(roomId: string, section?: Pick<SectionPlace, "id" | "at">): Promise<string> {
  const id = uuidv7();
  const made: Edit<"batch"> = { kind: "batch", id, fields: { room_id: roomId, mixed_at: now(), ...(section && placeOf(section)) } };
  await act([made]);
  return id;
}

export function editBatch(id: string, fields: Fields<"batch">): Promise<void> {
  return edit("batch", id, fields);
}

/** A section reached a point of its filling just now, or at a time told; null takes it back, whoever told it. */
export async function markSection(roomId: string, section: SectionPlace, moment: SectionMoment, at: string | null = now()): Promise<void> {
  const told = placementsIn(roomId, section).filter(({ fields }) => fields[moment]).map(({ id }): Edit => ({ kind: "placement", id, fields: { [moment]: null } }));
  const edits = at === null ? told : placementEdits(roomId, section, { [moment]: at });
  if (edits.length > 0) await act(edits);
}

/**
 * These sections were in place at one moment, in one step to undo. What was told of no section that there is now, as of
 * the whole bed before it had any, is told by them from now on.
 */
export async function placeSections(roomId: string, sections: readonly SectionPlace[], at: string): Promise<void> {
  const known = planOf(roomId).peek().plan?.sections ?? sections;
  const loose = placementsOf(roomId).peek().filter(({ fields }) => fields.placed_at && sectionIdOf(fields, known) === null);
  const edits = sections.flatMap((section) => placementEdits(roomId, section, { placed_at: at }));
  if (edits.length > 0) await act([...edits, ...loose.map(({ id }): Edit<"placement"> => ({ kind: "placement", id, fields: { placed_at: null } }))]);
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
