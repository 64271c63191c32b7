/** Explanations of the figures that the screens put together themselves, from figures of the plan. */
import type { Explanation, Plan, Section } from "../../wire";
import { told } from "../../words";

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
