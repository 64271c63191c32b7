/** Ways to lay a straightedge without a finger: where it lies worst, as long as a limit asks, or cut to the room. */
import { useState } from "preact/hooks";
import type { Flatness } from "../../../wire";
import { t } from "../../../words";
import { ruleText } from "../../common/flatness";
import { asLongAs, cutToRoom, liesInRoom, type Fitted, type Floor } from "./inRoom";
import { lengthOf, type Edge } from "./laid";
import type { EdgeNow } from "./useEdge";

interface OfferedProps {
  readonly flatness: Flatness | null;
  readonly floor: Floor;
  readonly edge: Edge | null;
  readonly lay: EdgeNow["lay"];
}

/** What came of the length asked for; nothing once it lies otherwise. */
function FitNote({ fitted, edge, asked }: { fitted: Fitted | null; edge: Edge | null; asked: number }) {
  if (!fitted || fitted.fit === "whole" || JSON.stringify(edge) !== JSON.stringify(fitted.edge)) return null;
  return (
    <p class="notice" role="status" data-testid="edge-fit" data-fit={fitted.fit}>
      {t(fitted.fit === "moved" ? "checking.fit_moved" : "checking.fit_short", { rule: ruleText(asked), long: ruleText(lengthOf(fitted.edge)) })}
    </p>
  );
}

/** It runs through a wall or over what is no floor: told, and put right with one tap. */
function Outside({ floor, edge, lay }: Pick<OfferedProps, "floor" | "lay"> & { readonly edge: Edge }) {
  if (liesInRoom(edge, floor)) return null;
  const cut = cutToRoom(edge, floor);
  return (
    <div class="stack tight" role="status" data-testid="edge-outside">
      <p class="caution">{t(cut ? "checking.edge_outside" : "checking.edge_all_outside")}</p>
      {cut && <button type="button" class="button wide" data-testid="edge-cut" onClick={() => lay(cut)}>{t("checking.edge_cut", { rule: ruleText(lengthOf(cut)) })}</button>}
    </div>
  );
}

export function Offered({ flatness, floor, edge, lay }: OfferedProps) {
  const [made, setMade] = useState<{ readonly fitted: Fitted; readonly asked: number } | null>(null);
  const make = (from: Edge, asked: number) => {
    const fitted = asLongAs(from, asked, floor);
    setMade({ fitted, asked });
    lay(fitted.edge);
  };
  return (
    <>
      {edge && <Outside floor={floor} edge={edge} lay={lay} />}
      <FitNote fitted={made?.fitted ?? null} edge={edge} asked={made?.asked ?? 0} />
      <div class="row even">
        {flatness?.checks.map(({ length, gap }, index) => (
          <span key={index} class="stack tight">
            {gap && <button type="button" class="button" data-testid={`edge-worst-${index}`} onClick={() => lay({ from: gap.from, to: gap.to })}>{t("checking.worst_under", { rule: ruleText(length) })}</button>}
            {edge && <button type="button" class="button" data-testid={`edge-long-${index}`} onClick={() => make(edge, length)}>{t("checking.make_long", { rule: ruleText(length) })}</button>}
          </span>
        ))}
      </div>
    </>
  );
}
