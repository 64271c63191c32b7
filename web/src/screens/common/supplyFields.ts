/** What is bought, field by field: how each is typed, and what holds where nobody said. */
import { companySupplies } from "../../state";
import { DEFAULTS, type Fields, type SupplyChoices } from "../../wire";
import { reader } from "../../words";
import { SUPPLY_WRITERS } from "../history/boughtValues";

export type SupplyName = keyof SupplyChoices;
type Typed = "length" | "percent" | "mass" | "area" | "plain";

const POUND = 0.45359237; // kg
const FOOT2 = 0.09290304; // m²

const TYPED: Readonly<Record<SupplyName, Typed>> = {
  "supplies.membrane.roll_width": "length", "supplies.membrane.roll_length": "length", "supplies.membrane.lap": "length",
  "supplies.membrane.turned_up": "length", "supplies.membrane.thickness": "length",
  "supplies.reinforcement.sheet_width": "length", "supplies.reinforcement.sheet_length": "length",
  "supplies.reinforcement.lap": "length", "supplies.reinforcement.waste": "percent",
  "supplies.perimeter_strip.piece": "length", "supplies.perimeter_strip.waste": "percent",
  "supplies.bond_coat.bag_mass": "mass", "supplies.bond_coat.density": "plain", "supplies.bond_coat.waste": "percent",
  "supplies.tile.width": "length", "supplies.tile.box_area": "area", "supplies.tile.waste": "percent",
};
export const SUPPLY_NAMES = Object.keys(TYPED) as readonly SupplyName[];

export function namesOf(item: string): readonly SupplyName[] {
  return SUPPLY_NAMES.filter((name) => name.startsWith(`supplies.${item}.`));
}

export function measureOf(name: SupplyName): "length" | "number" {
  return TYPED[name] === "length" ? "length" : "number";
}

/** What was typed, in the person's units, as it is stored. */
export function storedFrom(name: SupplyName, typed: number): number {
  const isImperial = reader.value.units === "imperial";
  if (TYPED[name] === "percent") return typed / 100;
  if (TYPED[name] === "mass") return typed * (isImperial ? POUND : 1);
  return TYPED[name] === "area" ? typed * (isImperial ? FOOT2 : 1) : typed;
}

/** The unit of what is typed, for the pad; null where the pad of lengths says it. */
export function unitOf(name: SupplyName): string | null {
  const isImperial = reader.value.units === "imperial";
  const units: Readonly<Record<Typed, string | null>> = {
    length: null, percent: "%", mass: isImperial ? "lb" : "kg", area: isImperial ? "ft²" : "m²", plain: "kg/m³",
  };
  return units[TYPED[name]];
}

export function supplyText(name: SupplyName, value: number): string {
  return SUPPLY_WRITERS[name](value);
}

/** What the engine takes where neither room nor company say anything; a tile's width is that of its longest edge. */
export function engineDefault(name: SupplyName, room: Fields<"room"> = {}): number {
  if (name === "supplies.tile.width") return room["bed.covering.longest_edge"] ?? DEFAULTS["bed.covering.longest_edge"];
  return DEFAULTS[name];
}

/** What holds for a room that says nothing of its own. */
export function heldForAll(name: SupplyName, room: Fields<"room"> = {}): number {
  return companySupplies()?.fields[name] ?? engineDefault(name, room);
}
