/**
 * The parts of a zip, with nothing believed that it says of itself: every byte that comes out is counted as it comes. Names
 * are the few that a job file has, so that no part can stand in for another.
 */
import { Inflate } from "fflate";
import { crcOf } from "./crc";
import { DEFLATED, listedIn, LOCKED, placed, slice, STORED, type Entry, type Listed, type Part } from "./directory";
import { JobFileError } from "./faults";
import { ABOUT, JOB, MOST_BYTES, PHOTO_NAME } from "./shapes";
import type { Bytes } from "../wire";

/** Packed bytes unpacked at once: a thousandfold of them still fits a phone. */
const STRIDE = 4_096;

export class ZipParts {
  readonly #sizes = new Map<string, number>();

  private constructor(
    readonly file: Blob,
    readonly parts: ReadonlyMap<string, Part>,
  ) {}

  /** Throws JobFileError where it is no zip, or one whose parts no job file has. */
  static async open(file: Blob): Promise<ZipParts> {
    if (file.size > MOST_BYTES) throw new JobFileError("too_large");
    const listed = await listedIn(file);
    checkNames(listed);
    return new ZipParts(file, new Map((await placed(file, listed)).map((part) => [part.name, part])));
  }

  get names(): ReadonlySet<string> {
    return new Set(this.parts.keys());
  }

  /** The bytes of a part, `most` of them; all parts together no more than a job file may have. */
  async read(name: string, most: number): Promise<Bytes> {
    const part = this.parts.get(name);
    if (part === undefined) throw new JobFileError("damaged", name);
    const others = [...this.#sizes].reduce((sum, [other, size]) => (other === name ? sum : sum + size), 0);
    const content = await this.#unpacked(part, Math.min(most, MOST_BYTES - others));
    if (content.length !== part.size || crcOf(content) !== part.crc) throw new JobFileError("damaged", name);
    this.#sizes.set(name, content.length);
    return content;
  }

  async #unpacked(part: Part, most: number): Promise<Bytes> {
    if (part.method === STORED && part.packed > most) throw new JobFileError("too_large", part.name);
    const packed = await slice(this.file, part.start, part.packed);
    if (packed.length !== part.packed) throw new JobFileError("damaged", part.name);
    return part.method === STORED ? packed : inflated(part, packed, most);
  }
}

function checkNames({ entries }: Listed): void {
  const names = new Set<string>();
  for (const { name, flags, method } of entries) {
    if (name !== JOB && name !== ABOUT && !PHOTO_NAME.test(name)) throw new JobFileError("bad_name", name);
    if (names.has(name)) throw new JobFileError("double_name", name);
    if ((flags & LOCKED) !== 0) throw new JobFileError("encrypted", name);
    if (method !== STORED && method !== DEFLATED) throw new JobFileError("damaged", name);
    names.add(name);
  }
  if (!names.has(JOB)) throw new JobFileError("no_job");
}

function inflated({ name }: Entry, packed: Bytes, most: number): Bytes {
  const chunks: Uint8Array[] = [];
  let size = 0;
  const inflate = new Inflate((chunk) => {
    size += chunk.length;
    if (size > most) throw new JobFileError("too_large", name);
    chunks.push(chunk);
  });
  try {
    for (let at = 0; at < packed.length; at += STRIDE) inflate.push(packed.subarray(at, at + STRIDE), at + STRIDE >= packed.length);
  } catch (error) {
    throw error instanceof JobFileError ? error : new JobFileError("damaged", name);
  }
  return joined(chunks, size);
}

function joined(chunks: readonly Uint8Array[], size: number): Bytes {
  const whole = new Uint8Array(size);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}
