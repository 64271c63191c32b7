/** Names for a room's parts: short, as they are written on the drawing and in the plan. */

/** The first of `D1`, `D2`, ... that is not taken. */
export function nextName(letter: string, taken: readonly string[]): string {
  const numbers = Array.from({ length: taken.length + 1 }, (_, index) => `${letter}${index + 1}`);
  return numbers.find((name) => !taken.includes(name)) ?? `${letter}${taken.length + 1}`;
}
