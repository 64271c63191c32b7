/** What the top makes of everything it touches, and how that differs from the top that holds. */
import { reader, t } from "../../words";
import { differenceText, effectsOf, type Designed, type Effect } from "./effects";

interface EffectsProps {
  readonly now: Designed;
  /** The top that holds; null while nothing else is tried. */
  readonly before: Designed | null;
  readonly withMoney: boolean;
}

function Row({ effect, before }: { effect: Effect; before: Effect | undefined }) {
  const difference = before === undefined ? "" : differenceText(effect, before, reader.value);
  return (
    <tr>
      <th scope="row">{effect.label}</th>
      <td data-testid={`effect-${effect.id}`}>{effect.value === null ? t("not_known") : effect.write(effect.value, reader.value)}</td>
      {before && <td class="difference" data-testid={`effect-${effect.id}-by`}>{difference || "\u2013"}</td>}
    </tr>
  );
}

export function Effects({ now, before, withMoney }: EffectsProps) {
  const rows = effectsOf(now, withMoney);
  const earlier = before && new Map(effectsOf(before, withMoney).map((effect) => [effect.id, effect]));
  return (
    <table class="effects" data-testid="effects">
      <thead><tr><td /><th scope="col">{t(before ? "effect.tried" : "effect.now")}</th>{before && <th scope="col">{t("effect.against")}</th>}</tr></thead>
      <tbody>{rows.map((effect) => <Row key={effect.id} effect={effect} before={earlier?.get(effect.id) ?? undefined} />)}</tbody>
    </table>
  );
}
