/** What is later than a signature: every input that was added, changed or taken away, by the record and field it lies in. */
import type { AnyFields, Kind, RoomDocument } from "../../wire";
import { canonicalText } from "../common/canonical";
import type { Content } from "./content";

export interface Change {
  readonly kind: Kind;
  /** Of the record; empty for one that the document does not name. */
  readonly id: string;
  /** Null where the whole record came or went. */
  readonly field: string | null;
  readonly what: "added" | "changed" | "removed";
  readonly before: unknown;
  readonly after: unknown;
}

/** The document's lists of records that are kept nowhere else, by the kind of record each entry is made of. */
const LISTS = { readings: "reading", logs: "temperature_log", forecast: "forecast_day" } as const satisfies Partial<Record<keyof RoomDocument, Kind>>;
type ListName = keyof typeof LISTS;

/** What is one field of the room, though it is a list. */
const FIELDS = ["outline", "openings", "fixtures", "setups", "marks", "instrument_checks"] as const;
const GROUPS = ["bed", "rails", "mix", "curing", "adjustment", "joints", "supplies", "filling", "flatness"] as const;
/** Groups whose inner objects are choices of their own; any other object is one value. */
const INNER: ReadonlySet<string> = new Set(["bed.covering", "rails.strip", "supplies"]);
/** What only ties records together. */
const NOT_TOLD: ReadonlySet<string> = new Set(["id", "room_id", "job_id", "deleted"]);

interface Entry {
  readonly kind: Kind;
  readonly id: string;
  readonly fields: AnyFields;
}

/** Everything that differs, `then` being what was signed: the room's own fields first, then records in order of their making. */
export function changesBetween(then: Content, now: Content): readonly Change[] {
  const before = entriesOf(then);
  const after = entriesOf(now);
  const keys = [...new Set([...before.keys(), ...after.keys()])].sort((a, b) => rank(a) - rank(b));
  return keys.flatMap((key) => changesOf(before.get(key), after.get(key)));
}

function rank(key: string): number {
  return key.startsWith("job:") || key.startsWith("room:") ? 0 : 1;
}

function changesOf(before: Entry | undefined, after: Entry | undefined): readonly Change[] {
  const one = after ?? before;
  if (!one) return [];
  const { kind, id } = one;
  if (!before || !after) return [{ kind, id, field: null, what: before ? "removed" : "added", before: before?.fields ?? null, after: after?.fields ?? null }];
  const fields = [...new Set([...Object.keys(before.fields), ...Object.keys(after.fields)])].filter((field) => !NOT_TOLD.has(field));
  return fields.flatMap((field): readonly Change[] => {
    const [was, is] = [before.fields[field] ?? null, after.fields[field] ?? null];
    if (canonicalText(was) === canonicalText(is)) return [];
    return [{ kind, id, field, what: was === null ? "added" : is === null ? "removed" : "changed", before: was, after: is }];
  });
}

function entriesOf(content: Content): ReadonlyMap<string, Entry> {
  const all = [jobEntry(content), roomEntry(content), ...listEntries(content.document), ...content.rows];
  return new Map(all.map(({ kind, id, fields }) => [`${kind}:${id}`, { kind, id, fields }]));
}

function jobEntry({ room, job }: Content): Entry {
  return { kind: "job", id: room.job_id ?? "", fields: job };
}

/** The room's own fields under the names that its record has, as the document holds them. */
function roomEntry({ room_id: id, room, document }: Content): Entry {
  const whole = Object.fromEntries(FIELDS.map((name) => [name, document[name]]));
  const choices = Object.assign({}, ...GROUPS.map((group) => dotted(group, document[group] ?? {}))) as AnyFields;
  return { kind: "room", id, fields: { name: room.name, note: room.note, ...whole, ...choices } };
}

function dotted(path: string, group: AnyFields): AnyFields {
  const parts = Object.entries(group).map(([name, value]): AnyFields => {
    const inner = `${path}.${name}`;
    return isInner(path, inner, value) ? dotted(inner, value) : { [inner]: value };
  });
  return Object.assign({}, ...parts) as AnyFields;
}

function isInner(path: string, inner: string, value: unknown): value is AnyFields {
  return (INNER.has(path) || INNER.has(inner)) && typeof value === "object" && value !== null && !Array.isArray(value);
}

function listEntries(document: RoomDocument): readonly Entry[] {
  return (Object.keys(LISTS) as ListName[]).flatMap((name) => {
    const list = (document[name] ?? []) as readonly AnyFields[];
    return list.map(({ id, as_typed: typed, ...fields }): Entry => ({ kind: LISTS[name], id: String(id), fields: typed === undefined ? fields : { ...fields, typed } }));
  });
}
