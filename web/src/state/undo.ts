/** One undo everywhere: every action leaves the edits that would take it back, kept across reloads. */
import { computed, signal } from "@preact/signals";
import type { Edit, Fields, Kind, UndoStep } from "../wire";
import { peekRow, rowOf } from "./records";

const MOST_STEPS = 100;

export const undoSteps = signal<readonly UndoStep[]>([]);
export const canUndo = computed(() => undoSteps.value.some(canTakeBack));

/**
 * Whether every record that a step would set back is on this phone, and still holds what the action wrote: a colleague's
 * later value is not undone. Subscribes a component to those records.
 */
export function canTakeBack({ inverse, written = [] }: UndoStep): boolean {
  return inverse.every(({ kind, id }) => rowOf(kind, id) !== undefined) && written.every(stands);
}

function stands({ kind, id, fields }: Edit): boolean {
  const shown: Readonly<Record<string, unknown>> = { ...rowOf(kind, id)?.fields };
  return Object.entries(fields).every(([name, value]) => textOf(shown[name]) === textOf(value));
}

/** The same text for the same value, in whatever order the office names its parts; what is absent is empty. */
export function textOf(value: unknown): string {
  return JSON.stringify(value ?? null, (_, part: unknown) => (isObject(part) ? inOrder(part) : part));
}

function isObject(part: unknown): part is object {
  return typeof part === "object" && part !== null && !Array.isArray(part);
}

function inOrder(part: object): object {
  return Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)));
}

export function withStep(steps: readonly UndoStep[], step: UndoStep): readonly UndoStep[] {
  return [...steps, step].slice(-MOST_STEPS);
}

/** The edit that restores what `edit` is about to change; a new record of one's own is taken back by deleting it. */
export function inverseOf<K extends Kind>(edit: Edit<K>): Edit<K> {
  const before = peekRow(edit.kind, edit.id)?.fields;
  if (before === undefined && !isCompanys(edit.kind)) return { ...edit, fields: { deleted: true } as unknown as Fields<K> };
  const names = Object.keys(edit.fields) as (keyof Fields<K>)[];
  const restored = names.map((name) => [name, before?.[name] ?? emptied(name)]);
  return { ...edit, fields: Object.fromEntries(restored) as Fields<K> };
}

/** Other phones write the same record: taking back one's first value must not take away theirs. */
function isCompanys(kind: Kind): boolean {
  return kind === "prices" || kind === "supplies";
}

/** A record that was never deleted carries no `deleted`; every other absent field is emptied. */
function emptied(name: PropertyKey): false | null {
  return name === "deleted" ? false : null;
}
