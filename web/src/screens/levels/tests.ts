/** The tests of instruments: what is read in each, step by step, and the error that comes of it, told at once. */
import type { InstrumentCheck, InstrumentKind } from "../../wire";
import type { Taped } from "../common/form";
import { reader, t, type WordKey } from "../../words";

export type TestKind = InstrumentCheck["kind"];

export interface TestStep {
  readonly name: string;
  readonly label: WordKey;
  /** Rod readings end with their sixteenth; lengths do not. */
  readonly isReading: boolean;
  readonly signed: boolean;
}

export type Answers = Readonly<Record<string, Taped | undefined>>;
type Found = Omit<InstrumentCheck, "id" | "at" | "instrument" | "accepted">;

function steps(kind: TestKind, ...names: readonly (readonly [string, "reading" | "signed" | "length"])[]): readonly TestStep[] {
  return names.map(([name, what]) => ({ name, label: `test.${kind}.${name}` as WordKey, isReading: what === "reading", signed: what === "signed" }));
}

export const TEST_STEPS: Readonly<Record<TestKind, readonly TestStep[]>> = {
  two_peg: steps("two_peg", ["a1", "reading"], ["b1", "reading"], ["a2", "reading"], ["b2", "reading"], ["to_a", "length"], ["to_b", "length"]),
  flip: steps("flip", ["off", "signed"], ["turned", "signed"], ["length", "length"]),
  rod: steps("rod", ["read", "reading"], ["taped", "length"]),
};

/** The tests that suit an instrument: a spirit level is turned round, what is sighted through goes between pegs. */
export function testsFor(kind: InstrumentKind): readonly TestKind[] {
  if (kind === "straightedge") return ["flip"];
  return kind === "water_level" ? ["rod"] : ["two_peg", "rod"];
}

/** The test as the document keeps it, or null while something is missing or where it cannot tell. */
export function testFrom(kind: TestKind, answers: Answers): Found | null {
  const values = TEST_STEPS[kind].map(({ name }) => answers[name]?.mm);
  if (values.some((value) => value === undefined)) return null;
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = values as readonly number[];
  const found: Record<TestKind, Found> = {
    two_peg: { kind, first: [a, b], second: [c, d], sights: [e, f] },
    flip: { kind, off: 0 - a, reversed_off: 0 - b, length: c }, // a gap under the end ahead shows it low
    rod: { kind, offset: a - b },
  };
  return kind === "rod" || tiltOf(found[kind]) !== null ? found[kind] : null;
}

/** How much the line rises, mm in 1 m of sight, by the same formulas as the engine's; null where the test cannot tell. */
export function tiltOf({ kind, first, second, sights, off, reversed_off: turned, length }: Found): number | null {
  if (kind === "two_peg" && first && second && sights) return ratio(second[0] - second[1] - (first[0] - first[1]), sights[0] - sights[1]);
  return kind === "flip" ? ratio(((turned ?? 0) - (off ?? 0)) / 2, length ?? 0) : null;
}

function ratio(rise: number, over: number): number | null {
  return over === 0 ? null : (rise / over) * 1000;
}

const LEAST_TOLD = 0.05; // mm: less is no error that anybody reads
const METRE = 1000;
const TEN_FEET = 3048;

/** "The line rises 1/8″ in 10′": what the test found, in plain words. */
export function foundText(check: Found): string {
  const over = reader.value.units === "imperial" ? TEN_FEET : METRE;
  const tilt = tiltOf(check);
  const by = check.kind === "rod" ? (check.offset ?? 0) : ((tilt ?? 0) * over) / 1000;
  const family = check.kind === "rod" ? "rod" : "line";
  if (Math.abs(by) < LEAST_TOLD) return t(`test.${family}_true`);
  return t(by > 0 ? `test.${family}_plus` : `test.${family}_minus`, { by: Math.abs(by), over });
}
