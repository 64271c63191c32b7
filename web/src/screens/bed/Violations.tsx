/** Where the bed is beyond a limit of thickness, by how much, and how much of the floor that is. */
import { useState } from "preact/hooks";
import type { Bed } from "../../wire";
import { t } from "../../words";
import { placeText } from "../common/roomFigure";

const FIRST_FEW = 1;

function limitKind(kind: string): "no_bed" | "too_thin" | "too_thick" {
  return kind === "no_bed" || kind === "too_thin" ? kind : "too_thick";
}

function areaLines({ too_thin_area: thin, too_thick_area: thick }: Bed): readonly string[] {
  return [...(thin > 0 ? [t("limit.thin_area", { area: thin })] : []), ...(thick > 0 ? [t("limit.thick_area", { area: thick })] : [])];
}

export function Violations({ bed }: { bed: Bed }) {
  const [all, setAll] = useState(false);
  const broken = bed.violations;
  if (broken.length === 0) return <p class="notice good small" data-testid="no-violations">{t("bed.within")}</p>;
  return (
    <section class="stack tight">
      <ul class="lines" data-testid="violations">
        {areaLines(bed).map((line) => <li key={line} class="caution">{line}</li>)}
        {(all ? broken : broken.slice(0, FIRST_FEW)).map(({ kind, at, thickness, by }, index) => (
          <li key={index} class="caution">{t(`limit.${limitKind(kind)}`, { place: placeText(at), thickness, by })}</li>
        ))}
      </ul>
      {broken.length > FIRST_FEW && !all && <button type="button" class="button wide" data-testid="all-violations" onClick={() => setAll(true)}>{t("limit.all", { count: broken.length })}</button>}
    </section>
  );
}
