/** Filling: batches, sections, stoppages, and the room's day book. Each tap is a record of its own, with its time. */
import { uuidv7 } from "uuidv7";
import type { Edit, EntryWhat, Fields, Row } from "../wire";
import { act, addPlacement, edit, editPlacement, type ActionOptions } from "./actions";
import { entriesOf, placementsOf } from "./records";

export type SectionMoment = "mixed_at" | "placed_at" | "screeded_at" | "channels_at";

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

/** A section reached a point of its filling just now, or at a time told; null takes it back. */
export async function markSection(roomId: string, section: string, moment: SectionMoment, at: string | null = now()): Promise<void> {
  const known = placementsOf(roomId).peek().find(({ fields }) => fields.section === section);
  if (known) await editPlacement(known.id, { [moment]: at });
  else await addPlacement(roomId, { section, [moment]: at });
}

type NewEntry = Omit<Fields<"entry">, "room_id" | "deleted" | "what"> & { readonly what: EntryWhat };

/** A line in the day book, at this moment unless told. */
export async function addEntry(roomId: string, entry: NewEntry, options?: ActionOptions): Promise<string> {
  const id = uuidv7();
  const made: Edit<"entry"> = { kind: "entry", id, fields: { at: now(), ...entry, room_id: roomId } };
  await act([made], options);
  return id;
}

export function editEntry(id: string, fields: Fields<"entry">, options?: ActionOptions): Promise<void> {
  return edit("entry", id, fields, options);
}

/** What lasts now: the stoppage, or the helper's stay. Undefined where none does. Subscribes. */
export function lasting(roomId: string, what: "stopped" | "helper"): Row<"entry"> | undefined {
  return entriesOf(roomId).value.filter(({ fields }) => fields.what === what && !fields.until).at(-1);
}

/** Ends what lasts. */
export function endEntry(id: string): Promise<void> {
  return editEntry(id, { until: now() });
}

function now(): string {
  return new Date().toISOString();
}
