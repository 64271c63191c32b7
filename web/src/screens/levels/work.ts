/** The work at hand on the levels: from where one reads, whether that is tied, and the round of places. */
import { firstPlaces, gridPlaces } from "../../drawing/firstPlaces";
import type { Place } from "../../drawing/camera";
import { getDraft, patternOf, setupsIn, standingIn, tiedSetups, type Standing } from "../../state";
import type { Setup } from "../../wire";
import { cornersOf, type RoomFields } from "../common/roomFigure";
import type { RoomView } from "../common/useRoom";
import { readingDraft, roundOf, targetDraft, targetFromDraft, tiesOf, type Round, type RoundGiven, type Target } from "./round";

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

/** Where the rod goes while the engine has not answered: corners and walls, and a plain grid after them. */
function ownPlaces({ outline }: RoomFields): { readonly first: readonly Place[]; readonly then: readonly Place[] } {
  const corners = cornersOf(outline);
  return { first: firstPlaces(corners, outline?.cutouts ?? []), then: gridPlaces(corners, outline?.cutouts ?? []) };
}

function begunIn(room: RoomView, places: readonly Place[]): Place | null {
  return places.find((place) => (getDraft(readingDraft(room.id, { place })) ?? "") !== "") ?? null;
}

/** The engine's places in their order; without them there is always one more to read until the grid is full. */
function walkIn(room: RoomView, given: Omit<RoundGiven, "proposed" | "begun">): Round {
  const pattern = patternOf(room.id).value;
  const { first, then } = ownPlaces(room.fields);
  const round = (proposed: readonly Place[]) => roundOf({ ...given, proposed, begun: begunIn(room, [...proposed, ...first, ...then]) });
  if (pattern) return round(pattern.map(({ at }) => at));
  const begun = round(first);
  return begun.left.length > 0 ? begun : round([...first, ...then]);
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
  const round = walkIn(room, { fields, readings, taking, chosen: chosenIn(room), ties });
  return { room, round, standing, setups, tied, isUntied, ties };
}
