/** What governs the top, and what a little relief of each would save: the dearest first. */
import { preferences } from "../../../state";
import { fallText } from "../../../units";
import type { Bed } from "../../../wire";
import { reader, t } from "../../../words";
import { placeText } from "../../common/roomFigure";

type Requirement = Bed["requirements"][number];

const EIGHTH = 3.175; // mm
const TWO_MM = 2;
const FALLS: ReadonlySet<string> = new Set(["largest_fall", "least_fall"]);
const FALL_STEP = 0.001;

function governsText({ kind, id, at, limit, saves }: Requirement): string {
  if (FALLS.has(kind)) {
    const values = { limit: fallText(limit, reader.value), saves, step: fallText(FALL_STEP, reader.value) };
    return t(kind === "least_fall" ? "governs.least_fall" : "governs.largest_fall", values);
  }
  const step = preferences.value.units === "imperial" ? EIGHTH : TWO_MM;
  const values = { id: id ?? "", place: at ? placeText(at) : "", limit, step, saves: saves * step };
  if (kind === "held_low" || kind === "held_high" || kind === "maximum_thickness" || kind === "drain_height") return t(`governs.${kind}`, values);
  return t(kind === "minimum_thickness" ? "governs.minimum_thickness" : "governs.given_height", values);
}

export function Governs({ requirements }: { requirements: readonly Requirement[] }) {
  if (requirements.length === 0) return null;
  return (
    <section class="stack tight" data-testid="governs">
      <h3>{t("governs.title")}</h3>
      <ul class="lines">{requirements.map((one) => <li key={`${one.path} ${one.kind}`} class="line">{governsText(one)}</li>)}</ul>
    </section>
  );
}
