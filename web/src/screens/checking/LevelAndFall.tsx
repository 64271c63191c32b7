/** How level the bed lies and how it falls, as built against as designed. */
import { fallText } from "../../units";
import type { Flatness, Plan } from "../../wire";
import { reader, t } from "../../words";
import { Figure } from "../common/Figure";
import { gapText, middleOfPlane, offText } from "../common/flatness";
import { Cautions } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { placeText } from "../common/roomFigure";

type Fall = NonNullable<Flatness["level"]>["falls"][number];

const LEVEL = 1e-4; // less than 0.1 mm in a metre falls nowhere

const SHEDS = 1e-3; // as a ratio: a top that falls less is not asked to shed water

function fallNote({ designed, readings }: Fall): string {
  return t(designed < LEVEL ? "checking.asked_level" : "checking.asked_fall", { fall: fallText(designed, reader.value), readings });
}

/** The planes whose fall is known, the one that falls least of what was asked first: a round drain has dozens that nobody reads. */
function Falls({ falls, plan }: { falls: readonly Fall[]; plan: Plan }) {
  const short = ({ fall, designed }: Fall) => (fall ?? 0) - designed;
  const known = falls.map((fall, index) => ({ fall, index })).filter(({ fall }) => falls.length === 1 || fall.fall !== null).sort((a, b) => short(a.fall) - short(b.fall));
  const where = (fall: Fall) => (falls.length === 1 ? t("checking.fall") : t("checking.fall_of", { place: placeText(middleOfPlane(plan, fall.facet)) }));
  return (
    <>
      {known.map(({ fall, index }) => (
        <Figure
          key={fall.facet} label={where(fall)} note={fallNote(fall)}
          value={fall.fall === null ? t("not_known") : fallText(fall.fall, reader.value)} plan={plan} path={`flatness.level.falls[${index}].fall`}
        />
      ))}
    </>
  );
}

/** Planes that nobody read enough of, and who has the last word where water must run. */
function FallNotes({ falls }: { falls: readonly Fall[] }) {
  const unread = falls.length > 1 ? falls.filter(({ fall }) => fall === null).length : 0;
  return (
    <>
      {unread > 0 && <p class="quiet small" data-testid="planes-unread">{t("checking.falls_unread", { planes: unread })}</p>}
      {falls.some(({ designed }) => designed >= SHEDS) && <p class="caution" data-testid="water-caution">{t("checking.water_caution")}</p>}
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
      <FallNotes falls={level.falls} />
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
