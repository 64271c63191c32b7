/** Lines and what the plan makes of them: a line may be cut into several rails, or lie outside the floor and be none. */
import { distance } from "../../../drawing/camera";
import type { SceneRail } from "../../../drawing/scene";
import type { Plan, Rail, RailLine } from "../../../wire";

/** The proposal as lines of its own: the rails keep their names, so that what was set stays set where it stands. */
export function linesOfPlan({ rails }: Pick<Plan, "rails">): readonly RailLine[] {
  return rails.map(({ id, from, to }) => ({ id, from, to }));
}

/** The line that a rail of the plan is a part of: its own name, or its name with a number. */
export function lineOfRail(lines: readonly RailLine[], rail: string): RailLine | null {
  return lines.find(({ id }) => id === rail) ?? lines.find(({ id }) => id === rail.replace(/\d+$/, "")) ?? null;
}

/** The rails that the plan made of a line. */
export function railsOfLine(lines: readonly RailLine[], line: RailLine, rails: readonly Rail[]): readonly Rail[] {
  return rails.filter(({ id }) => lineOfRail(lines, id)?.id === line.id);
}

export function lengthOf({ from, to }: Pick<RailLine, "from" | "to">): number {
  return distance(from, to);
}

const SAME = 0.01; // mm

export function isSameLine(one: RailLine, other: RailLine): boolean {
  return one.id === other.id && distance(one.from, other.from) < SAME && distance(one.to, other.to) < SAME;
}

interface Drawn {
  /** As they stand now. */
  readonly lines: readonly RailLine[];
  /** Those that the plan was made of, and its rails. */
  readonly told: readonly RailLine[];
  readonly rails: readonly Rail[];
  /** The line in hand. */
  readonly hand: string | null;
  /** Rails that break something. */
  readonly warned: ReadonlySet<string>;
}

function sceneRail({ id, from, to }: RailLine, rail: Rail | null, isInHand: boolean, warns: boolean): SceneRail {
  const stations = (rail?.stations ?? []).map(({ at }) => ({ at, label: "", state: "waiting" as const }));
  return { id, from, to, isCurrent: isInHand, stations, isInHand, warns };
}

/** Rails for the drawing: as the plan tells them where their line is as it was, else the line itself until the plan comes. */
export function drawnRails({ lines, told, rails, hand, warned }: Drawn): readonly SceneRail[] {
  return lines.flatMap((line): readonly SceneRail[] => {
    const isInHand = line.id === hand;
    const before = told.find(({ id }) => id === line.id);
    const parts = before && isSameLine(before, line) ? railsOfLine(told, line, rails) : [];
    const whole = sceneRail(line, parts.length === 1 ? parts[0] ?? null : null, isInHand, parts.some(({ id }) => warned.has(id)));
    if (isInHand || parts.length === 0) return [whole];
    return parts.map((part) => sceneRail({ id: part.id, from: part.from, to: part.to }, part, false, warned.has(part.id)));
  });
}
