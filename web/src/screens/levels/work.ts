/** The work at hand on the levels: from where one reads, whether that is tied, and the round of places. */
import { firstPlaces } from "../../drawing/firstPlaces";
import type { Place } from "../../drawing/camera";
import { getDraft, patternOf, setupsIn, standingIn, tiedSetups, type Standing } from "../../state";
import type { Setup } from "../../wire";
import { cornersOf } from "../common/roomFigure";
import type { RoomView } from "../common/useRoom";
import { readingDraft, roundOf, targetDraft, targetFromDraft, tiesOf, type Round, type Target } from "./round";

export interface Work {
  readonly room: RoomView;
  readonly round: Round;
  readonly standing: Standing;
  readonly setups: readonly Setup[];
  readonly tied: ReadonlySet<string>;
  /** Whether one stands at a set-up that nothing ties to the others yet. */
  readonly isUntied: boolean;
  readonly ties: readonly Target[];
}

/** The engine's places; until it has answered, the corners and walls of the room. */
function proposedIn(room: RoomView): readonly Place[] {
  const pattern = patternOf(room.id).value;
  return pattern ? pattern.map(({ at }) => at) : firstPlaces(cornersOf(room.fields.outline), room.fields.outline?.cutouts ?? []);
}

function begunIn(room: RoomView, proposed: readonly Place[]): Place | null {
  const corners = firstPlaces(cornersOf(room.fields.outline), room.fields.outline?.cutouts ?? []);
  return [...proposed, ...corners].find((place) => (getDraft(readingDraft(room.id, { place })) ?? "") !== "") ?? null;
}

function isUntiedAt(standing: Standing, { readings }: RoomView, tied: ReadonlySet<string>): boolean {
  return "setup" in standing && readings.length > 0 && !tied.has(standing.setup);
}

function nearTo(standing: Standing, setups: readonly Setup[]): Place | null {
  const setup = "setup" in standing ? setups.find(({ id }) => id === standing.setup) : undefined;
  return setup?.at ?? null;
}

/** The target a person chose, where it is still there to be read. */
function chosenIn({ id, fields, readings }: RoomView): Target | null {
  const target = targetFromDraft(getDraft(targetDraft(id)));
  if (target && "mark" in target) return fields.marks?.some((mark) => mark.id === target.mark) ? target : null;
  if (target && "again" in target) return readings.some((row) => row.id === target.again) ? target : null;
  return target;
}

/** What the levels' screen works with. `taking` are places whose reading is on its way into storage. */
export function workIn(room: RoomView, taking: readonly Place[]): Work {
  const { fields, readings } = room;
  const standing = standingIn(room.id, fields, readings);
  const setups = setupsIn(fields, readings);
  const tied = tiedSetups(fields, readings);
  const isUntied = isUntiedAt(standing, room, tied);
  const ties = isUntied ? tiesOf(readings, fields.marks ?? [], tied, nearTo(standing, setups)) : [];
  const proposed = proposedIn(room);
  const round = roundOf({ fields, readings, proposed, taking, chosen: chosenIn(room), begun: begunIn(room, proposed), ties });
  return { room, round, standing, setups, tied, isUntied, ties };
}
