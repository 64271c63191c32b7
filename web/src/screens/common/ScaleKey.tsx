/** What the colours mean, from the least to the greatest. */
import { HATCHED_FROM } from "../../drawing/Ground";
import type { FillKind } from "../../drawing/scene";

const STEPS = [1, 2, 3, 4, 5, 6, 7];

export function ScaleKey({ kind, low, high }: { kind: FillKind; low: string; high: string }) {
  return (
    <div class="scale-key">
      <span>{low}</span>
      <span class="swatches" aria-hidden="true">{STEPS.map((step) => <span key={step} class={kind === "doubt" && step > HATCHED_FROM ? "hatched" : ""} style={{ backgroundColor: `var(--${kind}-${step})` }} />)}</span>
      <span>{high}</span>
    </div>
  );
}
