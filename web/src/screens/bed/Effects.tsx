/** What the top makes of the floor and of the order, and how that differs from the chosen top. */
import { seesMoney } from "../../state";
import { reader, t } from "../../words";
import { Figure } from "../common/Figure";
import { differenceText, effectsOf, watchedOf, type Designed, type Effect } from "./effects";

interface EffectsProps {
  readonly now: Designed;
  /** What the chosen top makes; null while nothing else is tried. */
  readonly before: Designed | null;
}

function Watched({ effect, now, earlier }: { effect: Effect; now: Designed; earlier: readonly Effect[] }) {
  const before = earlier.find(({ id }) => id === effect.id);
  const text = effect.value === null ? t("not_known") : effect.write(effect.value, reader.value);
  return <Figure label={effect.label} value={text} plan={now} path={effect.path} by={differenceText(effect, before, reader.value)} />;
}

export function Effects({ now, before }: EffectsProps) {
  const earlier = before ? effectsOf(before, seesMoney.value) : [];
  return (
    <div class="effects" role="group" aria-label={t(before ? "effect.tried" : "effect.now")} data-testid="effects">
      {watchedOf(now, seesMoney.value).map((effect) => <Watched key={effect.id} effect={effect} now={now} earlier={earlier} />)}
    </div>
  );
}
