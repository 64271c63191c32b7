/** What is shown: the service's state with the phone's own changes on top. Pure. */
import type { AnyFields, Conflicts, Kind, Row } from "../wire";
import type { QueuedChange, StoredRecord } from "./database";
import { folded } from "./merge";

export function keyText(kind: Kind, id: string): string {
  return `${kind}/${id}`;
}

/**
 * One record as shown. `held` is what an earlier database knew of it, below everything else. Null where nothing is
 * known: its only change was refused, say.
 */
export function rowFrom(
  key: { readonly kind: Kind; readonly id: string },
  known: { readonly record?: StoredRecord | undefined; readonly held?: StoredRecord | undefined },
  changes: readonly QueuedChange[],
): Row | null {
  const base = known.record ?? known.held;
  if (base === undefined && changes.length === 0) return null;
  return {
    ...key,
    fields: fieldsOnTop(base?.fields ?? {}, changes, base?.changed_at),
    sequence: known.record?.sequence ?? 0,
    waiting: changes.filter((change) => change.acked === 0).length,
    conflicts: undecided(known.record?.conflicts ?? {}, changes),
  };
}

/** What still waits for a decision: not a field that a change on top has set again, knowing of what lost. */
function undecided(conflicts: Conflicts, changes: readonly QueuedChange[]): Conflicts {
  const left = Object.entries(conflicts).map(([field, lost]) => {
    const knew = Math.max(0, ...changes.filter((change) => field in change.fields).map((change) => change.seen));
    return [field, lost.filter((one) => one.sequence > knew)] as const;
  });
  return Object.fromEntries(left.filter(([, lost]) => lost.length > 0));
}

/** The fields with the changes applied in order of their numbers; by the rules of merging where some came out of a file. */
export function fieldsOnTop(fields: AnyFields, changes: readonly QueuedChange[], changedAt?: string): AnyFields {
  const inOrder = [...changes].sort((a, b) => a.number - b.number);
  if (inOrder.some(({ origin }) => origin !== undefined)) return folded({ fields, changedAt }, inOrder).fields;
  return Object.assign({}, fields, ...inOrder.map((change) => change.fields)) as AnyFields;
}

/** Every record that is known in any of the three places, as shown. */
export function rowsFrom(
  records: readonly StoredRecord[],
  held: readonly StoredRecord[],
  changes: readonly QueuedChange[],
): readonly Row[] {
  const recordBy = new Map(records.map((record) => [keyText(record.kind, record.id), record]));
  const heldBy = new Map(held.map((record) => [keyText(record.kind, record.id), record]));
  const changesBy = groupBy(changes, (change) => keyText(change.kind, change.record_id));
  const keys = new Map([...records, ...held].map(({ kind, id }) => [keyText(kind, id), { kind, id }]));
  for (const { kind, record_id: id } of changes) keys.set(keyText(kind, id), { kind, id });
  const rows = [...keys].map(([text, key]) =>
    rowFrom(key, { record: recordBy.get(text), held: heldBy.get(text) }, changesBy.get(text) ?? []),
  );
  return rows.filter((row) => row !== null);
}

function groupBy<T>(items: readonly T[], key: (item: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) groups.set(key(item), [...(groups.get(key(item)) ?? []), item]);
  return groups;
}
