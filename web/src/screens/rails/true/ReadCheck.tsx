/** Entering what the level shows: where it lies, which end is high (or has the gap), by how much; then turned end for end. */
import { useState } from "preact/hooks";
import { typedLength } from "../../../keypad/keys";
import { addRailCheck, clearDraft, editRailCheck, getDraft, preferences } from "../../../state";
import type { Plan } from "../../../wire";
import { t } from "../../../words";
import { Entry } from "../../common/Entry";
import type { Form } from "../../common/form";
import { saved } from "../../common/saving";
import { EndButtons } from "./EndButtons";
import { lengthOfLevel, type OwnLevel } from "./levels";
import { checkFrom, endsOf, isTooMuch, lengthOver, offFrom, wrongPlace, type Entered } from "./reading";
import { showsText, whereLaid } from "./telling";
import { WhereSheet } from "./WhereSheet";

interface ReadCheckProps {
  readonly roomId: string;
  readonly plan: Plan;
  readonly form: Form<Entered>;
  readonly levels: readonly OwnLevel[];
}

export function typedDraft(roomId: string): string {
  return `truing-typed:${roomId}`;
}

/** What keeps the reading from being kept, or what to do next; empty where nothing need be said. */
function noteOf(entered: Entered, plan: Plan, typed: number | null, over: number): string {
  const wrong = wrongPlace(entered, plan.rails);
  if (wrong) return t(`truing.wrong_${wrong}`);
  if (typed === null) return "";
  if (isTooMuch(typed, over)) return t("truing.too_much", { over });
  return offFrom(typed, entered.way, entered.end) === null ? t(`truing.which_${entered.way}`) : "";
}

function whatOf({ step, way, off, back, id }: Entered, over: number): string {
  const before = step === "off" ? off : back;
  if (id !== "" && before !== null) return t("truing.again", { shows: showsText(before) });
  if (step === "back") return t("truing.what_back", { over });
  return t(`truing.what_${way}`, { over });
}

function Place({ entered, onOpen, onAway, form }: { entered: Entered; onOpen: () => void; onAway: () => void; form: Form<Entered> }) {
  const other = entered.way === "bubble" ? "gap" : "bubble";
  return (
    <div class="level-row">
      <button type="button" class="button note" data-testid="check-where" onClick={onOpen}>
        <span>{whereLaid(entered)}</span>
        <span class="quiet">{t(entered.step === "off" ? "truing.with_level" : "truing.with_level_back", { level: entered.level })}</span>
      </button>
      <button type="button" class="button elsewhere" data-testid="check-way" onClick={() => form.set({ way: other, end: "" })}>{t(`truing.way_${entered.way}`)}{" \u21c4"}</button>
      <button type="button" class="button icon" aria-label={t("truing.put_away")} data-testid="check-put-away" onClick={onAway}>{"\u2715"}</button>
    </div>
  );
}

export function ReadCheck({ roomId, plan, form, levels }: ReadCheckProps) {
  const [isPlacing, setPlacing] = useState(false);
  const { values: entered } = form;
  const draft = typedDraft(roomId);
  const over = lengthOver(entered, plan.rails, lengthOfLevel(levels, entered.level));
  const typed = typedLength(getDraft(draft) ?? "", preferences.value.units);
  const ends = endsOf(entered, plan.rails);
  const isWrong = wrongPlace(entered, plan.rails) !== null;
  /** The reading with what was typed last in it; null where that says nothing yet. */
  const withTyped = (amount: number, text: string): Entered | null => {
    const off = offFrom(amount, entered.way, entered.end);
    if (off === null || isWrong || isTooMuch(amount, over)) return null;
    return { ...entered, [entered.step]: off, typed: { ...entered.typed, [entered.step === "off" ? "off" : "reversed_off"]: text } };
  };
  const keep = (amount: number, text: string) => {
    const whole = withTyped(amount, text);
    const check = whole && checkFrom(whole, over);
    if (!check) return;
    const kept = entered.id === "" ? addRailCheck(roomId, check, { draft: form.draft }) : editRailCheck(entered.id, check, { draft: form.draft });
    void saved(kept).then((isSaved) => { if (isSaved) void clearDraft(draft); });
  };
  const turned = typed === null ? entered : withTyped(typed, getDraft(draft) ?? "");
  const turn = () => {
    if (!turned) return;
    form.set({ ...turned, step: entered.step === "off" ? "back" : "off", end: "" });
    void clearDraft(draft);
  };
  const away = () => { form.clear(); void clearDraft(draft); };
  const canTurn = turned !== null && turned.off !== null;
  return (
    <>
      <Place entered={entered} form={form} onAway={away} onOpen={() => setPlacing(true)} />
      {ends && <EndButtons way={entered.way} end={entered.end} ends={ends} onEnd={(end) => form.set({ end })} />}
      <Entry
        what={noteOf(entered, plan, typed, over) || whatOf(entered, over)} draft={draft} measure="length" nextLabel={t("truing.keep")} onDone={keep}
        beside={<button type="button" class="button" data-testid="check-turn" disabled={!canTurn} onClick={turn}>{t(entered.step === "off" ? "truing.turn" : "truing.turn_back")}</button>}
      />
      {isPlacing && <WhereSheet plan={plan} entered={entered} levels={levels} onChange={form.set} onClose={() => setPlacing(false)} />}
    </>
  );
}
