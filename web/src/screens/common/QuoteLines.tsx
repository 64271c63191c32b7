/** A quote line by line, each price beside its cost and typed there where it lacks one; labour, margin and the total. */
import { hoursText } from "../../units";
import type { Quote, QuoteLine } from "../../wire";
import { reader, t, told } from "../../words";
import { Figure } from "./Figure";
import { moneyText } from "./money";
import type { Explained } from "./plan";
import { currency, type PriceName } from "./prices";
import { PriceField } from "./PriceField";
import { boughtText, spanText, unpricedText } from "./quoteWords";
import type { Range } from "./ranges";

interface QuoteProps {
  readonly quote: Quote;
  readonly explained: Explained;
}

function costText(cost: number | null): string {
  return cost === null ? t("quote.unpriced") : moneyText(cost, currency());
}

/** A sum of which something has no price yet. */
function sumText(sum: number | null): string {
  return sum === null ? t("quote.not_yet") : moneyText(sum, currency());
}

/** What follows the bed's volume has a range; its line is kept free until that is reckoned, so that nothing jumps. */
const OF_THE_VOLUME: ReadonlySet<string> = new Set(["cement", "lime", "sand"]);

function rangeOf(span: readonly [number, number] | null): Range {
  return { text: span && spanText(span), path: "quote.total_range" };
}

function Line({ line, explained, index }: { line: QuoteLine; explained: Explained; index: number }) {
  return (
    <li class="quote-line" data-testid={`quote-${line.item}`}>
      <Figure
        label={told("item", line.item, {}, line.item)} value={costText(line.cost)} note={boughtText(line)} plan={explained} path={`quote.lines[${index}]`}
        {...(OF_THE_VOLUME.has(line.item) && line.cost !== null ? { range: rangeOf(line.cost_range) } : {})}
      />
      <PriceField name={`prices.${line.code}` as PriceName} label={t("quote.each")} />
    </li>
  );
}

function LabourAndMargin({ quote, explained }: QuoteProps) {
  const hours = t("quote.hours", { hours: hoursText(quote.labour_hours, reader.value) });
  return (
    <ul class="quote-lines">
      <li class="quote-line" data-testid="quote-labour">
        <Figure label={t("item.labour")} value={costText(quote.labour)} note={hours} plan={explained} path="quote.labour" />
        <PriceField name="prices.labour.hour" label={t("quote.an_hour")} />
      </li>
      <li class="quote-line" data-testid="quote-margin">
        <Figure label={t("quote.margin")} value={sumText(quote.margin)} plan={explained} path="quote.margin" />
        <PriceField name="prices.margin" label={t("quote.margin")} />
      </li>
    </ul>
  );
}

export function QuoteLines({ quote, explained }: QuoteProps) {
  return (
    <>
      <ul class="quote-lines">{quote.lines.map((line, index) => <Line key={`${line.item}:${index}`} line={line} explained={explained} index={index} />)}</ul>
      <div class="figures one"><Figure label={t("quote.materials")} value={sumText(quote.materials)} plan={explained} path="quote.materials" /></div>
      <LabourAndMargin quote={quote} explained={explained} />
      <div class="figures one"><Figure label={t("quote.total")} value={sumText(quote.total)} size="large" plan={explained} path="quote.total" {...(quote.total === null ? {} : { range: rangeOf(quote.total_range) })} /></div>
      {quote.unpriced.length > 0 && <p class="notice" data-testid="unpriced">{unpricedText(quote)}</p>}
    </>
  );
}
