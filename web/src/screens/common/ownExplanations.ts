/** Explanations of the figures that the screens put together themselves, from figures of the plan. */
import type { Explanation, OrderRow, Plan, Quote, Section } from "../../wire";
import { told } from "../../words";
import { amountText, quantityText } from "./materials";
import type { Explained } from "./plan";

/** An explanation by our own code and the source it rests on. */
export function explained(code: string, source: string, inputs: Explanation["inputs"]): Explanation {
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

/** The quote of several rooms is explained as that of one is; the engine tells it for a plan alone. */
export function quoteExplained(quote: Quote, margin: number): Explained {
  const { lines, materials, labour, labour_hours: hours } = quote;
  const one = (code: string, inputs: Readonly<Record<string, number | null>>, source = "room") => explained(code, source, given(inputs));
  const each = labour === null || hours === 0 ? null : labour / hours;
  return {
    explanations: {
      ...Object.fromEntries(lines.map((line, index) => [`quote.lines[${index}]`, one("quote_line", { count: line.quantity, each: line.each })])),
      "quote.materials": one("quote_materials", { lines: lines.length }),
      "quote.labour": one("quote_labour", { hours, each }),
      "quote.margin": one("quote_margin", { bought: materials, worked: labour, margin }),
      "quote.total": one("quote_total", { bought: materials, worked: labour, added: quote.margin }),
      "quote.total_range": one("quote_range", { margin }, "kriging"),
    },
  };
}

/** What is known of the inputs. */
function given(inputs: Readonly<Record<string, number | null>>): Explanation["inputs"] {
  return Object.fromEntries(Object.entries(inputs).filter((entry): entry is [string, number] => entry[1] !== null));
}
