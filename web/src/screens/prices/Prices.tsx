/** What the company buys in which packages, for everybody to see; and what it costs, for foremen alone, who write both. */
import { clearDraft, companyPrices, companySupplies, editPrices, editSupplies, getDraft, seesMoney } from "../../state";
import { PRICES_ID, SUPPLIES_ID } from "../../wire";
import { t, told } from "../../words";
import { Link } from "../common/Link";
import { LABOUR_RATES, PACKAGE_PRICES } from "../common/prices";
import { PriceField } from "../common/PriceField";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import { engineDefault, heldForAll, measureOf, namesOf, storedFrom, supplyText, unitOf, type SupplyName } from "../common/supplyFields";
import { TextField, typedIn } from "../common/TextField";
import { ValueField } from "../common/ValueField";

const ITEMS = ["membrane", "reinforcement", "perimeter_strip", "bond_coat", "tile"] as const;
const CURRENCY = "prices:currency";

function Currency() {
  const stands = companyPrices()?.fields["prices.currency"] ?? "";
  const typed = typedIn(CURRENCY, stands).trim();
  const isTyped = getDraft(CURRENCY) !== undefined && typed !== stands;
  const keep = () => void saved(isTyped ? editPrices({ "prices.currency": typed || null }, { draft: CURRENCY }) : clearDraft(CURRENCY));
  return (
    <form class="stack tight" onSubmit={(event) => { event.preventDefault(); keep(); }}>
      <TextField label={t("prices.currency")} draft={CURRENCY} testid="currency" otherwise={stands} autocapitalize="characters" />
      {isTyped && <button type="submit" class="button main wide" data-testid="keep-currency">{t("keep")}</button>}
    </form>
  );
}

function Money() {
  return (
    <>
      <section class="stack tight" data-testid="company-prices">
        <h2>{t("prices.packages")}</h2>
        <Currency />
        {PACKAGE_PRICES.map((name) => <PriceField key={name} name={name} />)}
      </section>
      <section class="stack tight">
        <h2>{t("prices.labour")}</h2>
        <PriceField name="prices.labour.hour" />
        {LABOUR_RATES.map((name) => <PriceField key={name} name={name} />)}
        <PriceField name="prices.margin" />
        {companyPrices() && <Link to={pathOfHistory("prices", PRICES_ID)} class="button wide" testid="prices-history">{t("history.open")}</Link>}
      </section>
    </>
  );
}

function SupplyLine({ name }: { name: SupplyName }) {
  const label = t(`named.supplies.${name}`);
  const shown = supplyText(name, heldForAll(name));
  if (!seesMoney.value) return <div class="line"><span>{label}</span><span class="given">{shown}</span></div>;
  const own = companySupplies()?.fields[name] ?? null;
  const unit = unitOf(name);
  const keep = (value: number | null) => void saved(editSupplies({ [name]: value }));
  return (
    <ValueField
      name={`company:${name}`} label={label} shown={shown} measure={measureOf(name)} note={unit === null ? t("supplies.company") : t("supplies.company_in", { unit })}
      isChanged={own !== null && own !== engineDefault(name)} onReset={() => keep(null)} onValue={(value) => keep(storedFrom(name, value))}
    />
  );
}

function Packages() {
  return (
    <section class="stack tight" data-testid="company-supplies">
      <h2>{t("supplies.title")}</h2>
      <p class="quiet">{t(seesMoney.value ? "supplies.company" : "supplies.foremans")}</p>
      {ITEMS.map((item) => (
        <div key={item} class="stack tight">
          <h3>{told("item", item, {}, item)}</h3>
          {namesOf(item).map((name) => <SupplyLine key={name} name={name} />)}
        </div>
      ))}
      {companySupplies() && <Link to={pathOfHistory("supplies", SUPPLIES_ID)} class="button wide" testid="supplies-history">{t("history.open")}</Link>}
    </section>
  );
}

export function Prices() {
  return (
    <main class="page" data-testid="prices">
      <h1>{t(seesMoney.value ? "prices.title" : "supplies.title")}</h1>
      {seesMoney.value && <p class="quiet">{t("prices.whose")}</p>}
      <div class={seesMoney.value ? "price-columns" : "stack wide-gaps"}>
        {seesMoney.value && <div class="stack wide-gaps"><Money /></div>}
        <Packages />
      </div>
    </main>
  );
}
