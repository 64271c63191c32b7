/**
 * The one place where the height is decided: a top is tried, what it makes of everything is shown at once beside what
 * holds, and nothing holds until somebody takes it.
 */
import { decideTop, editRoom, seesMoney } from "../../state";
import type { Bed, Plan, Top } from "../../wire";
import { t } from "../../words";
import { saved } from "../common/saving";
import type { RoomFields } from "../common/roomFigure";
import type { RoomView } from "../common/useRoom";
import { Decision, KeepBeside } from "./Alternatives";
import { Effects } from "./Effects";
import { designedFrom, type Designed } from "./effects";
import { Height } from "./Height";
import { Conflicts } from "./kinds/Conflicts";
import { DrainForm } from "./kinds/DrainForm";
import { Governs } from "./kinds/Governs";
import { KindChoice } from "./kinds/KindChoice";
import { LeastForm } from "./kinds/LeastForm";
import { isConflict, type Relief } from "./kinds/relief";
import { ThroughForm } from "./kinds/ThroughForm";
import { TwoLevelForm } from "./kinds/TwoLevelForm";
import { heightOfTop, isGiven, lowestTop, movedTop } from "./moved";
import { topName } from "./names";
import { TopProblems } from "./TopProblems";
import { endTrial, LOWEST, setTrial, trialDraft, trialOf } from "./trial";
import { useBed, type BedState } from "./useBed";

interface EditorProps {
  readonly room: RoomView;
  readonly top: Top;
  readonly height: number;
  /** Thickness of what lies on the bed, mm. */
  readonly cover: number;
  readonly onTop: (top: Top) => void;
}

function Editor({ room, top, height, cover, onTop }: EditorProps) {
  const { id, fields } = room;
  if (top.kind === "least_mortar") return <LeastForm id={id} room={fields} top={top} finished={height + cover} onTop={onTop} />;
  if (top.kind === "to_drain") return <DrainForm id={id} room={fields} top={top} onTop={onTop} />;
  if (top.kind === "two_levels") return <TwoLevelForm id={id} room={fields} top={top} onTop={onTop} />;
  return top.kind === "plane" ? <ThroughForm id={id} room={fields} top={top} height={() => height} onTop={onTop} /> : null;
}

function coverOf(fields: RoomFields): number {
  return (fields["bed.covering.tile_thickness"] ?? 0) + (fields["bed.covering.bond_thickness"] ?? 0);
}

function Lowest({ top, onTop }: { top: Top; onTop: (top: Top) => void }) {
  const lowest = lowestTop(top);
  if (lowest === null) return null;
  return <button type="button" class="button wide" aria-pressed={!isGiven(top)} data-testid="top-lowest" onClick={() => onTop(lowest)}>{t("bed.lowest")}</button>;
}

function Buttons({ room, top, bed, problems }: { room: RoomView; top: Top; bed: Bed | null; problems: boolean }) {
  const take = () => void saved(decideTop(room.id, { name: topName(top, bed), top }, trialDraft(room.id)));
  return (
    <div class="stack tight">
      <button type="button" class="button main wide" disabled={problems} data-testid="take-top" onClick={take}>{t("trial.take")}</button>
      <div class="given-answers">
        <KeepBeside room={room.id} top={top} bed={bed} disabled={problems} />
        <button type="button" class="button" data-testid="drop-trial" onClick={() => void endTrial(room.id)}>{t("trial.back")}</button>
      </div>
    </div>
  );
}

interface OutcomeProps {
  readonly room: RoomView;
  readonly top: Top;
  readonly tried: BedState;
  readonly chosen: Designed | null;
  readonly isTrial: boolean;
  readonly onRelief: (relief: Relief) => void;
}

function Outcome({ room, top, tried, chosen, isTrial, onRelief }: OutcomeProps) {
  const problems = isTrial ? tried.problems : room.state.problems;
  const now: Designed | null = isTrial ? tried.design : chosen;
  return (
    <>
      <Conflicts problems={problems} top={top} onRelief={onRelief} />
      <TopProblems problems={isTrial ? problems.filter((problem) => !isConflict(problem)) : []} />
      {now && <Effects now={now} before={isTrial ? chosen : null} withMoney={seesMoney.value} />}
      {now && <Governs requirements={now.bed.requirements} />}
    </>
  );
}

export function Deciding({ room, plan }: { room: RoomView; plan: Plan | null }) {
  const trial = trialOf(room.id);
  const top = trial ?? room.fields["bed.top"] ?? LOWEST;
  const tried = useBed(room.id, "trial", trial);
  const bed = (trial ? tried.design?.bed : plan?.bed) ?? plan?.bed ?? null;
  const height = heightOfTop(top, bed);
  const begin = height ?? plan?.bed.top[0]?.a ?? 0;
  const onTop = (next: Top) => void setTrial(room.id, next);
  const onHeight = (to: number) => { const moved = height === null ? null : movedTop(top, height, to); if (moved) onTop(moved); };
  const onRelief = ({ "bed.top": eased, ...limits }: Relief) => {
    if (eased) onTop(eased);
    if (Object.keys(limits).length > 0) void saved(editRoom(room.id, limits));
  };
  const middle = plan ? plan.surface.highest.z + plan.bed.minimum_thickness : begin;
  return (
    <section class="stack tight" data-testid="deciding">
      {!trial && <Decision room={room.id} />}
      <KindChoice room={room.fields} kind={top.kind} height={begin} onTop={onTop} />
      <Editor room={room} top={top} height={begin} cover={coverOf(room.fields)} onTop={onTop} />
      <Lowest top={top} onTop={onTop} />
      {height !== null && <Height name={`${room.id}:top-height`} height={height} middle={middle} onHeight={onHeight} />}
      <Outcome room={room} top={top} tried={tried} chosen={plan && designedFrom(plan)} isTrial={trial !== null} onRelief={onRelief} />
      {trial && <Buttons room={room} top={trial} bed={tried.design?.bed ?? null} problems={tried.status === "problems"} />}
    </section>
  );
}
