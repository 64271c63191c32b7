/** Which labels fit: the important ones first, none over another. */
import type { Place } from "./camera";

export interface Label {
  readonly id: string;
  readonly text: string;
  /** Middle of the text, px. */
  readonly at: Place;
  readonly size: number;
  /** Lower comes first. */
  readonly rank: number;
}

export const WIDTH_OF_A_CHARACTER = 0.56; // of the size
/** Labels up to this rank are written over symbols: what governs must be readable. */
const ALWAYS = 1;

function halfSize({ text, size }: Label): Place {
  return [(text.length * size * WIDTH_OF_A_CHARACTER) / 2 + 2, size / 2 + 1];
}

function overlap(one: Label, other: Label): boolean {
  const [aw, ah] = halfSize(one);
  const [bw, bh] = halfSize(other);
  return Math.abs(one.at[0] - other.at[0]) < aw + bw && Math.abs(one.at[1] - other.at[1]) < ah + bh;
}

const SYMBOL = 5; // px, half the size of what must stay visible

function covers(label: Label, [x, y]: Place): boolean {
  const [w, h] = halfSize(label);
  return Math.abs(label.at[0] - x) < w + SYMBOL && Math.abs(label.at[1] - y) < h + SYMBOL;
}

/** Whether a label can be written beside those that are, without covering a symbol. */
export function hasRoom(label: Label, written: readonly Label[], symbols: readonly Place[]): boolean {
  const isFree = label.rank <= ALWAYS || !symbols.some((symbol) => covers(label, symbol));
  return label.text !== "" && isFree && !written.some((other) => overlap(label, other));
}

/** The ids of the labels that can be written without covering one of lower rank, or a symbol. */
export function fittingLabels(labels: readonly Label[], symbols: readonly Place[] = []): ReadonlySet<string> {
  const kept: Label[] = [];
  for (const label of [...labels].sort((a, b) => a.rank - b.rank)) {
    if (hasRoom(label, kept, symbols)) kept.push(label);
  }
  return new Set(kept.map(({ id }) => id));
}
