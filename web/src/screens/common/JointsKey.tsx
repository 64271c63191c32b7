/** What the lines of the joints mean, each with its width. */
import { depthText } from "../../units";
import type { Plan } from "../../wire";
import { reader, t } from "../../words";

type Kind = "perimeter" | "field" | "slab";

const MIDDLE = 7; // px down the sample
const LONG = 56;

function Sample({ kind }: { kind: Kind }) {
  const line = `M0 ${MIDDLE}H${LONG}`;
  return (
    <svg class="sheet" viewBox={`0 0 ${LONG} ${2 * MIDDLE}`} aria-hidden="true">
      {kind === "perimeter" ? <g class="joints"><path class="perimeter" d={line} /></g> : <g class={`joint ${kind}`}><path d={line} /></g>}
    </svg>
  );
}

/** Kinds that are not in the room are left out. */
export function JointsKey({ joints }: { joints: Plan["joints"] }) {
  const kinds = (["perimeter", "field", "slab"] as const).filter((kind) => kind === "perimeter" || joints.field.some((joint) => joint.kind === kind));
  return (
    <ul class="joints-key" data-testid="joints-key">
      {kinds.map((kind) => (
        <li key={kind}><Sample kind={kind} /><span>{t(`joint.${kind}`)}</span><span>{depthText(kind === "perimeter" ? joints.perimeter.width : joints.width, reader.value)}</span></li>
      ))}
    </ul>
  );
}
