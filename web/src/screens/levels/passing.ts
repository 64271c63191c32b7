/** Places passed over: on the subfloor the room remembers them for everybody, on the bed this phone does for its round. */
import { clearDraft, getDraft, readSkipped, setDraft, skipPlace } from "../../state";
import type { Place } from "../../drawing/camera";
import type { Stage } from "../../wire";
import type { RoomView } from "../common/useRoom";

function passedDraft(room: string): string {
  return `passed:${room}:bed`;
}

export function passedIn({ id, fields }: RoomView, stage: Stage): readonly Place[] {
  if (stage === "subfloor") return fields["levels.skipped"] ?? [];
  return JSON.parse(getDraft(passedDraft(id)) ?? "[]") as readonly Place[];
}

export function pass(room: RoomView, stage: Stage, place: Place): Promise<void> {
  return stage === "subfloor" ? skipPlace(room.id, place) : setDraft(passedDraft(room.id), JSON.stringify([...passedIn(room, stage), place]));
}

/** All that were passed over are to be read after all. */
export function takeUp(room: RoomView, stage: Stage): Promise<void> {
  return stage === "subfloor" ? readSkipped(room.id) : clearDraft(passedDraft(room.id));
}
