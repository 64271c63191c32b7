/** How level the bed lies and how it falls, as built against as designed. */
import { fallText } from "../../units";
import type { Flatness, Plan } from "../../wire";
import { reader, t } from "../../words";
import { Figure } from "../common/Figure";
import { gapText, offText } from "../common/flatness";
import { Cautions } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { placeText } from "../common/roomFigure";

type Fall = NonNullable<Flatness["level"]>["falls"][number];

const LEVEL = 1e-4; // less than 0.1 mm in a metre falls nowhere

function fallNote({ designed, readings }: Fall): string {
  return t(designed < LEVEL ? "checking.asked_level" : "checking.asked_fall", { fall: fallText(designed, reader.value), readings });
}

function Falls({ falls, plan }: { falls: readonly Fall[]; plan: Plan }) {
  return (
    <>
      {falls.map((fall, index) => (
        <Figure
          key={fall.facet} label={falls.length === 1 ? t("checking.fall") : t("checking.fall_of", { number: fall.facet + 1 })} note={fallNote(fall)}
          value={fall.fall === null ? t("not_known") : fallText(fall.fall, reader.value)} plan={plan} path={`flatness.level.falls[${index}].fall`}
        />
      ))}
    </>
  );
}

export function LevelAndFall({ flatness: { level }, plan }: { flatness: Flatness; plan: Plan }) {
  if (!level) return null;
  return (
    <section class="stack tight" data-testid="level-and-fall">
      <h2>{t("checking.level")}</h2>
      <div class="figures">
        <Figure label={t("checking.mean")} value={offText(level.mean)} note={t(level.mean > 0 ? "checking.high_on_the_whole" : "checking.low_on_the_whole")} plan={plan} path="flatness.level.mean" />
        <Figure label={t("checking.rms")} value={gapText(level.rms)} plan={plan} path="flatness.level.rms" />
        <Figure label={t("checking.highest")} value={offText(level.highest)} note={placeText(level.highest_at)} plan={plan} path="flatness.level.highest" />
        <Figure label={t("checking.lowest")} value={offText(level.lowest)} note={placeText(level.lowest_at)} plan={plan} path="flatness.level.lowest" />
        <Falls falls={level.falls} plan={plan} />
      </div>
      <Cautions cautions={cautionsAt(plan, "flatness.level")} />
      {level.standing_water.length > 0 && (
        <div data-testid="standing-water">
          <h3>{t("checking.water")}</h3>
          <ul>{level.standing_water.map((at, index) => <li key={index}>{placeText(at)}</li>)}</ul>
        </div>
      )}
    </section>
  );
}
