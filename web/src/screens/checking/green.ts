/** Whether the bed can still be rubbed and filled fresh now: the engine knows no clock, and tells both ends. */
import type { Caution, Flatness } from "../../wire";

/** It could be rubbed when it was last measured, and that time is not over. `now` in ms. */
export function isGreenNow({ is_green: isGreen, green_until: until }: Pick<Flatness, "is_green" | "green_until">, now: number): boolean {
  return isGreen === true && (until === null || now < Date.parse(until));
}

function asOfNow(caution: Caution, isGreen: boolean, now: number): Caution {
  if (caution.code !== "work_green" && caution.code !== "work_green_set") return caution;
  if (!isGreen) return { ...caution, code: "work_hardened", values: {} };
  const isOver = now >= Date.parse(String(caution.values["fill_until"]));
  return isOver ? { ...caution, code: "work_green_set" } : caution;
}

/** What is said beside the work list: of a bed that was green when last measured, what holds of it now. */
export function cautionsNow(cautions: readonly Caution[], isGreen: boolean, now: number): readonly Caution[] {
  return cautions.map((caution) => asOfNow(caution, isGreen, now));
}
