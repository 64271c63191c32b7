/** Doing what a person asked: what could not be saved is said on the save line, and what was typed stays typed. */
import { signal } from "@preact/signals";
import { NotSavedError } from "../../state";

/** True while a viewer is being told that looking is all there is. */
export const onlyLooksSaid = signal(false);

export function sayOnlyLooks(): void {
  onlyLooksSaid.value = true;
}

/** Runs an action; true once it is saved on this phone, false where it was not (the save line, or a sheet, says why). */
export async function saved(action: Promise<unknown>): Promise<boolean> {
  try {
    await action;
    return true;
  } catch (error) {
    if (!(error instanceof NotSavedError)) throw error;
    if (error.reason === "only_looks") sayOnlyLooks();
    return false;
  }
}

/** The same for an edit of the fields that were changed; true at once where none was. */
export async function savedIfAny(fields: object, edit: () => Promise<unknown>): Promise<boolean> {
  return Object.keys(fields).length === 0 || saved(edit());
}
