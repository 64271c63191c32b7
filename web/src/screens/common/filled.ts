/**
 * How far batches and sections are, told from the records at once: a tap shows within a frame. What only the engine
 * knows (until when, in time or not, trapped or not) comes from its clock and follows.
 */
import { batchesIn, fillClockOf, isBatchOpen, sectionTimesOf, type Row, type SectionTimes } from "../../state";
import type { FillClock, Plan, Section } from "../../wire";

export const SECTION_STATES = ["waiting", "filling", "placed", "screeded", "packed"] as const;
export type SectionState = (typeof SECTION_STATES)[number];
export type BatchState = "fresh" | "soon" | "late";

const HOUR_MS = 3_600_000;
const SOON = 0.25; // of its working time: as the engine has it
export const NEARLY = 0.05; // of a batch: a section that lacks less takes no further one

export interface FreshBatch {
  readonly id: string;
  readonly section: string | null;
  readonly mixedAt: string;
  /** How much of a full batch it is. */
  readonly size: number;
  /** When it must be in place, ms. */
  readonly useBy: number;
  readonly soonAt: number;
  readonly isInTime: boolean;
}

export type Times = ReadonlyMap<string, SectionTimes>;

/** Batches that are still to be used, the oldest first. */
export function freshBatches(rows: readonly Row<"batch">[], times: Times, clock: FillClock | null, workingHours: number): readonly FreshBatch[] {
  const told = new Map((clock?.batches ?? []).map((one) => [one.id, one]));
  const fresh = rows.filter((row) => isBatchOpen(row, times)).map(({ id, fields }): FreshBatch => {
    const mixedAt = fields.mixed_at ?? "";
    const known = told.get(id);
    const useBy = known ? Date.parse(known.use_by) : Date.parse(mixedAt) + workingHours * HOUR_MS;
    const soonAt = useBy - SOON * (useBy - Date.parse(mixedAt));
    return { id, section: fields.section ?? null, mixedAt, size: fields.size ?? 1, useBy, soonAt, isInTime: known?.is_in_time ?? true };
  });
  return fresh.sort((a, b) => Date.parse(a.mixedAt) - Date.parse(b.mixedAt));
}

export function batchState({ useBy, soonAt }: FreshBatch, now: number): BatchState {
  if (now >= useBy) return "late";
  return now >= soonAt ? "soon" : "fresh";
}

export interface SectionNow {
  readonly section: Section;
  /** Its place in the plan's list. */
  readonly index: number;
  readonly state: SectionState;
  readonly times: SectionTimes;
  /** Full batches mixed for it and not thrown away, and of these in place. */
  readonly mixed: number;
  readonly placed: number;
  readonly channelsDue: string | null;
  readonly isTrapped: boolean;
}

type Filled = Pick<Plan, "sections">;

/** Every section in the order of filling. */
export function sectionsNow({ sections }: Filled, times: Times, batches: readonly Row<"batch">[], clock: FillClock | null): readonly SectionNow[] {
  const inOrder = sections.map((section, index) => ({ section, index })).sort((a, b) => a.section.order - b.section.order);
  return inOrder.map(({ section, index }) => {
    const told = clock?.sections.find(({ id }) => id === section.id);
    const own = batches.filter(({ fields }) => fields.section === section.id && !fields.thrown_at);
    const [mixed, placed] = [amountOf(own), amountOf(own.filter((row) => !isBatchOpen(row, times)))];
    const reached = times.get(section.id) ?? {};
    const state = stateOf(reached, section, mixed);
    return { section, index, state, times: reached, mixed, placed, channelsDue: state === "screeded" ? told?.channels_due ?? null : null, isTrapped: (told?.is_trapped ?? false) && !isFilled(state) };
  });
}

function amountOf(batches: readonly Row<"batch">[]): number {
  return batches.reduce((sum, { fields }) => sum + (fields.size ?? 1), 0);
}

function stateOf({ mixed_at, placed_at, screeded_at, channels_at }: SectionTimes, section: Section, mixed: number): SectionState {
  if (channels_at) return "packed";
  if (screeded_at) return section.channels.length === 0 ? "packed" : "screeded";
  if (placed_at) return "placed";
  return mixed > 0 || mixed_at ? "filling" : "waiting";
}

/** Batches and bags as somebody counts them on site: to a tenth. */
export function tenths(value: number): number {
  return Math.round(value * 10) / 10;
}

/** Cut off, so that no mortar goes into it any more. */
export function isFilled(state: SectionState): boolean {
  return state === "screeded" || state === "packed";
}

/** The section in hand: begun and not cut off, else the one that the engine says is next; null where all are filled. */
export function sectionInHand(sections: readonly SectionNow[], clock: FillClock | null): SectionNow | null {
  const open = sections.filter(({ state }) => !isFilled(state));
  return open.find(({ state }) => state !== "waiting") ?? open.find(({ section }) => section.id === clock?.next_section) ?? open[0] ?? null;
}

export interface FillActs {
  /** The section for which the next batch is mixed. */
  readonly mix: SectionNow | null;
  /** The batch that is placed, into which section, and whether it is the last that the section takes. */
  readonly place: { readonly batch: FreshBatch; readonly into: SectionNow | null; readonly isLast: boolean } | null;
  readonly cutOff: SectionNow | null;
  readonly pack: SectionNow | null;
}

/** What each tap acts on by itself. */
export function actsOf(sections: readonly SectionNow[], batches: readonly FreshBatch[], clock: FillClock | null): FillActs {
  const hand = sectionInHand(sections, clock);
  return {
    mix: mixedFor(sections, hand),
    place: placing(sections, batches[0], hand),
    cutOff: hand,
    pack: sections.find(({ state }) => state === "screeded") ?? null,
  };
}

/** The section in hand as long as it lacks mortar, then the next that does. */
function mixedFor(sections: readonly SectionNow[], hand: SectionNow | null): SectionNow | null {
  const lacking = sections.filter(({ state, section, mixed }) => (state === "waiting" || state === "filling") && section.batches - mixed > NEARLY);
  return hand !== null && lacking.includes(hand) ? hand : (lacking[0] ?? hand);
}

/** A batch goes where it was mixed for; one that names no section, or one mixed for it later, into the section in hand. */
function placing(sections: readonly SectionNow[], batch: FreshBatch | undefined, hand: SectionNow | null): FillActs["place"] {
  if (batch === undefined) return null;
  const own = sections.find(({ section, state }) => section.id === batch.section && !isFilled(state));
  const into = own ?? hand;
  return { batch, into, isLast: into !== null && into.section.batches - into.placed - batch.size <= NEARLY };
}

/** Everything about the filling of a room that is told from records and clock. Subscribes. */
export function fillingOf(room: string, plan: Plan) {
  const [batches, times, { answer: clock }] = [batchesIn(room, plan.sections), sectionTimesOf(room, plan.sections), fillClockOf(room).value];
  const sections = sectionsNow(plan, times, batches, clock);
  const fresh = freshBatches(batches, times, clock, plan.working_time.hours);
  return { clock, batches, sections, fresh, acts: actsOf(sections, fresh, clock) };
}

export type FillingNow = ReturnType<typeof fillingOf>;
