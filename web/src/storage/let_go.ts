/** Undo, less the steps that would write a field of an earlier version (see `wire/letGo.ts`). */
import { withoutLetGo, type Edit, type UndoStep } from "../wire";

/** Steps that would write such a field have nothing to set back any more. */
export function undoWithoutLetGo(steps: readonly UndoStep[]): readonly UndoStep[] {
  return steps.filter(({ inverse }) => inverse.every(isOfToday));
}

function isOfToday({ kind, fields }: Edit): boolean {
  return withoutLetGo(kind, fields) === fields;
}
