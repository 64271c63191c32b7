/** The drawing of the check in figures: for screen readers, and for whoever wants to write it down. */
import type { Row } from "../../state";
import type { Flatness, Lying } from "../../wire";
import { t } from "../../words";
import { depthToDo, gapText, offText, ruleText } from "../common/flatness";
import type { FlatLayer } from "../common/flatnessLayers";
import { placeText } from "../common/roomFigure";

interface Line {
  readonly where: string;
  readonly what: string;
}

function heightLines({ points, spots }: Flatness): readonly Line[] {
  return points.slice(0, spots).sort((a, b) => b[2] - a[2]).map(([x, y, z]) => ({ where: placeText([x, y]), what: offText(z) }));
}

function lyingLine(kind: "gap" | "hump", lying: Lying | null, rule: number): readonly Line[] {
  return lying ? [{ where: t(`checking.at_${kind}`, { rule: ruleText(rule), place: placeText(lying.at) }), what: gapText(lying.gap) }] : [];
}

function gapLines({ checks }: Flatness, gaps: readonly Row<"gap">[]): readonly Line[] {
  const wedges = gaps.map(({ fields }) => ({ where: t("checking.at_wedge", { place: fields.at ? placeText(fields.at) : fields.from ? placeText(fields.from) : "" }), what: gapText(fields.gap ?? 0) }));
  return [...checks.flatMap(({ gap, hump, length }) => [...lyingLine("gap", gap, length), ...lyingLine("hump", hump, length)]), ...wedges];
}

function workLines({ work }: Flatness): readonly Line[] {
  return work.map(({ id, way, at, depth }) => ({ where: t(`checking.at_${way}`, { id, place: placeText(at) }), what: depthToDo(depth) }));
}

function linesOf(flatness: Flatness, gaps: readonly Row<"gap">[], layer: FlatLayer): readonly Line[] {
  if (layer === "height") return heightLines(flatness);
  return layer === "gaps" ? gapLines(flatness, gaps) : workLines(flatness);
}

export function MapTable({ flatness, gaps, layer }: { flatness: Flatness; gaps: readonly Row<"gap">[]; layer: FlatLayer }) {
  const lines = linesOf(flatness, gaps, layer);
  return (
    <table class="shims" data-testid="map-figures">
      <thead><tr><th scope="col">{t("reading.place")}</th><th scope="col">{t(`checking.column.${layer}`)}</th></tr></thead>
      <tbody>{lines.map(({ where, what }, index) => <tr key={index}><th scope="row">{where}</th><td>{what}</td></tr>)}</tbody>
    </table>
  );
}
