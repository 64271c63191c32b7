/** The work at hand on the levels: from where one reads, whether that is tied, and the round of places. */
import { firstPlaces, gridPlaces } from "../../drawing/firstPlaces";
import type { Place } from "../../drawing/camera";
import { entriesOf, getDraft, patternOf, readingsAt, setupsIn, standingIn, tiedSetups, type Row, type Standing } from "../../state";
import type { Setup, Stage } from "../../wire";
import { cornersOf, type RoomFields } from "../common/roomFigure";
import type { RoomView } from "../common/useRoom";
import { passedIn } from "./passing";
import { readingDraft, roundOf, targetDraft, targetFromDraft, tiesOf, type Round, type RoundGiven, type Target } from "./round";

/** What is read, and where. */
export interface Of {
  readonly stage: Stage;
  /** Places to read in their order; null while nobody has said. */
  readonly proposed: readonly Place[] | null;
  /** Readings that no longer count, as their place was worked over. */
  readonly outdated: ReadonlySet<string>;
  /** Places proposed earlier: a number may have been begun at one of them. */
  readonly before: readonly Place[];
  /** True while the engine works out where to read next. */
  readonly isReckoning: boolean;
}

export interface Work {
  readonly room: RoomView;
  readonly stage: Stage;
  /** Those of the stage, and of marks. */
  readonly readings: readonly Row<"reading">[];
  readonly outdated: ReadonlySet<string>;
  readonly isReckoning: boolean;
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

function begunIn(room: RoomView, stage: Stage, places: readonly Place[]): Place | null {
  return places.find((place) => (getDraft(readingDraft(room.id, stage, { place })) ?? "") !== "") ?? null;
}

/** The engine's places in their order; without them there is always one more to read until the grid is full. */
function walkIn(room: RoomView, { proposed: pattern, before }: Of, given: Omit<RoundGiven, "proposed" | "begun">): Round {
  const { first, then } = ownPlaces(room.fields);
  const round = (proposed: readonly Place[]) => roundOf({ ...given, proposed, begun: begunIn(room, given.stage, [...proposed, ...first, ...then, ...before]) });
  if (pattern) return round(pattern);
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
function chosenIn({ id, fields, readings }: RoomView, stage: Stage): Target | null {
  const target = targetFromDraft(getDraft(targetDraft(id, stage)));
  if (target && "mark" in target) return fields.marks?.some((mark) => mark.id === target.mark) ? target : null;
  if (target && "again" in target) return readings.some((row) => row.id === target.again) ? target : null;
  return target;
}

/** The subfloor, at the places that the engine proposes for its outline. Subscribes. */
export function subfloorIn(room: RoomView): Of {
  return { stage: "subfloor", proposed: patternOf(room.id).value?.map(({ at }) => at) ?? null, outdated: new Set(), before: [], isReckoning: false };
}

/** What a screen that reads works with. `taking` are places whose reading is on its way into storage. */
export function workIn(room: RoomView, of: Of, taking: readonly Place[]): Work {
  const { fields, readings } = room;
  const { stage, outdated, isReckoning } = of;
  const standing = standingIn(room.id, fields, readings);
  const setups = setupsIn(fields, readings);
  const tied = tiedSetups(fields, readings, entriesOf(room.id).value);
  const isUntied = isUntiedAt(standing, room, tied);
  const ties = isUntied ? tiesOf(readings.filter(({ id }) => !outdated.has(id)), stage, fields.marks ?? [], tied, nearTo(standing, setups)) : [];
  const own = readingsAt(readings, stage);
  const counting = own.filter(({ id }) => !outdated.has(id));
  const round = walkIn(room, of, { stage, readings: counting, passed: passedIn(room, stage), taking, chosen: chosenIn(room, stage), ties });
  return { room, stage, readings: own, outdated, isReckoning, round, standing, setups, tied, isUntied, ties };
}
