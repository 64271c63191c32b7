/** Readings that look mis-read, less those that the person on this phone said are right. */
import { getDraft, setDraft, type Row } from "../../state";
import type { Plan } from "../../wire";
import type { RoomView } from "../common/useRoom";

export type Suspect = Plan["levels"]["suspects"][number];

function trustedDraft(room: string): string {
  return `trusted:${room}`;
}

function trustedIn(room: string): readonly string[] {
  return JSON.parse(getDraft(trustedDraft(room)) ?? "[]") as readonly string[];
}

/** Of the readings told, those that still count, the newest first. */
export function suspectsIn({ id, plan }: RoomView, readings: readonly Row<"reading">[]): readonly Suspect[] {
  const trusted = new Set(trustedIn(id));
  const counting = new Set(readings.map((row) => row.id));
  const found = plan?.levels.suspects.filter(({ reading }) => counting.has(reading) && !trusted.has(reading)) ?? [];
  return [...found].sort((a, b) => (a.reading < b.reading ? 1 : -1));
}

/** What is read again for a suspect: of a laying's end that touched the floor, the gap under the other end. */
export function againFor({ fields: { setups }, readings }: RoomView, row: Row<"reading">): string {
  const isLaid = setups?.some(({ id, kind }) => id === row.fields.setup && kind === "straightedge") ?? false;
  const other = readings.find(({ id, fields }) => id !== row.id && fields.setup === row.fields.setup);
  return isLaid && row.fields.down === 0 && other ? other.id : row.id;
}

/** Remembers on this phone that a reading is right, so that it is not asked again. */
export function trust(room: string, reading: string): Promise<void> {
  return setDraft(trustedDraft(room), JSON.stringify([...trustedIn(room), reading]));
}
