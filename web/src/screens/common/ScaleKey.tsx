/** What the colours mean, from the least to the greatest. */
import { PATTERNS } from "../../drawing/Ground";
import type { FillKind } from "../../drawing/scene";

const STEPS = [1, 2, 3, 4, 5, 6, 7];
const CLASSES = { hatch: "hatched", dots: "dotted" } as const;

function patternOf(kind: FillKind, step: number): string {
  const found = PATTERNS[kind]?.find(({ bands }) => bands.includes(step - 1));
  return found ? CLASSES[found.pattern] : "";
}

export function ScaleKey({ kind, low, high }: { kind: FillKind; low: string; high: string }) {
  return (
    <div class="scale-key">
      <span>{low}</span>
      <span class="swatches" aria-hidden="true">{STEPS.map((step) => <span key={step} class={patternOf(kind, step)} style={{ backgroundColor: `var(--${kind}-${step})` }} />)}</span>
      <span>{high}</span>
    </div>
  );
}
