/** What the room costs: every line with its price, typed here where it lacks one; labour, margin and the total. Foremen only. */
import { hoursText } from "../../units";
import type { Plan, QuoteLine } from "../../wire";
import { reader, t, told } from "../../words";
import { Figure } from "../common/Figure";
import { Link } from "../common/Link";
import { moneyText } from "../common/money";
import { currency, LABOUR_RATES, PACKAGE_PRICES, type PriceName } from "../common/prices";
import { PriceField } from "../common/PriceField";
import { boughtText, spanText, unpricedText } from "../common/quoteWords";
import type { Range } from "../common/ranges";

function costText(cost: number | null): string {
  return cost === null ? t("quote.unpriced") : moneyText(cost, currency());
}

/** Only what follows the volume has a range; its line is kept free until it is reckoned. */
function rangeOf(span: readonly [number, number] | null): { readonly range?: Range } {
  return span ? { range: { text: spanText(span), path: "quote.total_range" } } : {};
}

function Line({ line, plan, index }: { line: QuoteLine; plan: Plan; index: number }) {
  return (
    <li class="quote-line" data-testid={`quote-${line.item}`}>
      <Figure
        label={told("item", line.item, {}, line.item)} value={costText(line.cost)} note={boughtText(line)} plan={plan} path={`quote.lines[${index}]`}
        {...rangeOf(line.cost_range)}
      />
      <PriceField name={`prices.${line.code}` as PriceName} label={t("quote.each")} />
    </li>
  );
}

/** While the engine is not there yet, prices can be typed all the same. */
function PricesAlone() {
  return <div class="stack tight">{PACKAGE_PRICES.map((name) => <PriceField key={name} name={name} />)}</div>;
}

function Sums({ plan }: { plan: Plan }) {
  const { quote } = plan;
  const hours = t("quote.hours", { hours: hoursText(quote.labour_hours, reader.value) });
  return (
    <>
      <div class="figures one">
        <Figure label={t("quote.materials")} value={costText(quote.materials)} plan={plan} path="quote.materials" />
      </div>
      <ul class="quote-lines">
        <li class="quote-line" data-testid="quote-labour">
          <Figure label={t("item.labour")} value={costText(quote.labour)} note={hours} plan={plan} path="quote.labour" />
          <PriceField name="prices.labour.hour" label={t("quote.an_hour")} />
        </li>
        <li class="quote-line" data-testid="quote-margin">
          <Figure label={t("quote.margin")} value={costText(quote.margin)} plan={plan} path="quote.margin" />
          <PriceField name="prices.margin" label={t("quote.margin")} />
        </li>
      </ul>
      <div class="figures one">
        <Figure label={t("quote.total")} value={costText(quote.total)} size="large" plan={plan} path="quote.total" {...rangeOf(quote.total_range)} />
      </div>
      {quote.unpriced.length > 0 && <p class="notice" data-testid="unpriced">{unpricedText(quote)}</p>}
    </>
  );
}

export function QuoteSection({ plan }: { plan: Plan | null }) {
  return (
    <section class="stack tight" data-testid="quote">
      <h3>{t("quote.title")}</h3>
      <p class="quiet small">{t("quote.whose")}</p>
      {plan ? <ul class="quote-lines">{plan.quote.lines.map((line, index) => <Line key={line.item} line={line} plan={plan} index={index} />)}</ul> : <PricesAlone />}
      {plan && <Sums plan={plan} />}
      <details class="fold" data-testid="labour-rates">
        <summary>{t("quote.rates")}</summary>
        <div class="stack tight">{LABOUR_RATES.map((name) => <PriceField key={name} name={name} />)}</div>
      </details>
      <Link to="/prices" class="button wide" testid="to-prices">{t("prices.title")}</Link>
    </section>
  );
}
