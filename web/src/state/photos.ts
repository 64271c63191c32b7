/** Photos of rooms and readings: taken here and shown at once, sent later by themselves, fetched when looked at. */
import { computed, effect, signal, type ReadonlySignal, type Signal } from "@preact/signals";
import { uuidv7 } from "uuidv7";
import type { Bytes, Edit, OwnPhoto, Row, UnsentPhoto } from "../wire";
import { act, edit, type ActionOptions } from "./actions";
import { entryMade, type NewEntry } from "./filling";
import { port } from "./ports";
import { photosOf, photosShown, rowOf } from "./records";
import { checkMayWrite, saveLine } from "./status";

/** Pictures made here that the office has not got whole, by hash, with the code of what it said against them. */
export const unsentPhotos = signal<ReadonlyMap<string, string | null>>(new Map());

export function showUnsentPhotos(unsent: readonly UnsentPhoto[]): void {
  unsentPhotos.value = new Map(unsent.map(({ hash, problem }) => [hash, problem]));
}

/** waiting: not sent yet · a code: the office did not take it · null: it is at the office. */
export function standingOfPhoto({ fields }: Row<"photo">): string | null {
  const problem = unsentPhotos.value.get(fields.hash ?? "");
  return problem === undefined ? null : (problem ?? "waiting");
}

/** Photos on show that are not at the office yet; those it did not take too. */
export const photosWaiting: ReadonlySignal<number> = computed(
  () => photosShown.value.filter((row) => standingOfPhoto(row) !== null).length,
);

/** The photos of a reading and of those it corrects, oldest first. */
export function photosOfReading(roomId: string, readingId: string): readonly Row<"photo">[] {
  const ids = withCorrected(readingId);
  return photosOf(roomId).value.filter((row) => ids.has(row.fields.reading_id ?? ""));
}

function withCorrected(readingId: string): ReadonlySet<string> {
  const ids = new Set<string>();
  for (let id: string | null | undefined = readingId; id && !ids.has(id); id = rowOf("reading", id)?.fields.supersedes) ids.add(id);
  return ids;
}

/** The photos of a line of the day book, oldest first. */
export function photosOfEntry(entryId: string): readonly Row<"photo">[] {
  return photosShown.value.filter(({ fields }) => fields.entry_id === entryId);
}

/** What a photo is of, besides the room. */
export interface PhotoOf {
  readonly readingId?: string | undefined;
  readonly entryId?: string | undefined;
  /** A line of the day book that is made with the photo: both or neither, one step to undo. */
  readonly entry?: NewEntry | undefined;
}

/** The photo's id; null for a file that is no picture, and then nothing was made. Throws NotSavedError where it was not kept. */
export async function addPhoto(roomId: string, file: Blob, of: PhotoOf = {}, options: ActionOptions = {}): Promise<string | null> {
  checkMayWrite();
  const photo = await port("photos").prepare(file);
  if (photo === null) return null;
  const entry = of.entry && entryMade(roomId, of.entry);
  const made = photoMade(roomId, photo, { readingId: of.readingId, entryId: entry?.id ?? of.entryId });
  await act([...(entry ? [entry] : []), made], { ...options, photo });
  return made.id;
}

function photoMade(roomId: string, { hash, media_type, width, height, bytes }: OwnPhoto, { readingId, entryId }: PhotoOf): Edit<"photo"> {
  const parents = { ...(readingId ? { reading_id: readingId } : {}), ...(entryId ? { entry_id: entryId } : {}) };
  const picture = { hash, media_type, width, height, size: bytes.length };
  return { kind: "photo", id: uuidv7(), fields: { room_id: roomId, taken_at: new Date().toISOString(), ...parents, ...picture } };
}

export function editPhoto(id: string, note: string | null, draft: string): Promise<void> {
  return edit("photo", id, { note }, { draft });
}

/** The office did not take it; once more, then. */
export function sendPhotoAgain(hash: string): Promise<void> {
  return port("photos").sendAgain(hash);
}

const SMALL_TYPE = "image/jpeg";

function typeOf(hash: string): string {
  return photosShown.peek().find(({ fields }) => fields.hash === hash)?.fields.media_type ?? SMALL_TYPE;
}

type Look = (hash: string) => ReadonlySignal<string | null>;

/** The address of a small picture for the screen, null until it is there. Looked for while a component watches. */
export const thumbnailOf: Look = looksAt((hash) => port("photos").thumbnail(hash), () => SMALL_TYPE);
/** The address of the whole picture. */
export const pictureOf: Look = looksAt((hash) => port("photos").picture(hash), typeOf);

function looksAt(load: (hash: string) => Promise<Bytes | null>, type: (hash: string) => string): Look {
  const made = new Map<string, ReadonlySignal<string | null>>();
  return (hash) => {
    const known = made.get(hash) ?? watchedLook(() => pictureFrom(load(hash), type(hash)));
    made.set(hash, known);
    return known;
  };
}

async function pictureFrom(loading: Promise<Bytes | null>, type: string): Promise<Blob | null> {
  const bytes = await loading;
  return bytes === null ? null : new Blob([bytes], { type });
}

/** Asked for again whenever the phone and the office have spoken, until it is there; let go of when nobody looks. */
function watchedLook(load: () => Promise<Blob | null>): ReadonlySignal<string | null> {
  let stop: (() => void) | null = null;
  const address = signal<string | null>(null, {
    watched: () => {
      stop = effect(() => {
        if (saveLine.value.phase !== "syncing" && address.peek() === null) void show(address, load, () => stop !== null);
      });
    },
    unwatched: () => {
      stop?.();
      stop = null;
      if (address.peek() !== null) URL.revokeObjectURL(address.peek() ?? "");
      address.value = null;
    },
  });
  return address;
}

async function show(address: Signal<string | null>, load: () => Promise<Blob | null>, isWatched: () => boolean): Promise<void> {
  const picture = await load();
  if (picture === null || address.peek() !== null || !isWatched()) return;
  address.value = URL.createObjectURL(picture);
}
