/** The stations in the order they are set, and which one is in hand. */
import { stationKey, type SetStation } from "../../state";
import type { Rail, Station } from "../../wire";

export interface Standing {
  readonly key: string;
  readonly rail: Rail;
  readonly index: number;
  readonly station: Station;
}

/** Every station, rail after rail, each from its beginning. */
export function standingsOf(rails: readonly Rail[]): readonly Standing[] {
  return rails.flatMap((rail) => rail.stations.map((station, index) => ({ key: stationKey(rail.id, index), rail, index, station })));
}

/** The station in hand: the one chosen, else the first that is not set. */
export function inHand(standings: readonly Standing[], set: ReadonlyMap<string, SetStation>, chosen: string | null): Standing | null {
  return standings.find(({ key }) => key === chosen) ?? standings.find(({ key }) => !set.has(key)) ?? null;
}

/** The next one to set after `key`, going round once. */
export function afterwards(standings: readonly Standing[], set: ReadonlyMap<string, SetStation>, key: string): Standing | null {
  const at = standings.findIndex((standing) => standing.key === key);
  const round = [...standings.slice(at + 1), ...standings.slice(0, at)];
  return round.find((standing) => !set.has(standing.key)) ?? null;
}
