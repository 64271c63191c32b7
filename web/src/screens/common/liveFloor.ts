/** The floor as it stands, for the drawing: sections by state, rails set or not, open edges, channels to pack. */
import type { Place } from "../../drawing/camera";
import type { SceneLive } from "../../drawing/live";
import type { Scene } from "../../drawing/scene";
import { roomOf, setStationsOf, stationKey, type SetStation } from "../../state";
import type { Plan } from "../../wire";
import { fillingOf, type FillingNow } from "./filled";

export function liveFrom(plan: Plan, mixer: Place | null, { sections, clock }: Pick<FillingNow, "sections" | "clock">, set: ReadonlyMap<string, SetStation>): SceneLive {
  return {
    sections: sections.map(({ section, state, isTrapped }) => ({ id: section.id, polygon: section.polygon, label: `${section.order}`, state, isTrapped })),
    rails: plan.rails.map(({ id, from, to, stations }) => ({ id, from, to, isSet: stations.length > 0 && stations.every((_, index) => set.has(stationKey(id, index))) })),
    edges: (clock?.stop_edges ?? []).map(({ id, from, to }) => ({ id, from, to })),
    channels: sections.filter(({ state }) => state === "screeded").flatMap(({ section }) => section.channels.map(({ from, to }) => ({ from, to }))),
    mixer,
  };
}

/** The room's scene with the live floor on it. Subscribes. */
export function liveScene(room: Scene, plan: Plan | null, id: string): Scene {
  if (!plan) return room;
  const mixer = roomOf(id)?.fields["filling.mixer"] ?? null;
  return { ...room, wallLabels: [], live: liveFrom(plan, mixer, fillingOf(id, plan), setStationsOf(id, plan.rails)) };
}
