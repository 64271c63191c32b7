/** Under the thumb, whatever is in sight above it: the height, and what becomes of a top that is tried. */
import { useRef } from "preact/hooks";
import { decideTop } from "../../state";
import type { Top } from "../../wire";
import { t } from "../../words";
import { saved } from "../common/saving";
import type { RoomView } from "../common/useRoom";
import { Decision, KeepBeside } from "./Alternatives";
import { Height } from "./Height";
import { heightOfTop, isGiven, lowestTop, movedTop } from "./moved";
import { topName } from "./names";
import { endTrial, trialDraft } from "./trial";
import type { Trial } from "./useTrial";

interface DeckProps {
  readonly room: RoomView;
  readonly trial: Trial;
}

/** Where the slider lies: about the lowest level top; for others where they stood when they came under the thumb. */
function useMiddle({ plan }: RoomView, top: Top, height: number | null): number {
  const kept = useRef<{ readonly shape: string; readonly at: number } | null>(null);
  const shape = top.kind === "to_drain" ? `${top.drain} ${top.fall}` : top.kind;
  if (height !== null && kept.current?.shape !== shape) kept.current = { shape, at: height };
  if (top.kind === "level" && plan) return plan.surface.highest.z + plan.bed.minimum_thickness;
  return kept.current?.at ?? 0;
}

function Moving({ room, trial }: DeckProps) {
  const { top, now, onTop } = trial;
  const height = heightOfTop(top, now?.bed ?? null);
  const middle = useMiddle(room, top, height);
  if (height === null && movedTop(top, 0, 0) === null) return null;
  const lowest = lowestTop(top);
  const onHeight = (to: number) => { const moved = movedTop(top, height ?? to, to); if (moved) onTop(moved); };
  return <Height name={`${room.id}:top-height`} height={height} middle={middle} isLowest={!isGiven(top)} onLowest={lowest && (() => onTop(lowest))} onHeight={onHeight} />;
}

/** A top that makes no bed cannot be taken; one that the engine has not told of yet can. */
function Becomes({ room, trial }: DeckProps) {
  const { top, now, problems } = trial;
  const isBarred = problems.length > 0;
  const take = () => void saved(decideTop(room.id, { name: topName(top, now?.bed ?? null), top }, trialDraft(room.id)));
  return (
    <>
      <button type="button" class="button" data-testid="drop-trial" onClick={() => void endTrial(room.id)}>{t("trial.back")}</button>
      <KeepBeside room={room.id} top={top} bed={now?.bed ?? null} disabled={isBarred} />
      <button type="button" class="button main" disabled={isBarred} data-testid="take-top" onClick={take}>{t("trial.take")}</button>
    </>
  );
}

export function Deck({ room, trial }: DeckProps) {
  return (
    <div class="deck">
      <Moving room={room} trial={trial} />
      <div class="deck-row becomes">{trial.isTried ? <Becomes room={room} trial={trial} /> : <Decision room={room.id} />}</div>
    </div>
  );
}
