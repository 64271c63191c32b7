/** Doing what a person asked: what could not be saved is said on the save line, and what was typed stays typed. */
import { NotSavedError } from "../../state";

/** Runs an action; true once it is saved on this phone, false where it was not (the save line says why). */
export async function saved(action: Promise<unknown>): Promise<boolean> {
  try {
    await action;
    return true;
  } catch (error) {
    if (error instanceof NotSavedError) return false;
    throw error;
  }
}
