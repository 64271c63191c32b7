/** The stations in the order they are set, lie by lie of the strips, and which one is in hand. */
import { stationKey, type SetStation } from "../../state";
import type { LieOfStrip, Plan, Rail, Station } from "../../wire";
import { nearestMm, roundedMm } from "../common/shims";

/** Where a station stands among those of its strip's lie. */
export interface Standing {
  readonly key: string;
  readonly rail: Rail;
  readonly index: number;
  readonly station: Station;
  /** Which lie of the strip along the rail, counted from 1 at the far end, of how many. */
  readonly lie: number;
  readonly lies: number;
  /** Its number within that lie; stations that an earlier lie had set are not counted. */
  readonly place: number;
  readonly places: number;
  /** Given at the first station of a lie that follows another: what moves, before it is set. */
  readonly begins: LieOfStrip | null;
  /** Which of the strips on hand lies there, counted from 0; null where none were told. */
  readonly strip: number | null;
  /** True for the station with the least shim, where it is the first of all. */
  readonly isStart: boolean;
}

type Laid = Pick<Plan, "rails" | "first_station">;

interface Lie {
  readonly rail: Rail;
  /** How many moves lead to it: strips are moved only after what lies between the earlier ones was filled. */
  readonly moves: number;
  readonly order: number;
  readonly setting: LieOfStrip | null;
  readonly stations: readonly number[];
}

/** A rail's lies in the order they are used, each with the stations that none before it had. */
function liesOf(rail: Rail): readonly Lie[] {
  const settings = [...rail.settings].sort((a, b) => a.order - b.order);
  const seen = new Set<number>();
  let moves = 0;
  const lies = settings.map((setting, index): Lie => {
    if (index > 0 && setting.overlap > 0) moves += 1;
    const stations = setting.stations.filter((station) => !seen.has(station));
    stations.forEach((station) => seen.add(station));
    return { rail, moves, order: index + 1, setting, stations };
  });
  const rest = rail.stations.map((_, index) => index).filter((index) => !seen.has(index));
  return rest.length === 0 ? lies : [...lies, { rail, moves, order: lies.length + 1, setting: null, stations: rest }];
}

/** The rail of the first station, then the ones after it, then those before it: each stands beside one that lies. */
function inTurn({ rails, first_station: first }: Laid): readonly Rail[] {
  const at = Math.max(0, rails.findIndex(({ id }) => id === first?.rail));
  return [...rails.slice(at), ...rails.slice(0, at).reverse()];
}

function standingsIn(lie: Lie, lies: number): readonly Standing[] {
  const { rail, order, setting, stations } = lie;
  return stations.flatMap((index, n): readonly Standing[] => {
    const station = rail.stations[index];
    if (!station) return [];
    const begins = n === 0 && order > 1 ? setting : null;
    return [{ key: stationKey(rail.id, index), rail, index, station, lie: order, lies, place: n + 1, places: stations.length, begins, strip: setting?.strip ?? null, isStart: false }];
  });
}

/** The station with the least shim comes first, unless its strip can only lie there after a move. */
function startedAt(standings: readonly Standing[], first: string | null, isAtOnce: boolean): readonly Standing[] {
  const start = isAtOnce ? standings.find(({ key }) => key === first) : undefined;
  return start ? [{ ...start, begins: null, isStart: true }, ...standings.filter((standing) => standing !== start)] : standings;
}

/**
 * Every station in the order it is set: all lies that can be laid at once, rail after rail from the one with the least
 * shim, each from its far end; then what follows the first moves, and so on.
 */
export function standingsOf(plan: Laid): readonly Standing[] {
  const lies = inTurn(plan).flatMap((rail) => {
    const own = liesOf(rail);
    return own.map((lie) => ({ lie, count: own.length }));
  });
  const inOrder = [...lies].sort((a, b) => a.lie.moves - b.lie.moves);
  const { first_station: first } = plan;
  const isAtOnce = lies.some(({ lie }) => lie.moves === 0 && lie.rail.id === first?.rail && lie.stations.includes(first.station));
  return startedAt(inOrder.flatMap(({ lie, count }) => standingsIn(lie, count)), first && stationKey(first.rail, first.station), isAtOnce);
}

const ROUNDING = 0.8; // mm: half a sixteenth of an inch, which a ramp set to the sixteenth may be off by

/** The shim as it was told when the station was set, mm. */
export function toldBefore({ since }: SetStation, station: Station): number {
  return nearestMm(station.shim - since);
}

/** Whether a station that was set is to be set anew: it is off by more than rounding does, and another figure is told now. */
export function isMoved(set: SetStation, station: Station): boolean {
  return Math.abs(set.since) > ROUNDING && toldBefore(set, station) !== roundedMm(station);
}

/** Stations that were set and are to be set anew, by key. */
export function movedIn(set: ReadonlyMap<string, SetStation>, standings: readonly Standing[]): ReadonlySet<string> {
  return new Set(standings.filter(({ key, station }) => {
    const own = set.get(key);
    return own !== undefined && isMoved(own, station);
  }).map(({ key }) => key));
}

/** Stations that are set as the plan has them now. */
export function doneIn(set: ReadonlyMap<string, SetStation>, standings: readonly Standing[]): ReadonlySet<string> {
  const moved = movedIn(set, standings);
  return new Set([...set.keys()].filter((key) => !moved.has(key)));
}

interface Keys {
  readonly has: (key: string) => boolean;
}

/** The station in hand: the one chosen, else the first that is not set. */
export function inHand(standings: readonly Standing[], set: Keys, chosen: string | null): Standing | null {
  return standings.find(({ key }) => key === chosen) ?? standings.find(({ key }) => !set.has(key)) ?? null;
}

/** The next one to set after `key`, going round once. */
export function afterwards(standings: readonly Standing[], set: Keys, key: string): Standing | null {
  const at = standings.findIndex((standing) => standing.key === key);
  const round = [...standings.slice(at + 1), ...standings.slice(0, at)];
  return round.find((standing) => !set.has(standing.key)) ?? null;
}
