/** What a person does with set-ups, marks, instruments and their tests: lists of the room, each kept whole. */
import { uuidv7 } from "uuidv7";
import type { Edit, Fields, Instrument, InstrumentCheck, InstrumentKind, Mark, Point, Setup, Stage } from "../wire";
import { act, editRoom, type ActionOptions } from "./actions";
import { peekRow, roomRows } from "./records";
import { FIRST_SETUP, standAt, type Standing } from "./setups";

/** Standard error of one reading, mm, and what each metre of sight adds (common practice, no source). */
export const USUAL_ERRORS: Readonly<Record<InstrumentKind, { readonly sigma: number; readonly sigma_per_metre: number }>> = {
  laser: { sigma: 1, sigma_per_metre: 0.1 },
  optical: { sigma: 0.7, sigma_per_metre: 0.05 },
  water_level: { sigma: 1.5, sigma_per_metre: 0 },
  straightedge: { sigma: 0.8, sigma_per_metre: 0.3 },
};

interface Named {
  readonly id: string;
}

/** The list with the entry in the place of the one of the same id, or at its end. */
function withEntry<T extends Named>(list: readonly T[] | null | undefined, entry: T): readonly T[] {
  const kept = list ?? [];
  return kept.some(({ id }) => id === entry.id) ? kept.map((other) => (other.id === entry.id ? entry : other)) : [...kept, entry];
}

/** The first set-up stays the first, whenever something becomes known of it. */
function withSetup(list: readonly Setup[] | null | undefined, setup: Setup): readonly Setup[] {
  const isNewFirst = setup.id === FIRST_SETUP && !list?.some(({ id }) => id === FIRST_SETUP);
  return isNewFirst ? [setup, ...(list ?? [])] : withEntry(list, setup);
}

function without<T extends Named>(list: readonly T[] | null | undefined, id: string): readonly T[] {
  return (list ?? []).filter((other) => other.id !== id);
}

function fieldsOf(room: string): Fields<"room"> {
  return peekRow("room", room)?.fields ?? {};
}

/** What a set-up takes from the instrument that stands there. */
function setupFrom({ id, kind, sigma, sigma_per_metre: perMetre }: Instrument): Omit<Setup, "id"> {
  const usual = USUAL_ERRORS[kind];
  return { instrument: id, kind, sigma: sigma ?? usual.sigma, sigma_per_metre: perMetre ?? usual.sigma_per_metre };
}

/** Every instrument on this phone, those of later rooms first, each once: by id. */
export function knownInstruments(): readonly Instrument[] {
  const all = roomRows().flatMap(({ fields }) => fields.instruments ?? []).reverse();
  return [...new Map(all.map((one) => [one.id, one])).values()];
}

function checksKnown(instrument: string): readonly InstrumentCheck[] {
  const all = roomRows().flatMap(({ fields }) => fields.instrument_checks ?? []);
  return all.filter((check) => check.instrument === instrument);
}

/** The fields that bring an instrument, with its tests made in other rooms, into this one. */
function withInstrument(fields: Fields<"room">, instrument: Instrument): Fields<"room"> {
  const checks = checksKnown(instrument.id).reduce(withEntry<InstrumentCheck>, fields.instrument_checks ?? []);
  return { instruments: withEntry(fields.instruments, instrument), ...(checks.length > 0 ? { instrument_checks: checks } : {}) };
}

export interface NewSetup {
  readonly instrument: Instrument;
  readonly name?: string;
  readonly at?: Point;
}

function namedSetup(id: string, { instrument, name, at }: NewSetup): Setup {
  return { id, ...setupFrom(instrument), ...(name ? { name } : {}), ...(at ? { at } : {}) };
}

/** Begins a set-up and stands there; a long level needs none, as each laying is one of its own. */
export async function beginSetup(room: string, setup: NewSetup, options?: ActionOptions): Promise<Standing> {
  const fields = fieldsOf(room);
  const isLaid = setup.instrument.kind === "straightedge";
  const id = uuidv7();
  const setups = isLaid ? {} : { setups: withSetup(fields.setups, namedSetup(id, setup)) };
  await editRoom(room, { ...withInstrument(fields, setup.instrument), ...setups }, options);
  const standing: Standing = isLaid ? { laying: setup.instrument.id } : { setup: id };
  await standAt(room, standing);
  return standing;
}

/** Another name, instrument or place for a set-up that stands. */
export function changeSetup(room: string, id: string, setup: NewSetup, options?: ActionOptions): Promise<void> {
  const fields = fieldsOf(room);
  const before = fields.setups?.find((one) => one.id === id);
  const height = before?.line_height == null ? {} : { line_height: before.line_height };
  const setups = withSetup(fields.setups, { ...namedSetup(id, setup), ...height });
  return editRoom(room, { ...withInstrument(fields, setup.instrument), setups }, options);
}

export function removeSetup(room: string, id: string): Promise<void> {
  return editRoom(room, { setups: without(fieldsOf(room).setups, id) });
}

/** Keeps an instrument, and what its set-ups take from it. */
export function keepInstrument(room: string, instrument: Instrument, options?: ActionOptions): Promise<void> {
  const fields = fieldsOf(room);
  const follows = (setup: Setup) => (setup.instrument === instrument.id ? { ...setup, ...setupFrom(instrument) } : setup);
  const setups = fields.setups?.map(follows);
  return editRoom(room, { ...withInstrument(fields, instrument), ...(setups ? { setups } : {}) }, options);
}

/** Keeps a mark, with what was typed for its height. Returns its id. */
export async function keepMark(room: string, mark: Omit<Mark, "id"> & { readonly id?: string }, typed?: string, options?: ActionOptions): Promise<string> {
  const fields = fieldsOf(room);
  const kept = { ...mark, id: mark.id ?? uuidv7() };
  const told = typed === undefined ? {} : { typed: { ...fields.typed, [`marks.${kept.id}`]: typed } };
  await editRoom(room, { marks: withEntry(fields.marks, kept), ...told }, options);
  return kept.id;
}

/** Takes a mark away, with the readings on it: what nobody can find again ties nothing. */
export function removeMark(room: string, id: string, readings: readonly string[]): Promise<void> {
  const gone = readings.map((reading): Edit => ({ kind: "reading", id: reading, fields: { deleted: true } }));
  const left: Edit<"room"> = { kind: "room", id: room, fields: { marks: without(fieldsOf(room).marks, id) } };
  return act([left, ...gone]);
}

type NewCheck = Omit<InstrumentCheck, "id" | "at">;

/**
 * Keeps a test of an instrument in every room of the job that knows the instrument. Where the set-up that one reads from
 * has no instrument yet, it is this one: it was just tested there.
 */
export async function addCheck(room: string, check: NewCheck, instrument: Instrument, standing: Standing, options?: ActionOptions): Promise<void> {
  const kept: InstrumentCheck = { ...check, id: uuidv7(), at: new Date().toISOString() };
  await act([...checkEdits(room, kept), ...adoption(room, instrument, standing)].reduce(merged, []), options);
}

/** Whether later readings are corrected by what a test found. */
export function acceptCheck(room: string, check: InstrumentCheck, accepted: boolean): Promise<void> {
  return act(checkEdits(room, { ...check, accepted }));
}

function checkEdits(room: string, check: InstrumentCheck): readonly Edit<"room">[] {
  const job = fieldsOf(room).job_id;
  const knowing = roomRows().filter(({ id, fields }) => id === room || (fields.job_id === job && fields.instruments?.some((one) => one.id === check.instrument)));
  return knowing.map(({ id, fields }): Edit<"room"> => ({ kind: "room", id, fields: { instrument_checks: withEntry(fields.instrument_checks, check) } }));
}

function adoption(room: string, instrument: Instrument, standing: Standing): readonly Edit<"room">[] {
  const { setups, instruments } = fieldsOf(room);
  const kept = "setup" in standing ? setups?.find(({ id }) => id === standing.setup) : undefined;
  const isAsked = "setup" in standing && (kept ? kept.instrument === undefined : standing.setup === FIRST_SETUP);
  if (!isAsked || instrument.kind === "straightedge") return [];
  const setup: Setup = { ...kept, id: standing.setup, ...setupFrom(instrument) };
  return [{ kind: "room", id: room, fields: { setups: withSetup(setups, setup), instruments: withEntry(instruments, instrument) } }];
}

/** Edits of one record as one. */
function merged(edits: readonly Edit<"room">[], edit: Edit<"room">): readonly Edit<"room">[] {
  const isMet = edits.some(({ id }) => id === edit.id);
  if (!isMet) return [...edits, edit];
  return edits.map((other) => (other.id === edit.id ? { ...other, fields: { ...other.fields, ...edit.fields } } : other));
}

/** Passes over a proposed place; it is offered again at the end. */
export function skipPlace(room: string, at: Point): Promise<void> {
  return editRoom(room, { "levels.skipped": [...(fieldsOf(room)["levels.skipped"] ?? []), at] });
}

/** The skipped places are to be read after all. */
export function readSkipped(room: string): Promise<void> {
  return editRoom(room, { "levels.skipped": [] });
}

export interface Laying {
  readonly instrument: Instrument;
  readonly from: Point;
  readonly to: Point;
  /** Gap under the level, mm, and the end under which it is; nothing under either where it is 0. */
  readonly gap: number;
  readonly under: "from" | "to";
  readonly typed: string;
  /** What it lies on; the subfloor unless told. */
  readonly stage?: Stage;
}

/** One laying of a long level: a set-up of its own with a reading at either end, all of it one step to undo. */
export function addLaying(room: string, laying: Laying, options?: ActionOptions): Promise<void> {
  const setup: Setup = { id: uuidv7(), ...setupFrom(laying.instrument), at: laying.from };
  const reading = (end: "from" | "to"): Edit<"reading"> => {
    const isGap = laying.under === end;
    const told = { down: isGap ? laying.gap : 0, typed: isGap ? laying.typed : "0" };
    return { kind: "reading", id: uuidv7(), fields: { ...told, room_id: room, setup: setup.id, at: laying[end], stage: laying.stage ?? "subfloor", taken_at: new Date().toISOString() } };
  };
  const fields = fieldsOf(room);
  const kept = { ...withInstrument(fields, laying.instrument), setups: withEntry(fields.setups, setup) };
  return act([{ kind: "room", id: room, fields: kept }, reading("from"), reading("to")], options);
}

/** An instrument of a kind, with the errors that are usual for it. */
export function newInstrument(kind: InstrumentKind, name: string): Instrument {
  return { id: uuidv7(), name, kind, ...USUAL_ERRORS[kind] };
}
