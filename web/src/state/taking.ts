/** Many readings at once, from a table or a scan: all of them with their set-up, or none; one undo takes them back. */
import { uuidv7 } from "uuidv7";
import type { Edit, Setup } from "../wire";
import { act, type ActionOptions, type NewReading } from "./actions";
import { peekRow } from "./records";
import type { Source } from "./setups";

/** `instrument` says that nobody stood there. */
export type TakenSetup = Omit<Setup, "id" | "instrument"> & { readonly instrument: Source };
export type TakenReading = Omit<NewReading, "setup">;

/**
 * Adds one set-up and everything read from it in one transaction. `taken_at` is now unless given. Returns how many
 * readings were taken; none where there is nothing to take, and then no set-up either.
 */
export async function takeReadings(
  roomId: string,
  setup: TakenSetup,
  readings: readonly TakenReading[],
  options?: ActionOptions,
): Promise<number> {
  if (readings.length === 0) return 0;
  const standing: Setup = { ...setup, id: uuidv7() };
  const now = new Date().toISOString();
  const made = readings.map((reading): Edit<"reading"> => ({
    kind: "reading",
    id: uuidv7(),
    fields: { taken_at: now, ...reading, setup: standing.id, room_id: roomId },
  }));
  const setups = [...(peekRow("room", roomId)?.fields.setups ?? []), standing];
  const room: Edit<"room"> = { kind: "room", id: roomId, fields: { setups } };
  await act([room, ...made], options);
  return made.length;
}
