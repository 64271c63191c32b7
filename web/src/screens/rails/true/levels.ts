/** The levels that are used here, by number, each with its length: chosen once, kept on this phone. */
import { getDraft, setDraft } from "../../../state";
import type { Fields } from "../../../wire";

export interface OwnLevel {
  readonly id: string;
  readonly length: number;
}

const KEPT_AT = "truing-levels";
const USUAL = 1219.2; // mm, 4 ft: common practice, no source

interface Kept {
  readonly levels: readonly OwnLevel[];
  readonly last: string;
}

const BEGIN: Kept = { levels: [{ id: "1", length: USUAL }], last: "1" };

function kept(): Kept {
  const text = getDraft(KEPT_AT);
  return text === undefined ? BEGIN : { ...BEGIN, ...(JSON.parse(text) as Partial<Kept>) };
}

function keep(changed: Partial<Kept>): void {
  void setDraft(KEPT_AT, JSON.stringify({ ...kept(), ...changed }));
}

/** This phone's levels, and those that others read with in this room. Subscribes. */
export function knownLevels(checks: readonly Fields<"rail_check">[]): readonly OwnLevel[] {
  const own = kept().levels;
  const names = new Set(own.map(({ id }) => id));
  const others = [...new Set(checks.map(({ level }) => level ?? "").filter((level) => level !== "" && !names.has(level)))];
  return [...own, ...others.map((id) => ({ id, length: USUAL }))];
}

/** The level used last, or the first one. Subscribes. */
export function lastLevel(levels: readonly OwnLevel[]): OwnLevel {
  return levels.find(({ id }) => id === kept().last) ?? levels[0] ?? { id: "1", length: USUAL };
}

export function lengthOfLevel(levels: readonly OwnLevel[], id: string): number {
  return levels.find((level) => level.id === id)?.length ?? USUAL;
}

export function chooseLevel(id: string): void {
  keep({ last: id });
}

/** One more level, by the first free number. */
export function newLevel(levels: readonly OwnLevel[]): string {
  const taken = new Set(levels.map(({ id }) => id));
  let number = 1;
  while (taken.has(`${number}`)) number += 1;
  keep({ levels: [...kept().levels, { id: `${number}`, length: USUAL }], last: `${number}` });
  return `${number}`;
}

export function setLevelLength(id: string, length: number): void {
  const others = kept().levels.filter((level) => level.id !== id);
  keep({ levels: [...others, { id, length }].sort((a, b) => (a.id < b.id ? -1 : 1)) });
}
