/** The walls walked so far, kept as a draft until the figure is closed. */
import { walkOf, type TapedWall } from "../../drawing/figure";
import { clearDraft, getDraft, setDraft } from "../../state";

export interface WalkedWall extends TapedWall {
  readonly typed: string;
}

export function walkDraft(room: string): string {
  return `walls:${room}`;
}

/** The walls in the draft; none where nothing was begun. */
export function wallsFromDraft(text: string | undefined): readonly WalkedWall[] {
  return text === undefined ? [] : (JSON.parse(text) as readonly WalkedWall[]);
}

export function walkedWalls(room: string): readonly WalkedWall[] {
  return wallsFromDraft(getDraft(walkDraft(room)));
}

export function keepWalls(room: string, walls: readonly WalkedWall[]): void {
  void (walls.length === 0 ? clearDraft(walkDraft(room)) : setDraft(walkDraft(room), JSON.stringify(walls)));
}

/** A turn between a half turn right and a half turn left, degrees. */
export function tidyTurn(degrees: number): number {
  const turn = ((((degrees + 180) % 360) + 360) % 360) - 180;
  return turn === -180 ? 180 : turn;
}

/** The walls with the last turn set so that the walk faces the way it began: the figure is whole. */
export function closedWalls(walls: readonly TapedWall[]): readonly TapedWall[] {
  const last = walls.at(-1);
  if (!last) return [];
  const before = walkOf(walls.slice(0, -1)).heading;
  return [...walls.slice(0, -1), { length: last.length, turn: tidyTurn(-before) }].map(({ length, turn }) => ({ length, turn }));
}

/** What was typed for each wall, beside the number it became. */
export function typedWalls(walls: readonly WalkedWall[]): Readonly<Record<string, string>> {
  return Object.fromEntries(walls.map(({ typed }, index) => [`outline.walls.${index}`, typed]));
}
