/** How deep JSON is nested, and how much is in it, found in its bytes: to build it could take all the memory there is. */
import { JobFileError } from "./faults";
import { JOB } from "./shapes";

/** Fields may be 20 deep, and stand five deep in the file. */
export const DEEPEST = 25;
/** Lists, objects and what is in them: a job of the largest size has fewer; empty lists alone would fill the memory. */
export const MOST_VALUES = 4_000_000;
/** In one object. */
export const MOST_NAMES = 10_000;

const [QUOTE, ESCAPE, LIST, LIST_END, OBJECT, OBJECT_END, COMMA] = [0x22, 0x5c, 0x5b, 0x5d, 0x7b, 0x7d, 0x2c];

export function checkDepth(bytes: Uint8Array): void {
  const names: number[] = []; // of each object that is open; a list counts none
  let values = 0;
  let isText = false;
  for (let at = 0; at < bytes.length; at += 1) {
    const byte = bytes[at];
    if (isText) {
      if (byte === ESCAPE) at += 1;
      else if (byte === QUOTE) isText = false;
    } else if (byte === QUOTE) isText = true;
    else if (byte === LIST || byte === OBJECT) {
      names.push(byte === OBJECT ? 0 : -Infinity);
      values += 1;
      if (names.length > DEEPEST) throw new JobFileError("too_deep", JOB);
    } else if (byte === LIST_END || byte === OBJECT_END) names.pop();
    else if (byte === COMMA) {
      values += 1;
      const told = (names.pop() ?? -Infinity) + 1;
      names.push(told);
      if (told > MOST_NAMES) throw new JobFileError("too_large", JOB);
    }
    if (values > MOST_VALUES) throw new JobFileError("too_large", JOB);
  }
}
