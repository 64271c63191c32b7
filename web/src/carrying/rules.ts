/**
 * What the service would refuse of a file, refused here too, so that nothing comes into a phone that it could never hand over:
 * the rules of `sync/check.py`, less those of who may do what.
 */
import { withoutLetGo, type AnyFields } from "../wire";
import { JobFileError } from "./faults";
import { neededIn, wrongField } from "./fields";
import { PARENTS, type FileChange } from "./shapes";

/** Of a record that is final once it was made: what may be changed all the same. */
const CHANGEABLE: Readonly<Record<string, readonly string[]>> = { reading: ["deleted"], sign_off: ["deleted", "note"] };
const PLACES = ["at", "mark"];
const WITH_TICKS = 1; // the schema that knew fields which are let go of since

export function keyOf(kind: string, id: string): string {
  return `${kind}/${id}`;
}

/** Whether a field of a record that is here may be said again. */
export function isChangeable(kind: string, name: string): boolean {
  return CHANGEABLE[kind]?.includes(name) ?? true;
}

/** `standing`: the records that are here already. Throws JobFileError. */
export function checkChanges(changes: readonly FileChange[], standing: ReadonlyMap<string, AnyFields> = new Map()): void {
  const known = new Map(standing);
  for (const change of changes) {
    const key = keyOf(change.kind, change.record_id);
    const fields = change.schema > WITH_TICKS ? change.fields : withoutLetGo(change.kind, change.fields);
    const before = known.get(key);
    const wrong = Object.keys(change.fields).length === 0 ? "" : wrongIn(change.kind, fields, before);
    if (wrong !== null) throw refused(change, wrong);
    known.set(key, { ...before, ...fields });
  }
}

/** A change whose id is taken: it must be the very one that is known here. Throws JobFileError. */
export function checkSame(change: FileChange, known: Known): void {
  const isSame = change.kind === known.kind && change.record_id === known.record_id && isEqual(withoutCrew(change), withoutCrew(known));
  if (!isSame) throw refused(change, "change_id");
}

interface Known {
  readonly kind: string;
  readonly record_id: string;
  readonly fields: AnyFields;
}

function refused({ kind, record_id }: FileChange, field: string): JobFileError {
  return new JobFileError("refused", `${kind} ${record_id} ${field}`.trim());
}

/** A foreman's choice may have been left behind, here or where the file was made. */
function withoutCrew({ kind, fields }: Known): AnyFields {
  return kind === "job" ? Object.fromEntries(Object.entries(fields).filter(([name]) => name !== "crew")) : fields;
}

function wrongIn(kind: FileChange["kind"], fields: AnyFields, before: AnyFields | undefined): string | null {
  return finalIn(kind, fields, before) ?? wrongField(kind, fields) ?? (before === undefined ? lackingIn(kind, fields) : movedIn(kind, fields, before));
}

function finalIn(kind: string, fields: AnyFields, before: AnyFields | undefined): string | null {
  if (before === undefined) return null;
  return Object.keys(fields).find((name) => !isChangeable(kind, name) && !isEqual(fields[name], before[name])) ?? null;
}

function lackingIn(kind: string, fields: AnyFields): string | null {
  const lacking = neededIn(kind).find((name) => !Object.hasOwn(fields, name));
  if (lacking !== undefined || kind !== "reading") return lacking ?? null;
  return PLACES.filter((name) => fields[name] != null).length === 1 ? null : PLACES.join(" ");
}

/** A record stays where it was made. */
function movedIn(kind: FileChange["kind"], fields: AnyFields, before: AnyFields): string | null {
  if (kind === "job") return null;
  const [, field] = PARENTS[kind];
  return Object.hasOwn(fields, field) && fields[field] !== before[field] ? field : null;
}

function isEqual(one: unknown, other: unknown): boolean {
  return JSON.stringify(ordered(one)) === JSON.stringify(ordered(other));
}

function ordered(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(ordered);
  if (typeof value !== "object" || value === null) return value;
  return Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, part]) => [name, ordered(part)]);
}
