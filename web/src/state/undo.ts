/** One undo everywhere: every action leaves the edits that would take it back, kept across reloads. */
import { computed, signal } from "@preact/signals";
import type { Edit, Fields, Kind, UndoStep } from "../wire";
import { peekRow, rowOf } from "./records";

const MOST_STEPS = 100;

export const undoSteps = signal<readonly UndoStep[]>([]);
export const canUndo = computed(() => undoSteps.value.some(canTakeBack));

/** Whether every record that a step would set back is on this phone. Subscribes a component to those records. */
export function canTakeBack(step: UndoStep): boolean {
  return step.inverse.every(({ kind, id }) => rowOf(kind, id) !== undefined);
}

export function withStep(steps: readonly UndoStep[], step: UndoStep): readonly UndoStep[] {
  return [...steps, step].slice(-MOST_STEPS);
}

/** The edit that restores what `edit` is about to change; a new record is taken back by deleting it. */
export function inverseOf<K extends Kind>(edit: Edit<K>): Edit<K> {
  const before = peekRow(edit.kind, edit.id)?.fields;
  if (before === undefined) return { ...edit, fields: { deleted: true } as Fields<K> };
  const names = Object.keys(edit.fields) as (keyof Fields<K>)[];
  const restored = names.map((name) => [name, before[name] ?? emptied(name)]);
  return { ...edit, fields: Object.fromEntries(restored) as Fields<K> };
}

/** A record that was never deleted carries no `deleted`; every other absent field is emptied. */
function emptied(name: PropertyKey): false | null {
  return name === "deleted" ? false : null;
}
