/** Prices, field by field: what each is called, how it is typed in the units of the place, and how it is shown. */
import { companyPrices } from "../../state";
import { hoursText, numberText } from "../../units";
import { DEFAULTS, type PricesFields } from "../../wire";
import { reader, t } from "../../words";
import { moneyText } from "./money";

export type PriceName = Exclude<keyof PricesFields, "deleted" | "prices.currency">;

const YARD3 = 0.764554857984; // m³
const HUNDRED_FEET2 = 9.290304; // m²
const EIGHTH = 3.175; // mm

export const PACKAGE_PRICES = [
  "prices.cement_bag", "prices.lime_bag", "prices.sand", "prices.membrane_roll", "prices.reinforcement_sheet",
  "prices.perimeter_strip_piece", "prices.bond_coat_bag", "prices.tile_box",
] as const satisfies readonly PriceName[];
export const LABOUR_RATES = [
  "prices.labour.set_up", "prices.labour.per_area", "prices.labour.per_volume", "prices.labour.chipping", "prices.labour.chipping_depth",
] as const satisfies readonly PriceName[];

interface Imperial {
  readonly label: "price.sand_yard" | "price.per_area_feet" | "price.per_volume_yard" | "price.chipping_feet" | "price.chipping_depth_feet";
  /** How many of what is stored by are in what is spoken of. */
  readonly factor: number;
}

const IN_FEET: Partial<Record<PriceName, Imperial>> = {
  "prices.sand": { label: "price.sand_yard", factor: YARD3 },
  "prices.labour.per_area": { label: "price.per_area_feet", factor: HUNDRED_FEET2 },
  "prices.labour.per_volume": { label: "price.per_volume_yard", factor: YARD3 },
  "prices.labour.chipping": { label: "price.chipping_feet", factor: HUNDRED_FEET2 },
  "prices.labour.chipping_depth": { label: "price.chipping_depth_feet", factor: HUNDRED_FEET2 * EIGHTH },
};

function imperialOf(name: PriceName): Imperial | undefined {
  return reader.value.units === "imperial" ? IN_FEET[name] : undefined;
}

export function priceLabel(name: PriceName): string {
  const imperial = imperialOf(name);
  return imperial ? t(imperial.label) : t(`named.prices.${name}`);
}

function isRate(name: PriceName): boolean {
  return (LABOUR_RATES as readonly string[]).includes(name);
}

export function currency(): string {
  return companyPrices()?.fields["prices.currency"] ?? "";
}

/** A price or rate by its stored value: money, hours, or the margin in percent. */
export function priceText(name: PriceName, stored: number): string {
  const value = stored * (imperialOf(name)?.factor ?? 1);
  if (name === "prices.margin") return `${numberText(stored * 100, 1, reader.value.language)}\u202f%`;
  return isRate(name) ? hoursText(value, reader.value) : moneyText(value, currency());
}

export function priceFrom(name: PriceName, typed: number): number {
  return name === "prices.margin" ? typed / 100 : typed / (imperialOf(name)?.factor ?? 1);
}

/** What holds where nobody said: the engine knows rates and margin, and never a price. */
export function priceDefault(name: PriceName): number | null {
  return (DEFAULTS as Partial<Record<PriceName, number>>)[name] ?? null;
}

/** Loose sand as it is bought: cubic yards or cubic metres. */
export function sandText(m3: number): string {
  const isImperial = reader.value.units === "imperial";
  const text = numberText(isImperial ? m3 / YARD3 : m3, 2, reader.value.language);
  return `${text}\u202f${isImperial ? "yd³" : "m³"}`;
}
