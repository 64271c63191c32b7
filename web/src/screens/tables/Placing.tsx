/** How the table's points are laid on the room: as their numbers say, by their low corner, or by two points that one knows. */
import type { TableInAnswer } from "../../wire";
import { t } from "../../words";
import { Choice } from "../common/Choice";
import type { Form } from "../common/form";
import { placeText } from "../common/roomFigure";
import type { Pair, Reading } from "./useTableIn";

interface PlacingProps {
  readonly answer: TableInAnswer;
  readonly form: Form<Reading>;
}

const KINDS = ["as_they_are", "low_corner", "pairs"] as const;

/** The pair whose place a tap on the drawing gives: the first without one that has its point, else none. */
export function openPair({ placing, pairs }: Reading): 0 | 1 | null {
  if (placing !== "pairs") return null;
  const open = pairs.findIndex(({ line, at }) => line !== null && at === null);
  return open === 0 || open === 1 ? open : null;
}

export function withPair(pairs: readonly [Pair, Pair], index: 0 | 1, pair: Pair): readonly [Pair, Pair] {
  return index === 0 ? [pair, pairs[1]] : [pairs[0], pair];
}

function PairFields({ answer, form, index }: PlacingProps & { readonly index: 0 | 1 }) {
  const { pairs } = form.values;
  const { line, at } = pairs[index];
  const choose = (value: string) => form.set({ pairs: withPair(pairs, index, { line: value === "" ? null : Number(value), at: null }) });
  return (
    <div class="field">
      <label for={`pair-${index}`}>{t("placing.pair", { number: index + 1 })}</label>
      <select id={`pair-${index}`} data-testid={`pair-${index}`} value={line === null ? "" : `${line}`} onChange={(event) => choose(event.currentTarget.value)}>
        <option value="">{t("placing.choose_point")}</option>
        {answer.rows.map((row) => <option key={row.line} value={`${row.line}`}>{t("placing.point", { line: row.line, name: `${row.point} ${row.note}` })}</option>)}
      </select>
      {line !== null && <p class={at ? "quiet small" : "notice"} data-testid={`pair-${index}-at`}>{at ? placeText(at) : t("placing.tap")}</p>}
    </div>
  );
}

export function Placing({ answer, form }: PlacingProps) {
  const kind = form.values.placing ?? answer.placing.kind;
  const outside = answer.rows.filter((row) => row.outside).length;
  return (
    <section class="stack tight" data-testid="placing">
      <Choice
        label={t("placing.label")} name="placing" value={kind} onChoose={(placing) => form.set({ placing })}
        options={KINDS.map((value) => ({ value, label: t(`placing.${value}`) }))}
      />
      <p class="quiet small" data-testid="placing-says">{t("placing.says", { inside: answer.rows.length - outside, of: answer.rows.length })}</p>
      {kind === "pairs" && <><PairFields answer={answer} form={form} index={0} /><PairFields answer={answer} form={form} index={1} /></>}
      {kind === "pairs" && answer.placing.misfit !== null && <p class="notice">{t("placing.misfit", { by: answer.placing.misfit })}</p>}
    </section>
  );
}
