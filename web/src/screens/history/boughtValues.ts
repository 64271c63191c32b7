/** How the values of what is bought are written: packages, waste, prices and hours. */
import { companyPrices } from "../../state";
import { areaText, massText } from "../../units";
import type { PricesFields, SupplyChoices } from "../../wire";
import { reader, t } from "../../words";
import { moneyText } from "../common/money";
import { hours, measure, percent, text } from "./smallValues";

type WritersOf<F> = { readonly [P in keyof F]: (value: F[P]) => string };

const mass = (kg: number) => massText(kg, reader.value);
const money = (value: number) => moneyText(value, companyPrices()?.fields["prices.currency"] ?? "");

export const SUPPLY_WRITERS: WritersOf<SupplyChoices> = {
  "supplies.membrane.roll_width": measure, "supplies.membrane.roll_length": measure, "supplies.membrane.lap": measure,
  "supplies.membrane.turned_up": measure, "supplies.membrane.thickness": measure,
  "supplies.reinforcement.sheet_width": measure, "supplies.reinforcement.sheet_length": measure, "supplies.reinforcement.lap": measure,
  "supplies.reinforcement.waste": percent, "supplies.perimeter_strip.piece": measure, "supplies.perimeter_strip.waste": percent,
  "supplies.bond_coat.bag_mass": mass, "supplies.bond_coat.density": (density) => t("value.density", { density }),
  "supplies.bond_coat.waste": percent, "supplies.tile.width": measure, "supplies.tile.box_area": (m2) => areaText(m2, reader.value),
  "supplies.tile.waste": percent,
};

export const PRICE_WRITERS: WritersOf<Omit<PricesFields, "deleted">> = {
  "prices.currency": text,
  "prices.cement_bag": money, "prices.lime_bag": money, "prices.sand": money, "prices.membrane_roll": money,
  "prices.reinforcement_sheet": money, "prices.perimeter_strip_piece": money, "prices.bond_coat_bag": money, "prices.tile_box": money,
  "prices.labour.hour": money, "prices.labour.set_up": hours, "prices.labour.per_area": hours, "prices.labour.per_volume": hours,
  "prices.labour.chipping": hours, "prices.labour.chipping_depth": hours, "prices.margin": percent,
};
