/**
 * What a phone says again to a database that was put back, field by field, each as of when it was set. Pure.
 *
 * A value that the database holds too may have been set anew since: unsaid, it would lose to another phone's that stood
 * for a while in between.
 */
import { isChangeable } from "../carrying";
import type { AnyFields } from "../wire";
import type { StoredRecord } from "./database";

/** Fields that were set at one moment, in ms since 1970 by the service's clock; null where that is not known. */
export interface Offer {
  readonly at: number | null;
  readonly fields: AnyFields;
}

/**
 * The oldest first. `mine`: the fields of `held` that this phone may offer. A record that `theirs` lacks is made whole, as
 * of its oldest field: the service takes no half of one.
 */
export function offersOf(held: StoredRecord, mine: AnyFields, theirs: StoredRecord | undefined): readonly Offer[] {
  const names = Object.keys(mine).filter((name) => differs(name, mine, theirs?.fields) || isSetAnew(name, held, theirs));
  const moments = [...new Set(names.map((name) => setAt(held, name)))].sort((a, b) => (a ?? 0) - (b ?? 0));
  const offers = moments.map((at) => ({ at, fields: picked(mine, names.filter((name) => setAt(held, name) === at)) }));
  const [oldest, ...later] = offers;
  if (theirs !== undefined || oldest === undefined) return offers;
  const again = later.map(({ at, fields }) => ({ at, fields: changeable(held, fields) }));
  return [{ at: oldest.at, fields: mine }, ...again.filter(({ fields }) => Object.keys(fields).length > 0)];
}

/**
 * When each field was set, ISO 8601, with changes on top that are here and not yet pulled; a change whose value does not
 * stand moves nothing. Null where nobody told the times of what lies below.
 */
export function timesOnTop(
  under: StoredRecord | undefined,
  fields: AnyFields,
  changes: readonly { readonly fields: AnyFields; readonly at: number }[],
): Readonly<Record<string, string>> | null {
  if (under !== undefined && (under.times === undefined || under.changed_at === undefined)) return null;
  const below = Object.keys(under?.fields ?? {}).map((name) => [name, under?.times?.[name] ?? under?.changed_at ?? ""] as const);
  const times = new Map(below.map(([name, at]) => [name, Date.parse(at)]));
  for (const { fields: said, at } of changes) {
    const standing = Object.keys(said).filter((name) => !differs(name, said, fields));
    for (const name of standing) times.set(name, Math.max(at, times.get(name) ?? at));
  }
  return Object.fromEntries([...times].map(([name, at]) => [name, new Date(at).toISOString()]));
}

function differs(name: string, mine: AnyFields, theirs: AnyFields | undefined): boolean {
  return JSON.stringify((mine as Record<string, unknown>)[name]) !== JSON.stringify((theirs as Record<string, unknown> | undefined)?.[name]);
}

/** The same value, set later than the one there. Unsaid where a phone or a service of an earlier version knew no times. */
function isSetAnew(name: string, held: StoredRecord, theirs: StoredRecord | undefined): boolean {
  if (held.times === undefined || theirs?.times === undefined || !isChangeable(held.kind, name)) return false;
  return (setAt(held, name) ?? -Infinity) > (setAt(theirs, name) ?? Infinity);
}

function setAt({ times, changed_at }: StoredRecord, name: string): number | null {
  const told = times?.[name] ?? changed_at;
  return told === undefined ? null : Date.parse(told);
}

function picked(fields: AnyFields, names: readonly string[]): AnyFields {
  return Object.fromEntries(Object.entries(fields).filter(([name]) => names.includes(name)));
}

function changeable({ kind }: StoredRecord, fields: AnyFields): AnyFields {
  return picked(fields, Object.keys(fields).filter((name) => isChangeable(kind, name)));
}
