/** A record's story from its changes: who, when, on which device, and what each field was and became. */
import type { AnyFields, HistoryEntry, Unsent } from "../../wire";

export interface StoryLine {
  readonly field: string;
  /** Null where nothing stood there. */
  readonly before: unknown;
  readonly after: unknown;
  /** Made without knowing of the value that it met. */
  readonly isConcurrent: boolean;
  /** The value it met was the later edit and stayed: `after` never stood. */
  readonly isOverruled: boolean;
}

export interface StoryStep {
  readonly id: string;
  /** ISO 8601. */
  readonly at: string;
  readonly person: string | null;
  readonly deviceId: string | null;
  readonly deviceName: string | null;
  readonly what: "made" | "corrected" | "changed" | "deleted" | "restored" | "decided";
  readonly isUnsent: boolean;
  /** It came out of a file. */
  readonly isFromFile: boolean;
  /** Who brought the file to the office; null where nobody did, or has not yet. */
  readonly broughtBy: { readonly person: string; readonly device: string } | null;
  readonly lines: readonly StoryLine[];
}

export interface Story {
  /** The newest first. */
  readonly steps: readonly StoryStep[];
  /** Every field as it stands after the last step. */
  readonly now: ReadonlyMap<string, unknown>;
}

/** One record of a story: a reading and its corrections are several records, oldest first. */
export interface Chapter {
  readonly entries: readonly HistoryEntry[];
  readonly unsent: readonly Unsent[];
}

/** What only ties records together, or repeats another field as it was typed, is no line of its own. */
const NOT_TOLD: ReadonlySet<string> = new Set(["deleted", "job_id", "room_id", "supersedes", "reading_id", "typed"]);

interface Told {
  readonly id: string;
  readonly at: string;
  readonly fields: AnyFields;
  readonly concurrent: readonly string[];
  readonly overruled: readonly string[];
  readonly by: Pick<StoryStep, "person" | "deviceId" | "deviceName" | "isUnsent" | "isFromFile" | "broughtBy">;
}

function fromEntry(entry: HistoryEntry): Told {
  const { person, device_id: deviceId, device_name: deviceName, brought_by } = entry;
  const broughtBy = brought_by ? { person: brought_by.person, device: brought_by.device_name } : null;
  return { ...entry, id: entry.change_id, by: { person, deviceId, deviceName, isUnsent: false, isFromFile: broughtBy !== null, broughtBy } };
}

function fromUnsent({ change_id: id, device_time, fields, origin, concurrent = [], overruled = [] }: Unsent): Told {
  const [person, deviceId, deviceName] = [origin?.person ?? null, origin?.device_id ?? null, origin?.device_name ?? null];
  const by = { person, deviceId, deviceName, isUnsent: true, isFromFile: origin !== undefined, broughtBy: null };
  return { id, at: origin?.at ?? device_time, fields, concurrent, overruled, by };
}

/** Whether a person would read the same: a text that was emptied says as much as one that never stood there. */
export function isSame(one: unknown, other: unknown): boolean {
  return JSON.stringify(one === "" ? null : (one ?? null)) === JSON.stringify(other === "" ? null : (other ?? null));
}

/** The story of one record, or of a reading with its corrections. What this phone has not sent stands on top. */
export function storyOf(chapters: readonly Chapter[]): Story {
  const now = new Map<string, unknown>();
  const steps = chapters.flatMap(({ entries, unsent }, chapter) =>
    changesOf(entries, unsent).map((told, index) => stepOf(told, now, index === 0 ? (chapter === 0 ? "made" : "corrected") : "changed")),
  );
  return { steps: steps.reverse(), now };
}

/**
 * A change that the office has told of already is not told a second time as waiting; one of whose fields today's meaning
 * leaves none tells nothing.
 */
function changesOf(entries: readonly HistoryEntry[], unsent: readonly Unsent[]): readonly Told[] {
  const known = new Set(entries.map((entry) => entry.change_id));
  const told = entries.filter(({ fields }) => Object.keys(fields).length > 0);
  return [...told.map(fromEntry), ...unsent.filter((change) => !known.has(change.change_id)).map(fromUnsent)];
}

function stepOf(told: Told, now: Map<string, unknown>, place: "made" | "corrected" | "changed"): StoryStep {
  const lines = Object.entries(told.fields).map(([field, after]) => lineOf(told, now, field, after));
  const what = place === "changed" ? kindOfStep(told, lines) : place;
  for (const { field, after, isOverruled } of lines) if (!isOverruled) now.set(field, after);
  const shown = lines.filter((line) => isShown(line, what));
  return { id: told.id, at: told.at, what, lines: shown, ...told.by };
}

function lineOf(told: Told, now: ReadonlyMap<string, unknown>, field: string, after: unknown): StoryLine {
  const [isConcurrent, isOverruled] = [told.concurrent.includes(field), told.overruled.includes(field)];
  return { field, before: now.get(field) ?? null, after: after ?? null, isConcurrent, isOverruled };
}

function kindOfStep({ fields, overruled }: Told, lines: readonly StoryLine[]): StoryStep["what"] {
  const { deleted } = fields;
  if (typeof deleted === "boolean" && !overruled.includes("deleted")) return deleted ? "deleted" : "restored";
  return lines.every(({ before, after }) => isSame(before, after)) ? "decided" : "changed";
}

function isShown({ field, before, after, isConcurrent }: StoryLine, what: StoryStep["what"]): boolean {
  if (field === "deleted" && isConcurrent) return true;
  return !NOT_TOLD.has(field) && (what === "decided" || isConcurrent || !isSame(before, after));
}

/** The value that a line offers to bring back: what was replaced, or what never came to stand. Undefined where it stands. */
export function offeredBy(line: StoryLine, now: ReadonlyMap<string, unknown>): { readonly value: unknown } | undefined {
  const value = line.isOverruled ? line.after : line.before;
  return isSame(value, now.get(line.field)) ? undefined : { value };
}
