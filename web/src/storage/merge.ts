/**
 * The phone's own changes with some out of a file among them, put together by the rules of the service (`sync/merge.py`): an
 * edit replaces what its maker had seen; of two made without knowing of each other, the later one stands.
 *
 * Whoever reads a file in has all of it before them: this phone's own edits after that knew it.
 */
import type { AnyFields, Origin } from "../wire";

export interface Foldable {
  readonly change_id: string;
  readonly fields: AnyFields;
  readonly device_time: string;
  readonly origin?: Origin;
}

/** What lies below the changes: the service's state, whose fields carry no moments of their own. */
export interface Base {
  readonly fields: AnyFields;
  readonly changedAt?: string | undefined;
}

/** What one change met: fields made without knowing of each other, and those where the other stayed. */
export interface Met {
  readonly concurrent: readonly string[];
  readonly overruled: readonly string[];
}

interface Stamp {
  readonly at: number;
  /** Where in the order; -1 for what lies below. */
  readonly place: number;
  readonly maker: string;
}

const HERE = "";
const BELOW: Omit<Stamp, "at"> = { place: -1, maker: "below" };

export interface Folded {
  readonly fields: AnyFields;
  readonly met: readonly Met[];
}

/** The changes come in the order of their numbers. */
export function folded(base: Base, changes: readonly Foldable[]): Folded {
  const fields: Record<string, unknown> = { ...base.fields };
  const below = { ...BELOW, at: Date.parse(base.changedAt ?? "") || -Infinity };
  const stamps = new Map<string, Stamp>(Object.keys(fields).map((name) => [name, below]));
  const places = new Map(changes.map((change, place) => [change.change_id, { place, maker: makerOf(change) }]));
  const met = changes.map((change, place) => {
    const stamp = { at: Date.parse(change.origin?.at ?? change.device_time), place, maker: makerOf(change) };
    const known = lastKnown(change, places);
    return put(change, { fields, stamps, stamp, known });
  });
  return { fields, met };
}

function makerOf({ origin }: Foldable): string {
  return origin === undefined ? HERE : (origin.device_id ?? HERE);
}

/** Of each device, the place of the last change that the maker knew; null for this phone's own, which knew them all. */
function lastKnown({ origin }: Foldable, places: ReadonlyMap<string, Pick<Stamp, "place" | "maker">>): ReadonlyMap<string, number> | null {
  if (origin === undefined) return null;
  const last = new Map<string, number>();
  for (const id of origin.knew) {
    const told = places.get(id);
    if (told !== undefined) last.set(told.maker, Math.max(told.place, last.get(told.maker) ?? -1));
  }
  return last;
}

interface Into {
  readonly fields: Record<string, unknown>;
  readonly stamps: Map<string, Stamp>;
  readonly stamp: Stamp;
  readonly known: ReadonlyMap<string, number> | null;
}

function put({ fields: edited }: Foldable, { fields, stamps, stamp, known }: Into): Met {
  const concurrent: string[] = [];
  const overruled: string[] = [];
  for (const [name, value] of Object.entries(edited)) {
    const before = stamps.get(name);
    const isUnknown = before !== undefined && !isKnown(before, stamp, known) && JSON.stringify(fields[name]) !== JSON.stringify(value);
    if (isUnknown) concurrent.push(name);
    if (isUnknown && stamp.at < before.at) overruled.push(name);
    else {
      fields[name] = value;
      stamps.set(name, { ...stamp, at: Math.max(stamp.at, before?.at ?? -Infinity) });
    }
  }
  return { concurrent, overruled };
}

function isKnown(before: Stamp, { maker }: Stamp, known: ReadonlyMap<string, number> | null): boolean {
  return known === null || before.maker === maker || before.place <= (known.get(before.maker) ?? -2);
}
