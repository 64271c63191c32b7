/** Where the height of a contour is written: along its line, clear of the walls, of readings and of other labels. */
import { distance, type Place } from "./camera";
import type { Project } from "./Ground";
import { fittingLabels, hasRoom, type Label } from "./labels";
import { isOnFloor } from "./figure";
import type { Scene, SceneLine } from "./scene";

export interface ContourLabel {
  readonly text: string;
  readonly at: Place;
  /** Degrees clockwise on the screen, so that the text runs along the line and stands upright. */
  readonly turn: number;
}

const SIZE = 11;
const TRIES = [0.5, 0.3, 0.7, 0.15, 0.85]; // shares of a line's length, the middle first
const LEAST_LINE = 46; // px: a shorter line has no room for its height
const RANK = 20; // after every label of a point

interface Candidate extends ContourLabel {
  /** The text cut in pieces along its own way: a turned text takes the room of its pieces, not of the box around it. */
  readonly pieces: readonly Label[];
}

const PIECE = 2; // characters

function piecesOf(text: string, at: Place, turn: number, contour: number): readonly Label[] {
  const count = Math.ceil(text.length / PIECE);
  const angle = (turn * Math.PI) / 180;
  return Array.from({ length: count }, (_, index): Label => {
    const off = (index - (count - 1) / 2) * PIECE * SIZE * 0.56;
    return { id: `${contour}:${index}`, text: "0".repeat(PIECE), at: [at[0] + off * Math.cos(angle), at[1] + off * Math.sin(angle)], size: SIZE, rank: RANK };
  });
}

function lengthOf(line: readonly Place[]): number {
  return line.slice(1).reduce((sum, to, index) => sum + distance(line[index] ?? to, to), 0);
}

/** The place a share of the way along a line, and the way the line runs there. */
function along(line: readonly Place[], share: number): readonly [Place, Place] | null {
  let left = lengthOf(line) * share;
  for (const [index, to] of line.slice(1).entries()) {
    const from = line[index] ?? to;
    const step = distance(from, to);
    if (left <= step && step > 0) return [[from[0] + ((to[0] - from[0]) * left) / step, from[1] + ((to[1] - from[1]) * left) / step], [to[0] - from[0], to[1] - from[1]]];
    left -= step;
  }
  return null;
}

function uprightTurn([dx, dy]: Place): number {
  const turn = (Math.atan2(dy, dx) * 180) / Math.PI;
  return turn > 90 ? turn - 180 : turn < -90 ? turn + 180 : turn;
}

function candidatesOf(scene: Scene, { label, lines }: SceneLine, contour: number, project: Project): readonly Candidate[] {
  const long = [...lines].sort((a, b) => lengthOf(b) - lengthOf(a)).slice(0, 2);
  const drawn = long.map((line) => ({ line, onScreen: line.map(project) })).filter(({ onScreen }) => lengthOf(onScreen) >= LEAST_LINE);
  return drawn.flatMap(({ line, onScreen }) => TRIES.flatMap((share): readonly Candidate[] => {
    const [here, inRoom] = [along(onScreen, share), along(line, share)];
    if (!here || !inRoom || !isOnFloor(scene.outline, scene.cutouts, inRoom[0])) return [];
    const [at, way] = here;
    const turn = uprightTurn(way);
    return [{ text: label, at, turn, pieces: piecesOf(label, at, turn, contour) }];
  }));
}

/** At most one label a contour; `taken` are labels that stand already, `symbols` what must stay visible. */
export function contourLabels(scene: Scene, project: Project, taken: readonly Label[], symbols: readonly Place[]): readonly ContourLabel[] {
  return scene.contours.reduce<readonly Candidate[]>((kept, contour, index) => {
    const standing = [...taken, ...kept.flatMap(({ pieces }) => pieces)];
    const fitting = fittingLabels(standing, symbols);
    const written = standing.filter(({ id }) => fitting.has(id));
    const free = candidatesOf(scene, contour, index, project).find(({ pieces }) => pieces.every((piece) => hasRoom(piece, written, symbols)));
    return free ? [...kept, free] : kept;
  }, []);
}
