/** What one tap does to a batch and to its section together: one step to undo. */
import { uuidv7 } from "uuidv7";
import type { Edit, Fields } from "../wire";
import { act } from "./actions";
import { placementsOf } from "./records";

/** A batch is in place now, in that section; where it was the last that the section takes, the section is in place too. */
export async function placeBatch(roomId: string, batch: string, section: string | null, isLast: boolean): Promise<void> {
  const placed_at = new Date().toISOString();
  const placed: Edit<"batch"> = { kind: "batch", id: batch, fields: { placed_at, ...(section === null ? {} : { section }) } };
  const whole = isLast && section !== null ? [placementEdit(roomId, section, { placed_at })] : [];
  await act([placed, ...whole]);
}

/** A section is cut off now; one that nobody called in place is in place by that. */
export async function cutOffSection(roomId: string, section: string): Promise<void> {
  const screeded_at = new Date().toISOString();
  const before = placementOf(roomId, section)?.fields.placed_at;
  await act([placementEdit(roomId, section, { screeded_at, ...(before ? {} : { placed_at: screeded_at }) })]);
}

function placementOf(roomId: string, section: string) {
  return placementsOf(roomId).peek().filter(({ fields }) => fields.section === section).at(-1); // what the newest says holds
}

function placementEdit(roomId: string, section: string, fields: Fields<"placement">): Edit<"placement"> {
  const known = placementOf(roomId, section);
  return known ? { kind: "placement", id: known.id, fields } : { kind: "placement", id: uuidv7(), fields: { room_id: roomId, section, ...fields } };
}
