/** What to work over, the most effect first: rub down or fill up, how much and where; done with one tap, then read again. */
import { entriesOf, mayWrite, setDraft, touchBed } from "../../state";
import { clockText, momentText } from "../../units";
import type { Caution, Flatness, FlatnessWork, Plan } from "../../wire";
import { reader, t } from "../../words";
import { depthToDo, gapText, ruleText } from "../common/flatness";
import { Cautions } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { placeText } from "../common/roomFigure";
import { go, pathOfCheck } from "../common/route";
import { saved } from "../common/saving";
import { useNow } from "../common/useNow";
import type { RoomView } from "../common/useRoom";
import { draftFromTarget, targetDraft } from "../levels/round";
import { cautionsNow, isGreenNow } from "./green";
import { touchedAt } from "./touched";
import { Figure } from "../common/Figure";

interface WorkProps {
  readonly room: RoomView;
  readonly work: FlatnessWork;
  readonly plan: Plan;
  readonly index: number;
}

/** Leads to the keys with the rod at the place that was worked over. */
function readAgain(room: string, at: FlatnessWork["at"]): void {
  void setDraft(targetDraft(room, "bed"), draftFromTarget({ place: at }));
  go(pathOfCheck(room, "read"));
}

function Doing({ room, work, doneAt }: WorkProps & { readonly doneAt: string | null }) {
  const done = () => void saved(touchBed(room.id, work.way === "rub" ? "rubbed" : "filled_up", work.at));
  const again = () => readAgain(room.id, work.at);
  if (!mayWrite.value) return null;
  if (doneAt === null) return <div class="row"><button type="button" class="button main done-big" data-testid="work-done" onClick={done}>{t(`checking.done_${work.way}`)}</button></div>;
  return (
    <>
      <p class="notice good" data-testid="work-was-done">{t("checking.was_done", { at: clockText(doneAt, reader.value) })}</p>
      <div class="row">
        <button type="button" class="button main done-big" data-testid="read-it-again" onClick={again}>{t("checking.again")}</button>
        <button type="button" class="button" data-testid="work-done" onClick={done}>{t("checking.once_more")}</button>
      </div>
    </>
  );
}

function WorkCard(props: WorkProps) {
  const { room, work, plan, index } = props;
  const doneAt = work.done_at ?? touchedAt(work, entriesOf(room.id).value, room.readings);
  return (
    <li class={doneAt === null ? "work-card" : "work-card done"} data-testid="work" data-work={work.id}>
      <div><span class="name">{work.id}</span><span class="way">{t(`checking.${work.way}`)}</span></div>
      <span class="depth">{work.way === "rub" ? "\u2212" : "+"}{depthToDo(work.depth)}</span>
      <p>{t("checking.where", { place: placeText(work.at) })}</p>
      <Figure plan={plan} path={`flatness.work[${index}]`} label={t("checking.effect", { rule: ruleText(work.length) })} value={t("checking.before_after", { before: gapText(work.before), after: gapText(work.after) })} />
      <Doing {...props} doneAt={doneAt} />
    </li>
  );
}

function greenText({ green_until: until }: Flatness): string {
  return until === null ? t("checking.green") : t("checking.green_until", { at: momentText(until, reader.value) });
}

/** What a wedge alone showed: said to be done with one tap, and counted no more until a straightedge is laid there again. */
function WedgeWork({ room, caution }: { room: RoomView; caution: Caution }) {
  const { x, y } = caution.values;
  const done = (what: "rubbed" | "filled_up") => () => void saved(touchBed(room.id, what, [Number(x), Number(y)]));
  return (
    <div class="stack tight" data-testid="wedge-work">
      <Cautions cautions={[caution]} />
      {mayWrite.value && (
        <div class="row even">
          <button type="button" class="button" data-testid="wedge-filled" onClick={done("filled_up")}>{t("checking.done_fill")}</button>
          <button type="button" class="button" data-testid="wedge-rubbed" onClick={done("rubbed")}>{t("checking.done_rub")}</button>
        </div>
      )}
    </div>
  );
}

export function WorkList({ room, flatness, plan }: { room: RoomView; flatness: Flatness; plan: Plan }) {
  const now = useNow(30_000);
  const isGreen = isGreenNow(flatness, now);
  const cautions = cautionsNow(cautionsAt(plan, "flatness.work"), isGreen, now);
  if (cautions.length === 0) return null;
  return (
    <section class="stack tight" data-testid="work-list">
      <h2>{t("checking.to_do")}</h2>
      {isGreen && <p class="notice good" data-testid="green">{greenText(flatness)}</p>}
      <Cautions cautions={cautions.filter(({ code }) => code !== "work_wedge")} />
      {flatness.work.length > 0 && <ol class="stack tight">{flatness.work.map((work, index) => <WorkCard key={work.id} room={room} work={work} plan={plan} index={index} />)}</ol>}
      {cautions.filter(({ code }) => code === "work_wedge").map((caution, index) => <WedgeWork key={index} room={room} caution={caution} />)}
    </section>
  );
}
