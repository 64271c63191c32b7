/** Tops of bed that are thought of for a room, side by side; one of them is chosen, by somebody at some time. */
import { uuidv7 } from "uuidv7";
import type { Edit, Fields, Row, Top } from "../wire";
import { act, edit, type ActionOptions } from "./actions";
import { alternativesOf, peekRow, roomOf } from "./records";
import { session } from "./status";
import { textOf } from "./undo";

/** The new alternative's id. Nothing is chosen by it. */
export async function addAlternative(roomId: string, alternative: { readonly name: string; readonly top: Top; readonly note?: string }, options?: ActionOptions): Promise<string> {
  const id = uuidv7();
  const made: Edit<"alternative"> = { kind: "alternative", id, fields: { ...alternative, room_id: roomId } };
  await act([made], options);
  return id;
}

export function editAlternative(id: string, fields: Fields<"alternative">, options?: ActionOptions): Promise<void> {
  return edit("alternative", id, fields, options);
}

/** The room gets this top, and the alternative the time and the name of whoever decided: both or neither, one step to undo. */
export async function chooseAlternative(id: string): Promise<void> {
  const { room_id: roomId, top } = peekRow("alternative", id)?.fields ?? {};
  if (!roomId || !top) throw new Error(`No alternative ${id} with a top to choose.`);
  const chosen: Edit<"room"> = { kind: "room", id: roomId, fields: { "bed.top": top } };
  const decided = { chosen_at: new Date().toISOString(), chosen_by: session.peek().person };
  const decision: Edit<"alternative"> = { kind: "alternative", id, fields: decided };
  await act([chosen, decision]);
}

/** A top decided at once: kept beside the others under its name, and the room's from now on. One step to undo. */
export async function decideTop(roomId: string, { name, top }: { readonly name: string; readonly top: Top }, options?: ActionOptions): Promise<void> {
  const chosen: Edit<"room"> = { kind: "room", id: roomId, fields: { "bed.top": top } };
  const decided = { chosen_at: new Date().toISOString(), chosen_by: session.peek().person };
  const made: Edit<"alternative"> = { kind: "alternative", id: uuidv7(), fields: { room_id: roomId, name, top, ...decided } };
  await act([chosen, made], options);
}

/**
 * The decision that holds: of the alternatives whose top is the room's, the one chosen last. Undefined where none was
 * chosen, or where the room got another top since. Subscribes.
 */
export function decisionOf(roomId: string): Row<"alternative"> | undefined {
  const top = roomOf(roomId)?.fields["bed.top"];
  const standing = alternativesOf(roomId).value.filter(({ fields }) => fields.chosen_at && top && textOf(fields.top) === textOf(top));
  return standing.sort((a, b) => Date.parse(a.fields.chosen_at ?? "") - Date.parse(b.fields.chosen_at ?? "")).at(-1);
}
