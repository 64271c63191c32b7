/** What the room costs, with prices typed here where they lack; the engine's figures may wait, the typing does not. */
import type { Plan } from "../../wire";
import { t } from "../../words";
import { Link } from "../common/Link";
import { LABOUR_RATES, PACKAGE_PRICES } from "../common/prices";
import { PriceField } from "../common/PriceField";
import { QuoteLines } from "../common/QuoteLines";

export function QuoteSection({ plan }: { plan: Plan | null }) {
  return (
    <section class="stack tight" data-testid="quote">
      <h3>{t("quote.title")}</h3>
      <p class="quiet small">{t("quote.whose")}</p>
      {plan ? <QuoteLines quote={plan.quote} explained={plan} /> : PACKAGE_PRICES.map((name) => <PriceField key={name} name={name} />)}
      <details class="fold" data-testid="labour-rates">
        <summary>{t("quote.rates")}</summary>
        <div class="stack tight">{LABOUR_RATES.map((name) => <PriceField key={name} name={name} />)}</div>
      </details>
      <Link to="/prices" class="button wide" testid="to-prices">{t("prices.title")}</Link>
    </section>
  );
}
