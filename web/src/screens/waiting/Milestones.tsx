/** Every milestone: its sign, its window as a bar on a line of time and in words, and who let it pass. */
import { useState } from "preact/hooks";
import { deleteRecord, mayWrite, type Row } from "../../state";
import type { WaitingAnswer } from "../../wire";
import { t, told } from "../../words";
import { Dialog } from "../common/Dialog";
import { Explained, Figure } from "../common/Figure";
import { Link } from "../common/Link";
import { basisText } from "../common/readiness";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import { useNow } from "../common/useNow";
import type { Plan } from "../../wire";
import { LooksKey } from "./LooksKey";
import { Sign } from "./Sign";
import { milestonesOf, shareOf, timeLineOf, type Milestone, type TimeLine } from "./standing";
import { betweenText, likelyText } from "./windowText";

const EVERY_MS = 20_000;
const HOUR_MS = 3_600_000;
const LONG = 1000; // of the bar's own measure

/** The window on a line of time that begins with placing; the bar says in words what it shows. */
function Bar({ one, line, now, name }: { one: Milestone; line: TimeLine; now: number; name: string }) {
  if (one.likely === null) return null;
  const x = (at: string | null) => shareOf(line, Date.parse(at ?? one.likely ?? "")) * LONG;
  const [early, likely, late] = [x(one.early), x(one.likely), x(one.late)];
  const here = shareOf(line, now) * LONG;
  return (
    <svg class="window-bar" viewBox={`0 0 ${LONG} 24`} preserveAspectRatio="none" role="img" aria-label={t("bar.spoken", { milestone: name, early: one.early ?? one.likely, likely: one.likely, late: one.late ?? one.likely })}>
      <path class="rule" d={`M0 12H${LONG}`} />
      <path class="gone" d={`M0 12H${here}`} />
      <rect class="span" x={early} y={4} width={Math.max(6, late - early)} height={16} />
      <path class="likely" d={`M${likely} 0V24`} />
      <path class="here" d={`M${here} 0V24`} />
    </svg>
  );
}

function leftText(one: Milestone, now: number): string {
  const left = (Date.parse(one.likely ?? "") - now) / HOUR_MS;
  return left >= 0 ? t("waiting.left", { left }) : t("waiting.past", { past: -left });
}

function tickText({ fields }: Row<"entry">): string {
  return fields.by ? t("tick.line", { by: fields.by, at: fields.at }) : t("tick.line_nobody", { at: fields.at });
}

function Ticked({ tick, name }: { tick: Row<"entry">; name: string }) {
  const what = `${name}: ${tickText(tick)}`;
  return (
    <div class="stack tight" data-testid="ticked">
      <p class="ticked-by"><strong>{tickText(tick)}</strong><span>{told("how", tick.fields.how ?? "other", {}, "")}</span>{tick.fields.text && <span>{tick.fields.text}</span>}</p>
      <div class="row even">
        <Link to={pathOfHistory("entry", tick.id)} class="button" label={t("history.of", { what })} testid="tick-history">{t("history.open")}</Link>
        {mayWrite.value && <button type="button" class="button" aria-label={t("remove_named", { what })} data-testid="take-tick-back" onClick={() => void saved(deleteRecord("entry", tick.id))}>{t("tick.take_back")}</button>}
      </div>
    </div>
  );
}

interface CardProps {
  readonly room: string;
  readonly plan: Plan;
  readonly one: Milestone;
  readonly line: TimeLine | null;
  readonly now: number;
}

/** Both ends of the window, each with what stands behind it. */
function Ends({ plan, one, path }: Pick<CardProps, "plan" | "one"> & { readonly path: string }) {
  const [open, setOpen] = useState(false);
  const between = betweenText(one);
  const ends = (["early", "late"] as const).flatMap((end) => { const explanation = plan.explanations[`${path}.${end}_after_h`]; return explanation ? [{ end, explanation }] : []; });
  if (between === "") return null;
  return (
    <>
      <button type="button" class="figure explained window-ends" data-testid={`window-${one.milestone}`} onClick={() => setOpen(true)}>{between}</button>
      {open && <Dialog title={between} testid="explain" onClose={() => setOpen(false)}>
        {ends.map(({ end, explanation }) => <section key={end} class="stack tight"><h3>{t(`bar.${end}`)}</h3><Explained explanation={explanation} /></section>)}
      </Dialog>}
    </>
  );
}

/** What the plan says of the same milestone: the need, its basis, and the explanation behind a tap. */
function Basis({ plan, one }: Pick<CardProps, "plan" | "one">) {
  const index = plan.readiness.findIndex(({ milestone }) => milestone === one.milestone);
  const row = plan.readiness[index];
  if (!row) return null;
  const value = one.likely === null && row.after_h !== null ? t("waiting.after", { hours: row.after_h }) : likelyText(one);
  return (
    <>
      <Figure label={basisText(row)} value={value} plan={plan} path={`readiness[${index}]`} />
      <Ends plan={plan} one={one} path={`readiness[${index}]`} />
    </>
  );
}

function Card({ room, plan, one, line, now }: CardProps) {
  const name = told("milestone", one.milestone, {}, one.milestone);
  return (
    <li class={`milestone ${one.state}`} data-testid={`milestone-${one.milestone}`} data-state={one.state}>
      <header>
        <Sign state={one.state} />
        <h4>{name}</h4>
        <p class="state-words" data-testid={`state-${one.milestone}`}>{t(`wait_state.${one.state}`)}</p>
      </header>
      {line && <Bar one={one} line={line} now={now} name={name} />}
      <Basis plan={plan} one={one} />
      {one.likely !== null && one.tick === null && <p class="quiet small" data-testid={`left-${one.milestone}`}>{leftText(one, now)}</p>}
      {one.tick ? <Ticked tick={one.tick} name={name} /> : <LooksKey room={room} one={one} />}
    </li>
  );
}

/** A minute's step of the clock is enough here: the giant one counts on its own. */
export function Milestones({ room, plan, answer }: { room: string; plan: Plan; answer: WaitingAnswer }) {
  const now = useNow(EVERY_MS);
  return (
    <section class="stack tight">
      <h3>{t("waiting.windows")}</h3>
      <ol class="milestones" data-testid="milestones">
        {milestonesOf(room, answer, now).map((one) => <Card key={one.milestone} room={room} plan={plan} one={one} line={timeLineOf(answer.placed_at, one)} now={now} />)}
      </ol>
    </section>
  );
}
