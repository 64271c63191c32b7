/** What one tap does to a batch and to its section together: one step to undo. */
import type { Edit } from "../wire";
import { act } from "./actions";
import { placementEdits, placementsIn, placeOf, type SectionPlace } from "./sections";

/** A batch is in place now, in that section; where it was the last that the section takes, the section is in place too. */
export async function placeBatch(roomId: string, batch: string, section: SectionPlace | null, isLast: boolean): Promise<void> {
  const placed_at = new Date().toISOString();
  const placed: Edit<"batch"> = { kind: "batch", id: batch, fields: { placed_at, ...(section && placeOf(section)) } };
  const whole = isLast && section !== null ? placementEdits(roomId, section, { placed_at }) : [];
  await act([placed, ...whole]);
}

/** A section is cut off now; one that nobody called in place is in place by that. */
export async function cutOffSection(roomId: string, section: SectionPlace): Promise<void> {
  const screeded_at = new Date().toISOString();
  const isPlaced = placementsIn(roomId, section).some(({ fields }) => fields.placed_at);
  await act(placementEdits(roomId, section, { screeded_at, ...(isPlaced ? {} : { placed_at: screeded_at }) }));
}
