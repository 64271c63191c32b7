/** Edits that met without knowing of each other: listed until somebody decides, with or without a network. */
import { computed, type ReadonlySignal } from "@preact/signals";
import type { Conflict, Edit, Kind, Row } from "../wire";
import { act, edit } from "./actions";
import { people } from "./people";
import { allRows, isDeleted, peekRow } from "./records";
import { isForeman } from "./status";

export interface OpenConflict {
  readonly kind: Kind;
  readonly id: string;
  readonly field: string;
  /** What stands, and holds until somebody decides otherwise. Who set it, and when, is in the record's history. */
  readonly standing: { readonly value: unknown };
  /** What lost against it, oldest first. */
  readonly others: readonly Lost[];
}

/** With the name of the device, where this phone knows its name. */
export type Lost = Conflict & { readonly device_name?: string };

/**
 * Every field that waits for a decision, by record in order of their making. Not what this person may not decide, and
 * of a deleted record only whether it is to stay so.
 */
export const openConflicts: ReadonlySignal<readonly OpenConflict[]> = computed(() =>
  allRows()
    .flatMap(conflictsOfRow)
    .filter((one) => isForeman.value || !isForemans(one))
    .sort((a, b) => (a.id + a.field < b.id + b.field ? -1 : 1)),
);

function isForemans({ kind, field }: OpenConflict): boolean {
  return field === "crew" || kind === "prices" || kind === "supplies";
}

function conflictsOfRow(row: Row): readonly OpenConflict[] {
  const open = Object.entries(row.conflicts).filter(([field]) => field === "deleted" || !isDeleted(row));
  return open.map(([field, others]) => ({
    kind: row.kind,
    id: row.id,
    field,
    standing: { value: valueOf(row, field) },
    others: others.map(withDevice),
  }));
}

function withDevice(conflict: Conflict): Lost {
  const devices = people.value?.list.flatMap((person) => person.devices) ?? [];
  const device = devices.find(({ id }) => id === conflict.device_id);
  return device === undefined ? conflict : { ...conflict, device_name: device.name };
}

function valueOf(row: Row | undefined, field: string): unknown {
  return (row?.fields as Readonly<Record<string, unknown>> | undefined)?.[field] ?? null;
}

/** Decides for what stands: the same value is written again, now knowing of the others. There is nothing to undo. */
export async function keepStanding(kind: Kind, id: string, field: string): Promise<void> {
  await act([editOf(kind, id, field, valueOf(peekRow(kind, id), field))], { undoable: false });
}

/** Decides for one that lost. `undo` brings back what stood before, and the decision stays made. */
export function takeOther(kind: Kind, id: string, field: string, conflict: Conflict): Promise<void> {
  return restoreValue(kind, id, field, conflict.value);
}

/** Gives a field an earlier value again: an edit like any other. */
export function restoreValue(kind: Kind, id: string, field: string, value: unknown): Promise<void> {
  const { fields } = editOf(kind, id, field, value);
  return edit(kind, id, fields);
}

function editOf(kind: Kind, id: string, field: string, value: unknown): Edit {
  return { kind, id, fields: { [field]: value } };
}
