/**
 * Which section an entry belongs to, as the engine has it: sections are numbered anew when rails, walls or the mixer
 * move, so an entry keeps a place in its section; one without a place is told by its id.
 */
import { uuidv7 } from "uuidv7";
import type { Edit, Fields, Row } from "../wire";
import { isInside, isSamePlace, toEdge, type Place } from "./places";
import { planOf } from "./plans";
import { batchesOf, placementsOf } from "./records";
import { isOfOne, placedFromRows, placeTold, SECTION_MOMENTS, type Placed, type SectionTimes } from "./worked";

const AT_A_BORDER = 50; // mm beside a section within which a place still counts as in it

/** Where a section lies now: the plan's, or the clock's. */
export interface SectionShape {
  readonly id: string;
  readonly polygon: readonly Place[];
}

/** A section that something is entered for. */
export interface SectionPlace extends SectionShape {
  readonly at: Place;
}

type Shapes = readonly SectionShape[] | null | undefined;
interface Told {
  readonly section?: string | null;
  readonly at?: readonly number[] | null;
}

/** The section that an entry is for; null for none. Where nobody knows yet how they lie, the id that was told. */
export function sectionIdOf({ section, at: told }: Told, shapes: Shapes): string | null {
  if (!shapes) return section ?? null;
  const at = placeTold(told);
  if (at === null) return shapes.find(({ id }) => id === section)?.id ?? null;
  return (shapes.find(({ polygon }) => isInside(polygon, at)) ?? beside(shapes, at))?.id ?? null;
}

function beside(shapes: readonly SectionShape[], at: Place): SectionShape | undefined {
  const far = shapes.map((shape) => ({ shape, by: toEdge(shape.polygon, at) }));
  return far.filter(({ by }) => by <= AT_A_BORDER).sort((a, b) => a.by - b.by)[0]?.shape;
}

/** How far each section is, by its id now. Subscribes. */
export function sectionTimesOf(roomId: string, shapes: Shapes): ReadonlyMap<string, SectionTimes> {
  return sectionTimes(placedFromRows(placementsOf(roomId).value), shapes);
}

export function sectionTimes(placed: readonly Placed[], shapes: Shapes): ReadonlyMap<string, SectionTimes> {
  const found = new Map<string, readonly Placed[]>();
  for (const one of placed) {
    const id = sectionIdOf(one, shapes);
    if (id !== null) found.set(id, [...(found.get(id) ?? []), one]);
  }
  return new Map([...found].map(([id, own]) => [id, timesOf(own)]));
}

/** What was told of several places are parts that became one section; what was told without a place is of the whole. */
function timesOf(placed: readonly Placed[]): SectionTimes {
  const parts = placed.filter(({ at }) => at !== null).map(({ times }) => times);
  const whole = placed.filter(({ at }) => at === null).map(({ times }) => times);
  return latestOf([joined(parts), ...whole]);
}

/** Parts that became one section: begun with the first of them, as far as the last. */
function joined(parts: readonly SectionTimes[]): SectionTimes {
  if (parts.length < 2) return parts[0] ?? {};
  const filled = lastOfAll(parts.map(({ placed_at, screeded_at, channels_at }) => placed_at ?? screeded_at ?? channels_at));
  const begun = parts.flatMap((part) => (filled ? [part.mixed_at] : SECTION_MOMENTS.map((moment) => part[moment])));
  return given({
    mixed_at: inOrder(begun)[0],
    placed_at: filled,
    screeded_at: filled && lastOfAll(parts.map(({ screeded_at, channels_at }) => screeded_at ?? channels_at)),
    channels_at: filled && lastOfAll(parts.map(({ channels_at }) => channels_at)),
  });
}

function latestOf(told: readonly SectionTimes[]): SectionTimes {
  const [begun, ...others] = SECTION_MOMENTS.map((moment) => inOrder(told.map((times) => times[moment])));
  return given({ mixed_at: begun?.[0], placed_at: others[0]?.at(-1), screeded_at: others[1]?.at(-1), channels_at: others[2]?.at(-1) });
}

function inOrder(moments: readonly (string | undefined)[]): readonly string[] {
  return moments.filter((at) => at !== undefined).sort((a, b) => Date.parse(a) - Date.parse(b));
}

function lastOfAll(moments: readonly (string | undefined)[]): string | undefined {
  const told = inOrder(moments);
  return told.length === moments.length ? told.at(-1) : undefined;
}

function given(times: { readonly [M in keyof SectionTimes]: string | undefined }): SectionTimes {
  return Object.fromEntries(Object.entries(times).filter(([, at]) => at !== undefined));
}

/** The batches with the sections that they are for now. Subscribes. */
export function batchesIn(roomId: string, shapes: Shapes): readonly Row<"batch">[] {
  return batchesOf(roomId).value.map((row) => {
    const section = sectionIdOf(row.fields, shapes);
    return section === (row.fields.section ?? null) ? row : { ...row, fields: { ...row.fields, section } };
  });
}

/** The placements of a section, the newest last. */
export function placementsIn(roomId: string, section: SectionShape): readonly Row<"placement">[] {
  const known = planOf(roomId).peek().plan?.sections ?? [];
  const shapes = [section, ...known.filter(({ id }) => id !== section.id)];
  return placementsOf(roomId).value.filter(({ fields }) => sectionIdOf(fields, shapes) === section.id);
}

/** The fields that say which section is meant. */
export function placeOf({ id, at }: Pick<SectionPlace, "id" | "at">): { section: string; at: [number, number] } {
  return { section: id, at: [...at] };
}

/**
 * The edits that tell something of a section: in the newest record of it, or in a new one. What was told of another
 * shape is of this one from now on.
 */
export function placementEdits(roomId: string, section: SectionPlace, fields: Fields<"placement">): readonly Edit<"placement">[] {
  const rows = placementsIn(roomId, section);
  const newest = rows.filter((row, n) => !rows.slice(n + 1).some((later) => isOfOne(toldBy(row), toldBy(later))));
  if (newest.length === 0) return [{ kind: "placement", id: uuidv7(), fields: { room_id: roomId, ...placeOf(section), ...fields } }];
  return newest.map((row) => ({ kind: "placement", id: row.id, fields: { ...(isHere(row, section) ? {} : placeOf(section)), ...fields } }));
}

function toldBy({ fields }: Row<"placement">): Omit<Placed, "times"> {
  return { section: fields.section ?? "", at: placeTold(fields.at) };
}

function isHere({ fields }: Row<"placement">, { at }: SectionPlace): boolean {
  const told = placeTold(fields.at);
  return told !== null && isSamePlace(told, at);
}
