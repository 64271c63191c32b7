/** The whole order of a room: as it is bought, with the quantity beneath and its range where there is one. */
import type { Material, Plan } from "../../wire";
import { t } from "../../words";
import { Figure } from "../common/Figure";
import { amountText, itemName, quantityText, rangeText } from "../common/materials";
import type { Range } from "../common/ranges";

/** What follows the bed's volume, and so how well the floor was read. */
const OF_THE_VOLUME: ReadonlySet<string> = new Set(["cement", "lime", "sand", "water"]);

function rangeOf(item: Material): Range | null {
  if (!OF_THE_VOLUME.has(item.item)) return null;
  return { text: rangeText(item), path: item.item === "cement" ? "mix.bags_range" : "bed.volume_range" };
}

export function OrderList({ plan }: { plan: Plan }) {
  return (
    <section class="stack tight">
      <h3>{t("order.title")}</h3>
      <div class="figures one" data-testid="order">
        {plan.materials.map((item, index) => {
          const range = rangeOf(item);
          return (
            <Figure
              key={item.item} label={itemName(item)} value={amountText(item)} note={quantityText(item)} plan={plan} path={`materials[${index}]`}
              {...(range ? { range } : {})}
            />
          );
        })}
      </div>
    </section>
  );
}
