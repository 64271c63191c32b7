/** A room's figure as recorded, for the drawing: at once, without waiting for the engine. */
import { closedFigure, wallAt } from "../../drawing/figure";
import type { Place } from "../../drawing/camera";
import type { Scene, SceneDoorway, SceneFixture } from "../../drawing/scene";
import { EMPTY_SCENE } from "../../drawing/scene";
import type { Fields, Opening, Outline } from "../../wire";
import { lengthText } from "../../units";
import { reader, t } from "../../words";

export type RoomFields = Fields<"room">;

/** The corners of a recorded outline; none where there is no outline. */
export function cornersOf(outline: Outline | null | undefined): readonly Place[] {
  if (outline?.vertices) return outline.vertices;
  return outline?.walls ? closedFigure(outline.walls) : [];
}

export function wallLengths(corners: readonly Place[]): readonly number[] {
  return corners.map((from, index) => {
    const to = corners[(index + 1) % corners.length] ?? from;
    return Math.hypot(to[0] - from[0], to[1] - from[1]);
  });
}

/** The lengths people taped where they taped walls, else those of the figure. */
export function tapedLengths(outline: Outline | null | undefined): readonly number[] {
  return outline?.walls ? outline.walls.map(({ length }) => length) : wallLengths(cornersOf(outline));
}

function doorwayOf(corners: readonly Place[], opening: Opening): SceneDoorway | null {
  const wall = wallAt(corners, opening.wall);
  if (!wall) return null;
  const [[ax, ay], [bx, by]] = wall;
  const long = Math.hypot(bx - ax, by - ay) || 1;
  const at = (along: number): Place => [ax + ((bx - ax) * along) / long, ay + ((by - ay) * along) / long];
  return { id: opening.id, from: at(opening.from), to: at(opening.to), isExit: opening.exit === true };
}

function fixturesOf(room: RoomFields): readonly SceneFixture[] {
  return (room.fixtures ?? []).map(({ id, at, kind, radius }) => ({ id, at, kind, radius: radius ?? 0 }));
}

/** The room alone: walls with their lengths, doorways, cutouts, fixtures. */
export function roomScene(room: RoomFields): Scene {
  const corners = cornersOf(room.outline);
  return {
    ...EMPTY_SCENE,
    outline: corners,
    cutouts: room.outline?.cutouts ?? [],
    doorways: (room.openings ?? []).map((opening) => doorwayOf(corners, opening)).filter((door) => door !== null),
    fixtures: fixturesOf(room),
    wallLabels: tapedLengths(room.outline).map((length) => lengthText(length, reader.value)),
    spoken: t("drawing.spoken", { name: room.name ?? "", walls: corners.length }),
  };
}

/** The same without the walls' lengths: for drawings that say something else. */
export function bareScene(room: RoomFields): Scene {
  return { ...roomScene(room), wallLabels: [] };
}

/** Where a place lies, told from the two nearest walls' sides of the drawing: across and up from the room's low corner. */
export function placeText(at: Place): string {
  return t("place", { x: at[0], y: at[1] });
}
