/** Truing the rails: what the level shows, all readings taken together, and what to raise or let down. */
import { getDraft, mayWrite, railChecksOf, type Row } from "../../../state";
import type { Plan, Rail } from "../../../wire";
import { t } from "../../../words";
import { formOf, type Form } from "../../common/form";
import { Missing } from "../../common/Missing";
import { NoPlan } from "../../common/NoPlan";
import { Cautions, PlanNotes } from "../../common/Notes";
import { cautionsAt } from "../../common/plan";
import { RoomFrame } from "../../common/RoomFrame";
import { sayOnlyLooks } from "../../common/saving";
import { LengthSetting } from "../../common/Setting";
import { useAwake } from "../../common/useAwake";
import { useRoom, type RoomView } from "../../common/useRoom";
import { Checks } from "./Checks";
import { Corrections } from "./Corrections";
import { unreadIn } from "./correcting";
import { knownLevels, lastLevel, lengthOfLevel, type OwnLevel } from "./levels";
import { LevelErrors, RailsLie, Worst } from "./Lying";
import { ReadCheck } from "./ReadCheck";
import { enteredFrom, laidAlong, laidAsAsked, laidByTap, NOTHING, railLength, type Entered } from "./reading";
import { whereLaid } from "./telling";
import { TruingDrawing } from "./TruingDrawing";

type Laid = Pick<Entered, "rail" | "railTo" | "from" | "to">;

/** What is offered to be read next: what the engine would have, else along the first rail. */
function offered({ truing, rails }: Plan, level: OwnLevel): Laid | null {
  if (truing) return truing.next_check && laidAsAsked(truing.next_check);
  const first = rails[0];
  const lie = first && (first.settings[0] ?? { from: 0, to: railLength(first) });
  return lie ? laidAlong(first, (lie.from + lie.to) / 2, level.length) : null;
}

interface OverviewProps {
  readonly room: RoomView;
  readonly plan: Plan;
  readonly checks: readonly Row<"rail_check">[];
  readonly levels: readonly OwnLevel[];
  readonly onRead: (laid: Laid) => void;
  readonly onAgain: (check: Row<"rail_check">) => void;
}

function Next({ plan, levels, onRead }: Pick<OverviewProps, "plan" | "levels" | "onRead">) {
  const next = offered(plan, lastLevel(levels));
  if (plan.rails.length === 0) return <p class="notice">{t("rails.none")}</p>;
  return (
    <>
      {next && <button type="button" class="button main wide" data-testid="read-next" onClick={() => onRead(next)}>{t("truing.read_next", { where: whereLaid(next) })}</button>}
      <p class="quiet small">{t("truing.how")}</p>
    </>
  );
}

function Overview({ room, plan, checks, levels, onRead, onAgain }: OverviewProps) {
  const { truing } = plan;
  const cautions = cautionsAt(plan, "truing", "corrections", "level_error");
  const next = <Next plan={plan} levels={levels} onRead={onRead} />;
  const unread = unreadIn(plan);
  return (
    <div class="stack">
      {truing && <Worst plan={plan} truing={truing} />}
      <Cautions cautions={cautions} />
      {unread.length > 0 && next}
      <Corrections roomId={room.id} plan={plan} unread={unread} />
      {unread.length === 0 && next}
      <LengthSetting room={room} name="rails.tolerance" label={t("truing.tolerance")} />
      {truing && <LevelErrors truing={truing} levels={levels} />}
      {truing && <RailsLie plan={plan} truing={truing} />}
      <Checks plan={plan} checks={checks} onAgain={onAgain} />
    </div>
  );
}

/** What begins a reading: a tap on a rail, the one that is offered, one that is read again. */
function beginning(form: Form<Entered>, levels: readonly OwnLevel[]) {
  const level = lastLevel(levels);
  const begin = (laid: Partial<Entered>) => { if (mayWrite.value) form.set({ ...NOTHING, level: level.id, ...laid }); else sayOnlyLooks(); };
  return {
    onRead: (laid: Laid) => begin(laid),
    onAgain: ({ id, fields }: Row<"rail_check">) => begin(enteredFrom(id, fields)),
    onTap: (rails: readonly Rail[], rail: Rail, at: number) => {
      const { values } = form;
      if (values.rail === "") begin(laidAlong(rail, at, level.length));
      else form.set(laidByTap(values, rails, rail, at, lengthOfLevel(levels, values.level)));
    },
  };
}

export function Truing({ id }: { id: string }) {
  useAwake();
  const room = useRoom(id);
  const checks = railChecksOf(id).value;
  const form = formOf<Entered>(`truing:${id}`, NOTHING);
  if (!room) return <Missing />;
  const levels = knownLevels(checks.map(({ fields }) => fields));
  const { plan } = room;
  const isReading = getDraft(form.draft) !== undefined && mayWrite.value && form.values.rail !== "";
  const { onRead, onAgain, onTap } = beginning(form, levels);
  const drawing = <TruingDrawing room={room} entered={isReading ? form.values : null} onTap={(rail, at) => onTap(plan?.rails ?? [], rail, at)} />;
  return (
    <RoomFrame room={room} step="rails" part="true" {...(isReading && plan ? { still: "keys" as const } : {})} drawing={drawing}>
      {!plan && <><PlanNotes state={room.state} /><NoPlan room={room} /></>}
      {plan && isReading && <ReadCheck roomId={id} plan={plan} form={form} levels={levels} />}
      {plan && !isReading && <Overview room={room} plan={plan} checks={checks} levels={levels} onRead={onRead} onAgain={onAgain} />}
    </RoomFrame>
  );
}
