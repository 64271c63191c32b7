/** Points that came from outside, a table or a scan, and what would be taken of them. */
import type { Place } from "../../drawing/camera";
import type { Row, TakenReading, TakenSetup } from "../../state";
import { isSamePlace } from "../levels/round";

export interface Found {
  readonly at: Place;
  /** Exactly one of the two: a height, or how far below the level line. */
  readonly z: number | null;
  readonly down: number | null;
  readonly note: string;
  readonly stage: "subfloor" | "bed";
  readonly outside: boolean;
}

/** benchmark: a height of nothing is the room's zero · relative: only the differences count. */
export type Zero = "benchmark" | "relative";
/** What becomes of a place that was read already: left as it is, or read again, which ties the two together. */
export type Already = "skip" | "again";

export interface HowToTake {
  readonly zero: Zero;
  readonly already: Already;
}

export interface ToTake {
  readonly setup: Pick<TakenSetup, "line_height">;
  readonly readings: readonly TakenReading[];
  readonly outside: number;
  /** Found where something was read already. */
  readonly met: number;
  /** True where nothing ties what is taken to what was read before. */
  readonly isApart: boolean;
}

function readHere(readings: readonly Row<"reading">[], { at, stage }: Found): Place | null {
  const here = readings.find(({ fields }) => fields.at && (fields.stage ?? "subfloor") === stage && isSamePlace(fields.at, at));
  return here?.fields.at ?? null;
}

function downOf({ z, down }: Found, line: number): number {
  return down ?? line - (z ?? 0);
}

/** z of the level line that the heights are turned under: the room's own zero, or the highest of them. */
function lineOf(found: readonly Found[], zero: Zero): number {
  const heights = found.flatMap(({ z }) => (z === null ? [] : [z]));
  return zero === "benchmark" || heights.length === 0 ? 0 : Math.max(...heights);
}

function readingFrom(found: Found, at: Place, line: number): TakenReading {
  const { note, stage } = found;
  return { at, down: downOf(found, line), stage, ...(note === "" ? {} : { note }) };
}

/** What is taken: nothing outside the room; a place read already keeps its numbers, so that it ties, or is passed over. */
export function toTake(found: readonly Found[], readings: readonly Row<"reading">[], { zero, already }: HowToTake): ToTake {
  const inside = found.filter(({ outside }) => !outside);
  const placed = inside.map((one) => ({ one, known: readHere(readings, one) }));
  const kept = placed.filter(({ known }) => known === null || already === "again");
  const line = lineOf(inside, zero);
  const met = placed.filter(({ known }) => known !== null).length;
  const isBenchmark = zero === "benchmark" && inside.some(({ z }) => z !== null);
  return {
    setup: isBenchmark ? { line_height: 0 } : {},
    readings: onePerPlace(kept.map(({ one, known }) => readingFrom(one, known ?? one.at, line))),
    outside: found.length - inside.length,
    met,
    isApart: readings.length > 0 && (met === 0 || already === "skip"),
  };
}

/** From one set-up a place is read once: of several that fall on it the first stands. */
function onePerPlace(readings: readonly TakenReading[]): readonly TakenReading[] {
  const seen = new Set<string>();
  return readings.filter(({ at, stage }) => {
    const key = `${stage}:${at?.join()}`;
    return !seen.has(key) && seen.add(key);
  });
}
