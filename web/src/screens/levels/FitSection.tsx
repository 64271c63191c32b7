/** How the levels fit together: what the loops miss by, named by mark or place, and the spread against what was foretold. */
import { setupFromDocument } from "../../state";
import type { Levels } from "../../wire";
import { heightText, numberText } from "../../units";
import { reader, t } from "../../words";
import { placeText } from "../common/roomFigure";
import { markName, setupName } from "./names";
import type { Work } from "./work";

const SHOWN = 12;
/** Beyond this the instruments were worse than they are said to be, or something was mis-read (common practice, no source). */
const TOO_MUCH = 2;

type Misclosure = Levels["misclosures"][number];

function MissLine({ work: { room }, miss }: { readonly work: Work; readonly miss: Misclosure }) {
  const where = miss.at ? t("fit.place", { place: placeText(miss.at) }) : markName(room.fields, miss.mark);
  const along = miss.setups.map((id) => setupName(room, setupFromDocument(id))).join(", ");
  return <li data-testid="misclosure"><strong>{where}</strong> {t("fit.miss", { by: heightText(miss.by, reader.value), along })}</li>;
}

function spreadText({ sigma0, redundancy }: Levels): string {
  if (sigma0 === null) return t("fit.unchecked");
  const spread = numberText(sigma0, 1, reader.value.language);
  return t(sigma0 > TOO_MUCH ? "fit.spread_wide" : "fit.spread", { spread, count: redundancy });
}

/** Nothing before the plan knows more than one set-up or a height that is checked. */
export function FitSection({ work }: { readonly work: Work }) {
  const levels = work.room.plan?.levels;
  if (!levels || (levels.setups.length < 2 && levels.sigma0 === null)) return null;
  const worst = [...levels.misclosures].sort((a, b) => Math.abs(b.by) - Math.abs(a.by));
  return (
    <section data-testid="fit">
      <h3>{t("fit.title")}</h3>
      <p class={levels.sigma0 !== null && levels.sigma0 > TOO_MUCH ? "notice" : "quiet"} data-testid="fit-spread">{spreadText(levels)}</p>
      <ul class="lines">{worst.slice(0, SHOWN).map((miss, index) => <MissLine key={index} work={work} miss={miss} />)}</ul>
      {worst.length > SHOWN && <p class="quiet small">{t("fit.more", { count: worst.length - SHOWN })}</p>}
    </section>
  );
}
