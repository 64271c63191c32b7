/** The top that is looked at in a room, tried or chosen, and what it makes of the bed. */
import { useRef } from "preact/hooks";
import { mayWrite } from "../../state";
import type { Plan, Problem, Top } from "../../wire";
import { sayOnlyLooks } from "../common/saving";
import type { RoomView } from "../common/useRoom";
import { designedFrom, type Designed } from "./effects";
import { LOWEST, setTrial, trialOf } from "./trial";
import { useBed, type BedState } from "./useBed";

export interface Trial {
  readonly top: Top;
  /** False while the top that is looked at is the chosen one. */
  readonly isTried: boolean;
  /** What the top makes of the bed; null where it makes none, or where that is not known yet. */
  readonly now: Designed | null;
  /** What the chosen top makes of it, to hold against a tried one. */
  readonly before: Designed | null;
  /** Why there is no bed under this top. */
  readonly problems: readonly Problem[];
  /** The engine broke over a tried top. */
  readonly hasFailed: boolean;
  readonly onTop: (top: Top) => void;
}

interface Answered {
  readonly top: string;
  readonly design: Designed;
}

/** A tried top's answer stays in sight until the plan of the top that was taken is there: figures do not jump back. */
function useLastAnswer(trial: Top | null, tried: BedState, room: RoomView): Designed | null {
  const last = useRef<Answered | null>(null);
  if (trial && tried.status === "ready" && tried.design) last.current = { top: JSON.stringify(trial), design: tried.design };
  if (room.state.status === "ready" && !trial) last.current = null;
  return last.current?.top === JSON.stringify(room.fields["bed.top"] ?? LOWEST) ? last.current.design : null;
}

export function useTrial(room: RoomView): Trial {
  const trial = trialOf(room.id);
  const tried = useBed(room.id, "trial", trial);
  const taken = useLastAnswer(trial, tried, room);
  const chosen = room.plan && designedFrom(room.plan);
  const onTop = (top: Top) => { if (mayWrite.value) void setTrial(room.id, top); else sayOnlyLooks(); };
  if (trial === null) return { top: room.fields["bed.top"] ?? LOWEST, isTried: false, now: taken ?? chosen, before: null, problems: room.state.problems, hasFailed: false, onTop };
  const isAsked = tried.status === "asked" || tried.status === "none";
  const now = tried.design ?? (isAsked && tried.problems.length === 0 ? chosen : null);
  return { top: trial, isTried: true, now, before: chosen, problems: tried.problems, hasFailed: tried.status === "failed", onTop };
}

/** The plan as it would be under another bed, as far as a change of top touches it. */
export function planUnder(plan: Plan, now: Designed | null): Plan {
  if (now === null || now.bed === plan.bed) return plan;
  const others = plan.cautions.filter(({ where }) => !where.startsWith("bed."));
  return { ...plan, ...now, cautions: [...now.cautions, ...others], explanations: { ...plan.explanations, ...now.explanations } };
}
