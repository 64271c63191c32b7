/** The rails' lines as they stand: what was just done counts at once, before it is stored and before the plan comes. */
import { useRef, useState } from "preact/hooks";
import { placeRails } from "../../../state";
import type { Rail, RailLine } from "../../../wire";
import { saved } from "../../common/saving";
import type { RoomView } from "../../common/useRoom";
import { freeName } from "./lines";
import { linesOfPlan } from "./shown";

export interface Lines {
  readonly lines: readonly RailLine[];
  /** The lines that the plan was made of, and the rails it made of them. */
  readonly told: readonly RailLine[];
  readonly rails: readonly Rail[];
  /** True where a person placed them; false for the proposal. */
  readonly isPlaced: boolean;
  /** True while the plan is not yet that of the lines. */
  readonly isAhead: boolean;
  /** One step to undo; nothing where nothing changes. The first one makes the proposal the person's own. */
  readonly change: (to: (lines: readonly RailLine[]) => readonly RailLine[]) => void;
  readonly place: () => void;
  readonly toProposal: () => void;
}

/** Lines without a name come from elsewhere: they get one, as everything here goes by name. */
function named(lines: readonly RailLine[]): readonly RailLine[] {
  return lines.reduce<readonly RailLine[]>((before, line) => [...before, line.id ? line : { ...line, id: freeName([...lines, ...before]) }], []);
}

interface Told {
  readonly lines: readonly RailLine[];
  readonly rails: readonly Rail[];
}

const NOTHING: Told = { lines: [], rails: [] };

export function useLines(room: RoomView): Lines {
  const stored = room.fields["rails.lines"] ?? null;
  const waiting = useRef(0);
  const newest = useRef<readonly RailLine[] | null>(null);
  const [, draw] = useState(0);
  const told = useRef<Told>(NOTHING);
  const proposed = useRef<readonly RailLine[] | null>(null);
  const { plan, state } = room;
  const isTold = plan !== null && state.status === "ready" && waiting.current === 0;
  if (isTold || (plan !== null && stored === null && told.current === NOTHING)) told.current = { lines: stored === null ? linesOfPlan(plan) : named(stored), rails: plan.rails };
  if (isTold && stored === null) proposed.current = told.current.lines;
  const standing = waiting.current > 0 ? newest.current : stored && named(stored);
  const lines = standing ?? (isTold ? null : proposed.current) ?? told.current.lines;
  const keep = async (to: readonly RailLine[] | null) => {
    newest.current = to;
    waiting.current += 1;
    draw((count) => count + 1);
    await saved(placeRails(room.id, to)).finally(() => { waiting.current -= 1; });
    draw((count) => count + 1);
  };
  const change = (to: (lines: readonly RailLine[]) => readonly RailLine[]) => {
    const before = waiting.current > 0 && newest.current ? newest.current : lines;
    const after = to(before);
    if (after !== before) void keep(after);
  };
  return {
    lines, told: told.current.lines, rails: told.current.rails,
    isPlaced: standing !== null, isAhead: !isTold,
    change, place: () => void keep(lines), toProposal: () => void keep(null),
  };
}
