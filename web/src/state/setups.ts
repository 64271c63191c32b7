/**
 * From where a floor is read: the set-ups of a room, the one that this phone reads from now, and which of them marks and
 * re-read places tie together. The engine's word on heights and ties is final; this is for the hand, at once.
 */
import type { Fields, Mark, Point, Row, Setup } from "../wire";
import { getDraft, setDraft } from "./drafts";

/** The set-up that nobody had to begin: its readings name none. */
export const FIRST_SETUP = "";
/** What the engine calls it, which asks every reading for its set-up where there are several. */
const FIRST_IN_DOCUMENT = "first";
const CELL = 0.01; // mm: as near as this is the same place to the engine

/** What stands as the instrument of a set-up that nobody stood at: its readings were brought in from a table or a scan. */
export type Source = "table" | "scan";
const SOURCES: ReadonlySet<string | undefined> = new Set<Source>(["table", "scan"]);

function isBrought({ instrument }: Setup): boolean {
  return SOURCES.has(instrument);
}

/** What one reads with now: from a set-up, or with a long level laid from place to place. */
export type Standing = { readonly setup: string } | { readonly laying: string };

/** The name of a set-up in the room document and in the plan that comes of it. */
export function documentSetup(id: string): string {
  return id === FIRST_SETUP ? FIRST_IN_DOCUMENT : id;
}

/** The set-up that the plan names so. */
export function setupFromDocument(name: string): string {
  return name === FIRST_IN_DOCUMENT ? FIRST_SETUP : name;
}

type RoomFields = Fields<"room">;
type Readings = readonly Row<"reading">[];

function standingDraft(room: string): string {
  return `standing:${room}`;
}

/**
 * The room's set-ups in the order they were begun; the first without a name of its own where readings rest on it, or where
 * nobody has stood at any other.
 */
export function setupsIn(fields: RoomFields, readings: Readings): readonly Setup[] {
  const kept = fields.setups ?? [];
  const known = new Set(kept.map(({ id }) => id));
  const named = readings.map((row) => row.fields.setup ?? FIRST_SETUP).filter((id) => !known.has(id));
  const found = [...new Set(kept.every(isBrought) ? [FIRST_SETUP, ...named] : named)].map((id): Setup => ({ id }));
  return [...found, ...kept];
}

/** Where this phone reads from: as chosen here, else where the last reading was taken by hand. Subscribes. */
export function standingIn(room: string, fields: RoomFields, readings: Readings): Standing {
  const chosen = getDraft(standingDraft(room));
  if (chosen !== undefined) return JSON.parse(chosen) as Standing;
  const setups = setupsIn(fields, readings).filter((one) => !isBrought(one));
  const stood = new Set(setups.map(({ id }) => id));
  const last = readings.map((row) => row.fields.setup ?? FIRST_SETUP).filter((id) => stood.has(id)).at(-1) ?? FIRST_SETUP;
  const setup = setups.find(({ id }) => id === last) ?? setups.at(-1);
  if (setup?.kind === "straightedge" && setup.instrument !== undefined) return { laying: setup.instrument };
  return { setup: setup?.id ?? FIRST_SETUP };
}

export function standAt(room: string, standing: Standing): Promise<void> {
  return setDraft(standingDraft(room), JSON.stringify(standing));
}

type Meeting = readonly [setup: string, at: string];

type Touches = readonly Row<"entry">[];
const REACH = 300; // mm: what was worked over there may have changed, as the engine takes it

/** The height that a place of the bed has now, and who read it. */
interface Height {
  readonly number: number;
  readonly seen: ReadonlySet<string>;
  readonly last: number;
}

function isTouched(touches: Touches, [x, y]: Point, from: number, to: number): boolean {
  return touches.some(({ fields: { what, place, at: done } }) => {
    const moment = Date.parse(done ?? "");
    return (what === "rubbed" || what === "filled_up") && place != null && Math.hypot(place[0] - x, place[1] - y) <= REACH && from < moment && moment <= to;
  });
}

/** A height ends where its set-up reads there once more, or where the place was worked over: what is read from then on is another one. */
function heightAfter(before: Height | undefined, { fields }: Row<"reading">, touches: Touches): Height {
  const [setup, last] = [fields.setup ?? FIRST_SETUP, Date.parse(fields.taken_at ?? "") || 0];
  if (!before) return { number: 0, seen: new Set([setup]), last };
  if (before.seen.has(setup) || isTouched(touches, fields.at ?? [0, 0], before.last, last)) return { number: before.number + 1, seen: new Set([setup]), last };
  return { number: before.number, seen: new Set([...before.seen, setup]), last };
}

/** What each reading ties its set-up to: a mark, a place on one stage, or every known height at once. */
function meetingsOf(readings: Readings, marks: readonly Mark[], touches: Touches): readonly Meeting[] {
  const known = new Set(marks.filter(({ height }) => height != null).map(({ id }) => id));
  const heights = new Map<string, Height>();
  return readings.flatMap((row): readonly Meeting[] => {
    const { fields } = row;
    const setup = fields.setup ?? FIRST_SETUP;
    if (fields.mark) return [[setup, known.has(fields.mark) ? "known" : `mark ${fields.mark}`]];
    if (!fields.at) return [];
    const place = fields.at.map((part) => Math.round(part / CELL)).join(" ");
    if (fields.stage !== "bed") return [[setup, place]];
    const height = heightAfter(heights.get(place), row, touches);
    heights.set(place, height);
    return [[setup, `${place} bed ${height.number}`]];
  });
}

/** Set-ups that hold together, as lists of ids; one without a reading stands alone. */
export function partsOf(setups: readonly Setup[], readings: Readings, marks: readonly Mark[], touches: Touches = []): readonly (readonly string[])[] {
  const part = new Map(setups.map(({ id }) => [id, id]));
  const met = new Map<string, string>();
  const known = setups.filter(({ line_height: height }) => height != null).map(({ id }): Meeting => [id, "known"]);
  for (const [setup, at] of [...known, ...meetingsOf(readings, marks, touches)]) {
    const [other, own] = [part.get(met.get(at) ?? setup) ?? setup, part.get(setup) ?? setup];
    met.set(at, setup);
    for (const [id, of] of part) if (of === other) part.set(id, own);
  }
  return [...new Set(part.values())].map((of) => [...part].filter(([, other]) => other === of).map(([id]) => id));
}

/** The set-ups tied to the part that the floor is reckoned from: that of the known heights, else the one most read. */
export function tiedSetups(fields: RoomFields, readings: Readings, touches: Touches = []): ReadonlySet<string> {
  const marks = fields.marks ?? [];
  const setups = setupsIn(fields, readings);
  const known = new Set(marks.filter(({ height }) => height != null).map(({ id }) => id));
  const fixed = new Set(setups.filter(({ line_height: height }) => height != null).map(({ id }) => id));
  const weight = (part: readonly string[]) => {
    const own = readings.filter((row) => part.includes(row.fields.setup ?? FIRST_SETUP));
    const isKnown = part.some((id) => fixed.has(id)) || own.some((row) => known.has(row.fields.mark ?? ""));
    return (isKnown ? readings.length + 1 : 0) + own.filter((row) => row.fields.at).length;
  };
  const [first = [], ...others] = partsOf(setups, readings, marks, touches);
  return new Set(others.reduce((best, part) => (weight(part) > weight(best) ? part : best), first));
}
