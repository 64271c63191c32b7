/** Habits of the trade (common practice, no source), each told at the moment when it matters and only then. */
import { isInside, toEdge } from "../../drawing/figure";
import type { Row } from "../../state";
import type { Fields, Plan } from "../../wire";
import { isFilled, type SectionNow } from "./filled";

export const HABIT_CODES = [
  "soak_strips", "cover_strips", "plug_drains", "perimeter_free", "cement_skin", "fixtures_clear", "clean_groove", "channels_at_once",
] as const;
export type HabitCode = (typeof HABIT_CODES)[number];
/** before_rails: while stations are set · filling: from just before the first batch until the last channel is packed. */
export type HabitMoment = "before_rails" | "filling";

export interface Habit {
  readonly code: HabitCode;
  /** The section it is about; null where it is told once in a room. */
  readonly section: string | null;
}

export interface HabitFacts {
  readonly room: Fields<"room">;
  readonly plan: Plan;
  readonly stationsSet: number;
  readonly hasMixed: boolean;
  readonly sections: readonly SectionNow[];
}

const NEAR = 150; // mm from a section's edge at which a fixture is in the way of its straightedge

/** What matters at this moment, ticked or not. */
export function habitsAt(moment: HabitMoment, facts: HabitFacts): readonly Habit[] {
  return moment === "before_rails" ? atTheRails(facts) : atTheFilling(facts);
}

function atTheRails({ room, stationsSet, hasMixed }: HabitFacts): readonly Habit[] {
  const isWood = room["rails.wood"] ?? true;
  if (!isWood || hasMixed) return [];
  return [once(stationsSet === 0 ? "soak_strips" : "cover_strips")];
}

function atTheFilling(facts: HabitFacts): readonly Habit[] {
  const { room, hasMixed, sections } = facts;
  if (sections.length === 0 || sections.every(({ state }) => state === "packed")) return [];
  const drains = (room.fixtures ?? []).some(({ kind }) => kind !== "post");
  const begin = hasMixed ? [once("cement_skin")] : [...(drains ? [once("plug_drains")] : []), once("perimeter_free")];
  return [...atACut(facts), ...atAFixture(facts), ...begin];
}

/** Just after a section was cut off: the strip that goes on, the channel that it leaves. */
function atACut({ plan, sections }: HabitFacts): readonly Habit[] {
  const cut = sections.find(({ state }) => state === "screeded");
  if (cut === undefined) return [];
  const goesOn = sections.some(({ state }) => !isFilled(state)) && plan.rails.some(({ settings }) => settings.length > 1);
  const section = cut.section.id;
  return [...(goesOn ? [{ code: "clean_groove" as const, section }] : []), { code: "channels_at_once", section }];
}

function atAFixture({ room, sections }: HabitFacts): readonly Habit[] {
  const filling = sections.filter(({ state }) => state === "filling");
  const stands = ({ section }: SectionNow) => (room.fixtures ?? []).some(({ at, radius }) => isInside(section.polygon, at) || toEdge(section.polygon, at) <= (radius ?? 0) + NEAR);
  return filling.filter(stands).map(({ section }) => ({ code: "fixtures_clear", section: section.id }));
}

function once(code: HabitCode): Habit {
  return { code, section: null };
}

/** Those of the habits that nobody ticked yet or silenced in this room. */
export function habitsOpen(habits: readonly Habit[], entries: readonly Row<"entry">[]): readonly Habit[] {
  const told = entries.map(({ fields }) => fields);
  const isOff = ({ code }: Habit) => told.some((one) => one.what === "habit_off" && one.code === code);
  const isDone = ({ code, section }: Habit) => told.some((one) => one.what === "habit" && one.code === code && (one.section ?? null) === section);
  return habits.filter((habit) => !isOff(habit) && !isDone(habit));
}
