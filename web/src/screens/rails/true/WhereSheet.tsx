/** Where the level lies and which level it is: chosen from lists, for whoever does not tap the drawing. */
import { lengthText } from "../../../units";
import type { Plan } from "../../../wire";
import { reader, t } from "../../../words";
import { Choice } from "../../common/Choice";
import { Dialog } from "../../common/Dialog";
import { ValueField } from "../../common/ValueField";
import { chooseLevel, lengthOfLevel, newLevel, setLevelLength, type OwnLevel } from "./levels";
import { laidAcross, laidAlong, wrongPlace, type Entered } from "./reading";

export interface WhereProps {
  readonly plan: Plan;
  readonly entered: Entered;
  readonly levels: readonly OwnLevel[];
  readonly onChange: (changed: Partial<Entered>) => void;
}

const ALONG = "-";
const ANOTHER = "+";

function RailChoices({ plan, entered, levels, onChange }: WhereProps) {
  const first = plan.rails.find(({ id }) => id === entered.rail);
  const middle = entered.railTo === "" ? (entered.from + entered.to) / 2 : entered.from;
  const lay = (id: string, other: string) => {
    const [rail, second] = [plan.rails.find((one) => one.id === id), plan.rails.find((one) => one.id === other)];
    if (!rail) return;
    onChange(second && second !== rail ? laidAcross(rail, middle, second) : laidAlong(rail, middle, lengthOfLevel(levels, entered.level)));
  };
  const rails = plan.rails.map(({ id }) => ({ value: id, label: id }));
  const others = [{ value: ALONG, label: t("truing.along") }, ...rails.filter(({ value }) => value !== first?.id)];
  return (
    <>
      <Choice label={t("truing.rail")} name="check-rail" options={rails} value={entered.rail} onChoose={(id) => lay(id, entered.railTo)} />
      <Choice label={t("truing.across_to")} name="check-rail-to" options={others} value={entered.railTo || ALONG} onChoose={(id) => lay(entered.rail, id)} />
    </>
  );
}

function LevelChoices({ entered, levels, onChange }: WhereProps) {
  const long = lengthOfLevel(levels, entered.level);
  const choose = (id: string) => {
    const chosen = id === ANOTHER ? newLevel(levels) : id;
    chooseLevel(chosen);
    onChange({ level: chosen, over: null });
  };
  const options = [...levels.map(({ id, length }) => ({ value: id, label: `${id} · ${lengthText(length, reader.value)}` })), { value: ANOTHER, label: t("truing.another_level") }];
  return (
    <>
      <Choice label={t("truing.level")} name="check-level" options={options} value={entered.level} onChoose={choose} />
      <p class="quiet small">{t("truing.level_more")}</p>
      <ValueField name="level-length" label={t("truing.level_length")} shown={lengthText(long, reader.value)} measure="length" onValue={(mm) => { setLevelLength(entered.level, mm); onChange({ over: null }); }} />
      {entered.way === "bubble" && (
        <ValueField
          name="check-over" label={t("truing.over")} note={t("truing.over_more")} shown={lengthText(entered.over ?? long, reader.value)} measure="length"
          isChanged={entered.over !== null && entered.over !== long} onReset={() => onChange({ over: null })} onValue={(over) => onChange({ over })}
        />
      )}
    </>
  );
}

export function WhereSheet({ onClose, ...props }: WhereProps & { readonly onClose: () => void }) {
  const { plan, entered, onChange } = props;
  const wrong = wrongPlace(entered, plan.rails);
  const isAcross = entered.railTo !== "";
  return (
    <Dialog title={t("truing.where")} testid="check-where-sheet" onClose={onClose}>
      {wrong && <p class="caution" role="alert">{t(`truing.wrong_${wrong}`)}</p>}
      <RailChoices {...props} />
      <ValueField name="check-from" label={t(isAcross ? "truing.end_1_on" : "truing.end_1_at", { rail: entered.rail })} shown={lengthText(entered.from, reader.value)} measure="length" onValue={(from) => onChange({ from })} />
      <ValueField name="check-to" label={t(isAcross ? "truing.end_2_on" : "truing.end_2_at", { rail: entered.railTo })} shown={lengthText(entered.to, reader.value)} measure="length" onValue={(to) => onChange({ to })} />
      <LevelChoices {...props} />
    </Dialog>
  );
}
