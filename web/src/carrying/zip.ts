/**
 * The parts of a zip, with nothing believed that it says of itself: every byte that comes out is counted as it comes. Names
 * are the few that a job file has, so that no part can stand in for another. The layout is that of APPNOTE.TXT 6.3, 4.3.
 */
import { Inflate } from "fflate";
import { crcOf } from "./crc";
import { JobFileError } from "./faults";
import { ABOUT, JOB, MOST_BYTES, MOST_PHOTOS, PHOTO_NAME } from "./shapes";

type Bytes = Uint8Array<ArrayBuffer>;

interface Entry {
  readonly name: string;
  readonly method: number;
  readonly crc: number;
  readonly packed: number;
  readonly size: number;
  readonly offset: number;
}

const END = { mark: 0x06054b50, size: 22, longest: 65_535 };
const ENTRY = { mark: 0x02014b50, size: 46 };
const LOCAL = { mark: 0x04034b50, size: 30 };
const STORED = 0;
const DEFLATED = 8;
const LOCKED = 1;
/** Packed bytes unpacked at once: a thousandfold of them still fits a phone. */
const STRIDE = 4_096;
const MOST_PARTS = MOST_PHOTOS + 2;

export class ZipParts {
  readonly #sizes = new Map<string, number>();

  private constructor(
    readonly file: Blob,
    readonly entries: ReadonlyMap<string, Entry>,
  ) {}

  /** Throws JobFileError where it is no zip, or one whose parts no job file has. */
  static async open(file: Blob): Promise<ZipParts> {
    if (file.size > MOST_BYTES) throw new JobFileError("too_large");
    return new ZipParts(file, named(await directoryOf(file)));
  }

  get names(): ReadonlySet<string> {
    return new Set(this.entries.keys());
  }

  /** The bytes of a part, `most` of them; all parts together no more than a job file may have. */
  async read(name: string, most: number): Promise<Bytes> {
    const entry = this.entries.get(name);
    if (entry === undefined) throw new JobFileError("damaged", name);
    const others = [...this.#sizes].reduce((sum, [other, size]) => (other === name ? sum : sum + size), 0);
    const content = unpacked(entry, await this.#packed(entry), Math.min(most, MOST_BYTES - others));
    if (content.length !== entry.size || crcOf(content) !== entry.crc) throw new JobFileError("damaged", name);
    this.#sizes.set(name, content.length);
    return content;
  }

  async #packed({ name, offset, packed }: Entry): Promise<Bytes> {
    const head = await slice(this.file, offset, LOCAL.size);
    const view = viewOf(head);
    if (head.length < LOCAL.size || view.getUint32(0, true) !== LOCAL.mark) throw new JobFileError("damaged", name);
    const [nameLength, moreLength] = [view.getUint16(26, true), view.getUint16(28, true)];
    if (textOf(await slice(this.file, offset + LOCAL.size, nameLength)) !== name) throw new JobFileError("damaged", name);
    const content = await slice(this.file, offset + LOCAL.size + nameLength + moreLength, packed);
    if (content.length !== packed) throw new JobFileError("damaged", name);
    return content;
  }
}

async function slice(file: Blob, from: number, size: number): Promise<Bytes> {
  return new Uint8Array(await file.slice(from, from + size).arrayBuffer());
}

function viewOf(bytes: Bytes): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

function textOf(bytes: Bytes): string {
  return new TextDecoder().decode(bytes);
}

/** The list of parts, which stands at the end of the file. */
async function directoryOf(file: Blob): Promise<readonly (Entry & { readonly flags: number })[]> {
  const from = Math.max(0, file.size - END.size - END.longest);
  const tail = await slice(file, from, file.size - from);
  const at = endIn(tail);
  if (at < 0) throw new JobFileError("not_a_zip");
  const view = viewOf(tail.subarray(at));
  const [count, size, offset] = [view.getUint16(10, true), view.getUint32(12, true), view.getUint32(16, true)];
  if (count > MOST_PARTS) throw new JobFileError("too_many_parts");
  if (offset + size !== from + at) throw new JobFileError("not_a_zip");
  return entriesIn(await slice(file, offset, size));
}

function endIn(tail: Bytes): number {
  const view = viewOf(tail);
  for (let at = tail.length - END.size; at >= 0; at -= 1) {
    if (view.getUint32(at, true) === END.mark && at + END.size + view.getUint16(at + 20, true) === tail.length) return at;
  }
  return -1;
}

function entriesIn(list: Bytes): readonly (Entry & { readonly flags: number })[] {
  const view = viewOf(list);
  const found: (Entry & { readonly flags: number })[] = [];
  for (let at = 0; at < list.length; ) {
    if (at + ENTRY.size > list.length || view.getUint32(at, true) !== ENTRY.mark) throw new JobFileError("not_a_zip");
    const [nameLength, more, comment] = [28, 30, 32].map((place) => view.getUint16(at + place, true)) as [number, number, number];
    found.push({
      name: textOf(list.subarray(at + ENTRY.size, at + ENTRY.size + nameLength)),
      flags: view.getUint16(at + 8, true),
      method: view.getUint16(at + 10, true),
      crc: view.getUint32(at + 16, true),
      packed: view.getUint32(at + 20, true),
      size: view.getUint32(at + 24, true),
      offset: view.getUint32(at + 42, true),
    });
    if (found.length > MOST_PARTS) throw new JobFileError("too_many_parts");
    at += ENTRY.size + nameLength + more + comment;
  }
  return found;
}

function named(entries: readonly (Entry & { readonly flags: number })[]): ReadonlyMap<string, Entry> {
  const byName = new Map<string, Entry>();
  for (const entry of entries) {
    const { name, flags, method } = entry;
    if (name !== JOB && name !== ABOUT && !PHOTO_NAME.test(name)) throw new JobFileError("bad_name", name);
    if (byName.has(name)) throw new JobFileError("double_name", name);
    if ((flags & LOCKED) !== 0) throw new JobFileError("encrypted");
    if (method !== STORED && method !== DEFLATED) throw new JobFileError("damaged", name);
    byName.set(name, entry);
  }
  if (!byName.has(JOB)) throw new JobFileError("no_job");
  return byName;
}

function unpacked({ name, method }: Entry, packed: Bytes, most: number): Bytes {
  if (method === STORED) {
    if (packed.length > most) throw new JobFileError("too_large");
    return packed;
  }
  const chunks: Uint8Array[] = [];
  let size = 0;
  const inflate = new Inflate((chunk) => {
    size += chunk.length;
    if (size > most) throw new JobFileError("too_large");
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
