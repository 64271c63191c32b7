/**
 * The one place where the height is decided: a top is tried, what it makes of everything is shown at once beside the
 * chosen one, and nothing holds until somebody takes it.
 */
import { editRoom } from "../../state";
import { t } from "../../words";
import { Cautions } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import type { RoomFields } from "../common/roomFigure";
import { saved } from "../common/saving";
import type { RoomView } from "../common/useRoom";
import { Deck } from "./Deck";
import { Doorways } from "./Doorways";
import { Effects } from "./Effects";
import { Conflicts } from "./kinds/Conflicts";
import { DrainForm } from "./kinds/DrainForm";
import { Governs } from "./kinds/Governs";
import { KindChoice } from "./kinds/KindChoice";
import { LeastForm } from "./kinds/LeastForm";
import { isConflict, type Relief } from "./kinds/relief";
import { ThroughForm } from "./kinds/ThroughForm";
import { TwoLevelForm } from "./kinds/TwoLevelForm";
import { heightOfTop } from "./moved";
import { TopProblems } from "./TopProblems";
import type { Trial } from "./useTrial";
import { Violations } from "./Violations";

interface DecidingProps {
  readonly room: RoomView;
  readonly trial: Trial;
}

function coverOf(fields: RoomFields): number {
  return (fields["bed.covering.tile_thickness"] ?? 0) + (fields["bed.covering.bond_thickness"] ?? 0);
}

function Editor({ room, trial, begin }: DecidingProps & { readonly begin: number }) {
  const { id, fields } = room;
  const { top, onTop } = trial;
  if (top.kind === "least_mortar") return <LeastForm id={id} room={fields} top={top} finished={begin + coverOf(fields)} onTop={onTop} />;
  if (top.kind === "to_drain") return <DrainForm id={id} room={fields} top={top} onTop={onTop} />;
  if (top.kind === "two_levels") return <TwoLevelForm id={id} room={fields} top={top} onTop={onTop} />;
  return top.kind === "plane" ? <ThroughForm id={id} room={fields} top={top} height={() => begin} onTop={onTop} /> : null;
}

function Outcome({ room, trial }: DecidingProps) {
  const { top, now, before, problems, isTried, hasFailed, onTop } = trial;
  const onRelief = ({ "bed.top": eased, ...limits }: Relief) => {
    if (eased) onTop(eased);
    if (Object.keys(limits).length > 0) void saved(editRoom(room.id, limits));
  };
  return (
    <>
      <Conflicts room={room.fields} problems={problems} top={top} onRelief={onRelief} />
      {isTried && <TopProblems problems={problems.filter((problem) => !isConflict(problem))} />}
      {hasFailed && <p class="caution" role="alert">{t("engine.failed")}</p>}
      {now && (
        <>
          <Effects now={now} before={before} />
          <Violations bed={now.bed} />
          <Doorways room={room} now={now} before={before} />
          <Cautions cautions={cautionsAt(now, "bed.thickness", "bed.top", "bed.doorways", "bed.fixtures")} />
        </>
      )}
    </>
  );
}

export function Deciding({ room, trial }: DecidingProps) {
  const begin = heightOfTop(trial.top, trial.now?.bed ?? null) ?? room.plan?.bed.top[0]?.a ?? 0;
  return (
    <section class="deciding" data-testid="deciding">
      <KindChoice room={room.fields} kind={trial.top.kind} height={begin} onTop={trial.onTop} />
      <Outcome room={room} trial={trial} />
      <Editor room={room} trial={trial} begin={begin} />
      {trial.now && <Governs requirements={trial.now.bed.requirements} />}
      <Deck room={room} trial={trial} />
    </section>
  );
}
