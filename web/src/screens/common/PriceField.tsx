/** One price of the company, typed where it is missed and changed where it is used. For foremen alone. */
import { companyPrices, editPrices } from "../../state";
import { t } from "../../words";
import { priceDefault, priceFrom, priceLabel, priceText, type PriceName } from "./prices";
import { saved } from "./saving";
import { ValueField } from "./ValueField";

interface PriceFieldProps {
  readonly name: PriceName;
  readonly label?: string;
}

export function PriceField({ name, label }: PriceFieldProps) {
  const own = companyPrices()?.fields[name] ?? null;
  const standard = priceDefault(name);
  const held = own ?? standard;
  const keep = (value: number | null) => void saved(editPrices({ [name]: value }));
  return (
    <ValueField
      name={name} label={label ?? priceLabel(name)} shown={held === null ? t("price.none") : priceText(name, held)} measure="number"
      note={t("price.for_all")} isChanged={own !== null && standard !== null && own !== standard} canReset={own !== null}
      onReset={() => keep(null)} {...(standard === null ? { resetLabel: t("price.empty") } : {})}
      onValue={(value) => keep(priceFrom(name, value))}
    />
  );
}
