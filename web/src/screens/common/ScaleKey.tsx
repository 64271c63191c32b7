/** What the colours mean, from the least to the greatest. */
const STEPS = [1, 2, 3, 4, 5, 6, 7];

export function ScaleKey({ kind, low, high }: { kind: "ground" | "bed"; low: string; high: string }) {
  return (
    <div class="scale-key">
      <span>{low}</span>
      <span class="swatches" aria-hidden="true">{STEPS.map((step) => <span key={step} style={{ background: `var(--${kind}-${step})` }} />)}</span>
      <span>{high}</span>
    </div>
  );
}
