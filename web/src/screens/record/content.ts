/**
 * What a room's record is made of: the document, what the engine answered to it, and the records that no document holds. A
 * signed copy is this as text, so that a copy is shown and printed by the same code as the record of today.
 */
import type { Fields, Kind, Plan, ProfileAnswer, RoomDocument, Row, WaitingAnswer } from "../../wire";
import { inputsHashOf } from "../common/SignedLine";

/**
 * What a signed copy leaves out of the plan: what stands behind each figure, and how well the floor is known at every place. Both
 * follow again from the document and the engine.
 */
export const LEFT_OUT = ["explanations", "surface.statistics"] as const;

/** Kinds of which the document holds nothing, or less than their records tell. Of the others it holds all that counts. */
export const KEPT_KINDS = [
  "station", "rail_check", "placement", "batch", "entry", "climate", "gap", "height_line", "photo", "alternative",
] as const;
export type KeptKind = (typeof KEPT_KINDS)[number];

export interface KeptRow<K extends Kind = KeptKind> {
  readonly kind: K;
  readonly id: string;
  readonly fields: Fields<K>;
}

/** One field of the room that somebody decided, as the room's story tells it. */
export interface Decided {
  readonly at: string;
  readonly by: string;
  readonly field: string;
  readonly before: unknown;
  readonly after: unknown;
}

export interface Story {
  /** When the office told it, ISO 8601; null where it never did, and only what this phone has not sent is known. */
  readonly at: string | null;
  readonly decided: readonly Decided[];
}

export interface Content {
  readonly record: 1;
  readonly made_at: string;
  readonly room_id: string;
  readonly job: { readonly name: string; readonly place: string };
  readonly room: Fields<"room">;
  readonly document: RoomDocument;
  readonly plan: Plan;
  /** How the waiting stood when this was put together; null where the engine had no answer. */
  readonly waiting: WaitingAnswer | null;
  readonly profile: ProfileAnswer | null;
  /** The time zone of the clock that times were read from, by its usual name. */
  readonly zone: string;
  readonly rows: readonly KeptRow[];
  readonly story: Story;
}

export function keptPlan(plan: Plan): Plan {
  return rounded({ ...plan, explanations: {}, surface: { ...plan.surface, statistics: null } });
}

const DIGITS = 10; // lengths of some metres to a ten-thousandth of a millimetre and better: far finer than anything is read

/** Answers without digits that mean nothing. The document is never rounded: its hash is of what was typed. */
function rounded<T>(answer: T): T {
  return JSON.parse(JSON.stringify(answer), (_, value: unknown) => (typeof value === "number" ? Number(value.toPrecision(DIGITS)) : value)) as T;
}

/** The same of a profile. */
export function keptProfile(profile: ProfileAnswer): ProfileAnswer {
  return rounded(profile);
}

/** What stands behind each figure of the waiting is left out too. */
export function keptWaiting(waiting: WaitingAnswer): WaitingAnswer {
  return rounded({ ...waiting, explanations: {} });
}

/** The document without money: what things cost is not for everybody who may read a record. */
export function withoutPrices({ prices: _prices, ...document }: RoomDocument): RoomDocument {
  return document;
}

/** SHA-256 of the document's canonical text. */
export function inputsHash({ document }: Pick<Content, "document">): string {
  return inputsHashOf(document);
}

/** Characters of a signed copy that the office takes. */
export const MOST_COPY = 2_000_000;

export function copyFrom(content: Content): string {
  return JSON.stringify(content);
}

/** Null for a text that is no record of ours, or of a later version. */
export function contentFromCopy(text: string): Content | null {
  try {
    const content = JSON.parse(text) as Partial<Content> | null;
    const isWhole = content?.record === 1 && content.document !== undefined && content.plan !== undefined && Array.isArray(content.rows);
    return isWhole ? (content as Content) : null;
  } catch (error) {
    if (error instanceof SyntaxError) return null;
    throw error;
  }
}

/** The rows of a kind, in order of their making, as the state's own functions take them. */
export function rowsOf<K extends KeptKind>(content: Pick<Content, "rows">, kind: K): readonly Row<K>[] {
  const own = content.rows.filter((row): row is KeptRow<K> => row.kind === kind);
  return own.map(({ id, fields }) => ({ kind, id, fields, sequence: 0, waiting: 0, conflicts: {} }));
}
