/** Each limit by itself: how long a straightedge, how much may stand open, how much does and where, how much of the bed was judged. */
import { errorText, lengthText } from "../../units";
import type { Flatness, Lying, Plan, StraightedgeCheck } from "../../wire";
import { reader, t, told } from "../../words";
import { Figure } from "../common/Figure";
import { gapText, nearText, ruleText, SIGNS, verdictText } from "../common/flatness";
import { Link } from "../common/Link";
import { Cautions } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { placeText } from "../common/roomFigure";
import { pathOfCheck } from "../common/route";
import type { RoomView } from "../common/useRoom";
import { NAMED_LENGTHS } from "./standards";
import { percentText } from "./telling";

interface LimitProps {
  readonly room: RoomView;
  readonly flatness: Flatness;
  readonly plan: Plan;
  readonly check: StraightedgeCheck;
  readonly index: number;
}

function lyingNote(lying: Lying | null): string {
  return lying ? t("checking.lies_at", { place: placeText(lying.at), sigma: errorText(lying.sigma, reader.value) }) : "";
}

function sparseKey(places: number, spacing: string) {
  if (places === 0) return "checking.sparse_apart";
  return spacing === "" ? "checking.sparse_how_many" : "checking.sparse_how";
}

/** Too far apart: how many more, how far apart they are now, and the way there. */
function Sparse({ room, flatness }: Pick<LimitProps, "room" | "flatness">) {
  const places = flatness.next_readings.length;
  const spacing = flatness.spacing === null ? "" : lengthText(flatness.spacing, reader.value);
  return (
    <>
      {(places > 0 || spacing !== "") && <p>{t(sparseKey(places, spacing), { places, spacing })}</p>}
      {places > 0 && <Link to={pathOfCheck(room.id, "read")} class="button wide" testid="read-lacking">{t("checking.read_more", { places })}</Link>}
    </>
  );
}

function Limit({ room, flatness, plan, check, index }: LimitProps) {
  const path = `flatness.checks[${index}]`;
  const { gap, hump, verdict } = check;
  return (
    <article class="limit-card" data-testid={`limit-${index}`}>
      <h3>{t("checking.under", { rule: ruleText(check.length) })}</h3>
      <p class={`said ${verdict}`} data-testid={`limit-${index}-said`}><span aria-hidden="true">{SIGNS[verdict]} </span>{verdictText(verdict)} <span class="near">{nearText(check)}</span></p>
      <div class="figures">
        <Figure label={t("checking.gap")} value={gap ? gapText(gap.gap) : t("checking.none")} note={lyingNote(gap)} plan={plan} path={`${path}.gap`} />
        <Figure label={t("checking.hump")} value={hump ? gapText(hump.gap) : t("checking.none")} note={lyingNote(hump)} plan={plan} path={`${path}.hump`} />
        <Figure label={t("checking.limit_name")} value={gapText(check.limit)} plan={plan} path={`${path}.limit`} />
        <Figure label={t("checking.judged")} value={percentText(check.judged_share)} plan={plan} path={`${path}.judged_share`} />
        {check.beyond_share > 0 && <Figure label={t("checking.beyond_share")} value={percentText(check.beyond_share)} plan={plan} path={`${path}.beyond_share`} />}
      </div>
      <Cautions cautions={cautionsAt(plan, path)} />
      {verdict === "too_sparse" && <Sparse room={room} flatness={flatness} />}
      <p class="quiet small">{told("limit_basis", check.code, { edge: NAMED_LENGTHS.edge, limit: check.limit, rule: check.length }, check.basis)}</p>
    </article>
  );
}

export function Limits(props: Omit<LimitProps, "check" | "index">) {
  const { flatness } = props;
  if (flatness.checks.length === 0) return null;
  return (
    <section class="stack tight">
      <h2>{t("checking.limits")}</h2>
      {flatness.checks.map((check, index) => <Limit key={index} {...props} check={check} index={index} />)}
    </section>
  );
}
