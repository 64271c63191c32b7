/** Explanations of the figures that the screens put together themselves, from figures of the plan. */
import type { Explanation, OrderRow, Plan, Section } from "../../wire";
import { told } from "../../words";
import { amountText, quantityText } from "./materials";

function explained(code: string, source: string, inputs: Explanation["inputs"]): Explanation {
  return { code, formula: told("formula", code, {}, code), inputs, source: told("source", source, {}, source), source_code: source };
}

export function highToLow({ surface }: Plan): Explanation {
  return explained("high_to_low", "surface", { highest: surface.highest.z, lowest: surface.lowest.z });
}

export function roundTheWalls({ outline }: Plan): Explanation {
  return explained("perimeter", "geometry", { walls: outline.vertices.length });
}

export function sectionVolume(section: Section, plan: Plan): Explanation {
  return explained("section", "surface", { volume: section.volume, triangles: plan.surface.triangles.length });
}

/** What rooms need together; `size` is one package in words, null for what comes in none. */
export function addedUp({ item, rooms, quantity, unit }: OrderRow, size: string | null): Explanation {
  const needed = quantityText({ quantity, unit });
  if (size === null) return explained("rooms_added", "geometry", { room_names: rooms.join(", "), needed: item === "water" ? amountText({ item, quantity, packages: null, loose_volume: null }) : needed });
  return explained("rooms_packed", "geometry", { room_names: rooms.join(", "), needed, one_package: size });
}
