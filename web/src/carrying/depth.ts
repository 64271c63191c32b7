/** How deep JSON is nested, found in its bytes: to find out by building it could take all the memory there is. */
import { JobFileError } from "./faults";

/** Fields may be 20 deep, and stand five deep in the file. */
export const DEEPEST = 25;

const [QUOTE, ESCAPE, LIST, LIST_END, OBJECT, OBJECT_END] = [0x22, 0x5c, 0x5b, 0x5d, 0x7b, 0x7d];

export function checkDepth(bytes: Uint8Array): void {
  let depth = 0;
  let isText = false;
  for (let at = 0; at < bytes.length; at += 1) {
    const byte = bytes[at];
    if (isText) {
      if (byte === ESCAPE) at += 1;
      else if (byte === QUOTE) isText = false;
    } else if (byte === QUOTE) isText = true;
    else if (byte === LIST || byte === OBJECT) {
      depth += 1;
      if (depth > DEEPEST) throw new JobFileError("too_deep");
    } else if (byte === LIST_END || byte === OBJECT_END) depth -= 1;
  }
}
