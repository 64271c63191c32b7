/** The bed under a straightedge: picture and table of one profile, with the gap where it stands open most. */
import { useState } from "preact/hooks";
import { pathOf } from "../../../drawing/Ground";
import type { Place } from "../../../drawing/camera";
import { useSize } from "../../../drawing/useSize";
import { lengthText } from "../../../units";
import type { StraightedgeAnswer } from "../../../wire";
import { reader, t } from "../../../words";
import { gapText, offText, ruleText } from "../../common/flatness";
import { edgeView, openMost } from "./underEdge";

const itself = (place: Place) => place;

function Picture({ answer }: { answer: StraightedgeAnswer }) {
  const [box, window] = useSize();
  const view = edgeView(answer, window);
  const open = openMost(answer);
  const line = answer.profile.map(([along, z]) => view.at(along, z));
  const ground: readonly Place[] = [...line, [line.at(-1)?.[0] ?? 0, window.height], [line[0]?.[0] ?? 0, window.height]];
  const [x, low] = open ? view.at(open.along, open.bed) : [0, 0];
  const high = open ? view.at(open.along, open.edge)[1] : 0;
  return (
    <div class="profile-box" ref={box}>
      <svg class="sheet edge-sheet" width={window.width} height={window.height} role="img" aria-label={t("checking.under_spoken", { rule: ruleText(answer.length), gap: gapText(open?.gap ?? 0) })} data-testid="under-edge">
        <path class="area" d={pathOf(ground, itself)} />
        <path class="surface-line" d={pathOf(line, itself, false)} />
        <path class="ruler" d={pathOf(answer.edge.map(([along, z]) => view.at(along, z)), itself, false)} />
        {open && <path class="gap-line" d={`M${x} ${low}V${high}`} />}
        {open && <text class="gap-number" x={Math.min(Math.max(x, 34), window.width - 34)} y={Math.max(13, high - 14)}>{gapText(open.gap)}</text>}
        <text x={9} y={10}>A</text><text x={window.width - 9} y={10}>B</text>
      </svg>
    </div>
  );
}

function Table({ answer }: { answer: StraightedgeAnswer }) {
  return (
    <table class="shims profile-table" data-testid="under-edge-figures">
      <thead><tr><th scope="col">{t("profile.along")}</th><th scope="col">{t("checking.off")}</th></tr></thead>
      <tbody>{answer.profile.map(([along, z], index) => <tr key={index}><th scope="row">{lengthText(along, reader.value)}</th><td>{offText(z)}</td></tr>)}</tbody>
    </table>
  );
}

export function UnderEdge({ answer }: { answer: StraightedgeAnswer }) {
  const [isTable, setTable] = useState(false);
  return (
    <>
      <Picture answer={answer} />
      <button type="button" class="button wide" data-testid="under-edge-table" aria-expanded={isTable} onClick={() => setTable(!isTable)}>{t("checking.table")}</button>
      {isTable && <Table answer={answer} />}
    </>
  );
}
