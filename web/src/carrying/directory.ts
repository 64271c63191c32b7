/**
 * The list of parts at the end of a zip (APPNOTE.TXT 6.3, 4.3), read as strictly as the service reads it: nothing before the
 * first part and behind the list, no part on top of another, no second telling of a size (Zip64), and at each part the header
 * that the list says. So one file is the same file to every reader. `jobfile/directory.py` goes the same way step by step.
 */
import type { Bytes } from "../wire";
import { JobFileError } from "./faults";
import { MOST_PHOTOS } from "./shapes";

export const STORED = 0;
export const DEFLATED = 8;
export const LOCKED = 0x1;
const SIZES_FOLLOW = 0x8;
const ZIP64 = 0x0001;
const END = { mark: 0x06054b50, size: 22, longest: 65_535 };
const ENTRY = { mark: 0x02014b50, size: 46 };
const LOCAL = { mark: 0x04034b50, size: 30 };
const MOST_PARTS = MOST_PHOTOS + 2;
/** Bytes of the list: five times what the longest names of that many parts need. */
const MOST_LIST = 1_000_000;

/** One part as the list tells of it; bytes and places in the file. */
export interface Entry {
  readonly name: string;
  readonly flags: number;
  readonly method: number;
  readonly crc: number;
  readonly packed: number;
  readonly size: number;
  readonly offset: number;
  readonly more: Bytes;
}

export interface Listed {
  readonly entries: readonly Entry[];
  /** Where the list stands. */
  readonly place: number;
}

/** `start`: where its packed bytes begin. */
export type Part = Entry & { readonly start: number };

/** Throws JobFileError. */
export async function listedIn(file: Blob): Promise<Listed> {
  const from = Math.max(0, file.size - END.size - END.longest);
  const tail = await slice(file, from, file.size - from);
  const at = endIn(tail);
  if (at < 0) throw new JobFileError("not_a_zip");
  const view = viewOf(tail.subarray(at));
  const [count, size, place] = [view.getUint16(10, true), view.getUint32(12, true), view.getUint32(16, true)];
  if (count > MOST_PARTS) throw new JobFileError("too_many_parts");
  if (place + size !== from + at || size > MOST_LIST) throw new JobFileError("not_a_zip");
  return { entries: entriesIn(await slice(file, place, size)), place };
}

/** Where each of them begins: one after the other from the first byte on, before the list. Throws JobFileError. */
export async function placed(file: Blob, { entries, place }: Listed): Promise<readonly Part[]> {
  const parts: Part[] = [];
  for (const entry of entries) parts.push({ ...entry, start: await startOf(file, entry) });
  let free = 0;
  for (const { name, offset, start, packed, more } of [...parts].sort((a, b) => a.offset - b.offset)) {
    const isApart = free <= offset && start + packed <= place && (free > 0 || offset === 0);
    if (!isApart || tagsOf(more).includes(ZIP64)) throw new JobFileError("damaged", name);
    free = start + packed;
  }
  return parts;
}

export async function slice(file: Blob, from: number, size: number): Promise<Bytes> {
  return new Uint8Array(await file.slice(from, from + size).arrayBuffer());
}

/** The last end of a list whose comment ends with the file; -1 where there is none. */
function endIn(tail: Bytes): number {
  const view = viewOf(tail);
  for (let at = tail.length - END.size; at >= 0; at -= 1) {
    if (view.getUint32(at, true) === END.mark && at + END.size + view.getUint16(at + 20, true) === tail.length) return at;
  }
  return -1;
}

function entriesIn(list: Bytes): readonly Entry[] {
  const view = viewOf(list);
  const found: Entry[] = [];
  for (let at = 0; at < list.length; ) {
    if (at + ENTRY.size > list.length || view.getUint32(at, true) !== ENTRY.mark) throw new JobFileError("not_a_zip");
    if (found.length === MOST_PARTS) throw new JobFileError("too_many_parts");
    const [named, more, comment] = [28, 30, 32].map((place) => view.getUint16(at + place, true)) as [number, number, number];
    const start = at + ENTRY.size;
    found.push({
      name: textOf(list.subarray(start, start + named)),
      flags: view.getUint16(at + 8, true),
      method: view.getUint16(at + 10, true),
      crc: view.getUint32(at + 16, true),
      packed: view.getUint32(at + 20, true),
      size: view.getUint32(at + 24, true),
      offset: view.getUint32(at + 42, true),
      more: list.subarray(start + named, start + named + more),
    });
    at = start + named + more + comment;
  }
  return found;
}

/** Where the bytes of a part begin; its own header must say what the list says. */
async function startOf(file: Blob, entry: Entry): Promise<number> {
  const head = await slice(file, entry.offset, LOCAL.size);
  const view = viewOf(head);
  if (head.length < LOCAL.size || view.getUint32(0, true) !== LOCAL.mark) throw new JobFileError("damaged", entry.name);
  const [flags, method, named, more] = [6, 8, 26, 28].map((place) => view.getUint16(place, true)) as [number, number, number, number];
  const told = [14, 18, 22].map((place) => view.getUint32(place, true));
  const isSame =
    textOf(await slice(file, entry.offset + LOCAL.size, named)) === entry.name &&
    method === entry.method &&
    ((flags ^ entry.flags) & ~SIZES_FOLLOW) === 0 &&
    ((flags & SIZES_FOLLOW) !== 0 || [entry.crc, entry.packed, entry.size].every((value, index) => value === told[index]));
  if (!isSame) throw new JobFileError("damaged", entry.name);
  return entry.offset + LOCAL.size + named + more;
}

/** Of the extra fields (APPNOTE.TXT 4.5). */
function tagsOf(more: Bytes): readonly number[] {
  const view = viewOf(more);
  const tags: number[] = [];
  for (let at = 0; at + 4 <= more.length; at += 4 + view.getUint16(at + 2, true)) tags.push(view.getUint16(at, true));
  return tags;
}

function viewOf(bytes: Bytes): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

function textOf(bytes: Bytes): string {
  return new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes);
}
