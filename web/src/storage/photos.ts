/**
 * Pictures on the phone, by hash. Those made here stay until the office has them, whatever else needs room; those that
 * came from the office are kept as long as there is room for them, the ones looked at last the longest.
 */
import type { Bytes, OwnPhoto, UnsentPhoto } from "../wire";
import type { PhoneDatabase, StoredPhoto } from "./database";
import { committed } from "./errors";

/** Of pictures that the office has too, bytes. About two hundred. */
const MOST_BYTES = 60_000_000;
/** Small ones that the office has too. */
const MOST_THUMBNAILS = 1_000;

/** A picture made on a phone: on this one, or on the one that a file of unsent changes came from. */
export type PictureToSend = Pick<OwnPhoto, "hash" | "bytes"> & { readonly thumbnail: Bytes | null };

/** Inside the caller's transaction, so that a photo's record and its picture are both kept or neither. */
export async function keepOwn(database: PhoneDatabase, photo: PictureToSend): Promise<void> {
  const { hash, bytes, thumbnail } = photo;
  await database.pictures.put({ hash, bytes, size: bytes.length });
  await database.photos.put({ hash, unsent: 1, problem: null, thumbnail, usedAt: now() });
}

export class Photos {
  readonly #onChange = new Set<() => void>();
  readonly #channel: BroadcastChannel | null;

  constructor(
    readonly database: PhoneDatabase,
    name: string,
    readonly most = { bytes: MOST_BYTES, thumbnails: MOST_THUMBNAILS },
  ) {
    this.#channel = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel(`${name}-photos`);
    this.#channel?.addEventListener("message", () => this.#tellHere());
  }

  /** Called after what waits to be sent has changed, here or in another tab. */
  onChange(listener: () => void): void {
    this.#onChange.add(listener);
  }

  tell(): void {
    this.#tellHere();
    this.#channel?.postMessage("changed");
  }

  #tellHere(): void {
    for (const listener of this.#onChange) listener();
  }

  /** Pictures made here that the office has not got whole, oldest first. */
  async unsent(): Promise<readonly UnsentPhoto[]> {
    const rows = await committed(() => this.database.photos.where("unsent").equals(1).toArray());
    return rows.sort((a, b) => (a.usedAt < b.usedAt ? -1 : 1)).map(({ hash, problem }) => ({ hash, problem }));
  }

  /** The whole picture, where it is on this phone. */
  async picture(hash: string): Promise<Bytes | null> {
    const found = await committed(() => this.database.pictures.get(hash));
    if (found !== undefined) await this.#touch(hash);
    return found?.bytes ?? null;
  }

  /** The whole of one that the office has not got yet. */
  async unsentPicture(hash: string): Promise<Bytes | null> {
    const known = await committed(() => this.database.photos.get(hash));
    return known?.unsent === 1 ? this.picture(hash) : null;
  }

  async thumbnail(hash: string): Promise<Bytes | null> {
    const found = await committed(() => this.database.photos.get(hash));
    return found?.thumbnail ?? null;
  }

  /** The order in which own pictures are sent is that of their making: only others' use counts. */
  async #touch(hash: string): Promise<void> {
    await committed(() => this.database.photos.where({ hash, unsent: 0 }).modify({ usedAt: now() }));
  }

  async keepThumbnail(hash: string, thumbnail: Bytes): Promise<void> {
    await this.#keep(hash, { thumbnail });
  }

  async keepPicture(hash: string, bytes: Bytes): Promise<void> {
    await this.#keep(hash, {}, bytes);
  }

  async #keep(hash: string, news: Partial<StoredPhoto>, bytes?: Bytes): Promise<void> {
    await committed(() =>
      this.database.transaction("rw", this.database.photos, this.database.pictures, async () => {
        const known = await this.database.photos.get(hash);
        if (bytes !== undefined) await this.database.pictures.put({ hash, bytes, size: bytes.length });
        await this.database.photos.put({ ...fresh(hash), ...known, ...news, usedAt: known?.unsent === 1 ? known.usedAt : now() });
        await this.#keepWithin();
      }),
    );
  }

  /**
   * What the office has too goes where it is too much, that looked at longest ago first: pictures by their bytes, small
   * ones by their number. Only keys are read, for this happens with every picture that comes.
   */
  async #keepWithin(): Promise<void> {
    const { photos, pictures } = this.database;
    const oldest = await photos.where("[unsent+usedAt]").between([0, ""], [0, "\uffff"]).primaryKeys();
    await pictures.bulkDelete(beyond(oldest, await this.#sizes(), this.most.bytes));
    const tooMany = oldest.slice(0, Math.max(0, oldest.length - this.most.thumbnails));
    await photos.bulkDelete(tooMany);
    await pictures.bulkDelete(tooMany);
  }

  async #sizes(): Promise<ReadonlyMap<string, number>> {
    const bySize = this.database.pictures.orderBy("size");
    const [hashes, sizes] = [await bySize.primaryKeys(), await bySize.keys()];
    return new Map(hashes.map((hash, index) => [hash, Number(sizes[index])]));
  }

  /** The office has it whole. */
  async settle(hash: string): Promise<void> {
    await committed(() => this.database.photos.update(hash, { unsent: 0, problem: null, usedAt: now() }));
    this.tell();
  }

  /** The office does not take it; it stays here, with the code that says why. */
  async refuse(hash: string, problem: string): Promise<void> {
    await committed(() => this.database.photos.update(hash, { problem }));
    this.tell();
  }

  /** The person wants it sent once more. */
  async sendAgain(hash: string): Promise<void> {
    await committed(() => this.database.photos.update(hash, { problem: null }));
    this.tell();
  }

  /** Forgets pictures of the office that no record here names any more: the job was taken from this person, say. */
  async tidy(): Promise<void> {
    await committed(() =>
      this.database.transaction("rw", this.database.tables, async () => {
        const named = await namedHashes(this.database);
        const theirs = await this.database.photos.where("unsent").equals(0).primaryKeys();
        const gone = theirs.filter((hash) => !named.has(hash));
        await this.database.photos.bulkDelete(gone);
        await this.database.pictures.bulkDelete(gone);
      }),
    );
  }

  close(): void {
    this.#channel?.close();
  }
}

/**
 * The office has another database, which may lack pictures that the one before had: those that a record here names are
 * offered again. The office would take no other, and they can make room.
 */
export async function offerPicturesAgain(database: PhoneDatabase): Promise<void> {
  const here = await database.pictures.toCollection().primaryKeys();
  const named = await namedHashes(database);
  await database.photos.where("hash").anyOf(here.filter((hash) => named.has(hash))).modify({ unsent: 1, problem: null });
}

/** Where the phone is full: whole pictures that the office has too. */
export async function dropFetched(database: PhoneDatabase): Promise<void> {
  await database.transaction("rw", database.photos, database.pictures, async () => {
    await database.pictures.bulkDelete(await database.photos.where("unsent").equals(0).primaryKeys());
  });
}

async function namedHashes(database: PhoneDatabase): Promise<ReadonlySet<unknown>> {
  const photos = (table: typeof database.records) => table.where("[kind+id]").between(["photo", ""], ["photo", "\uffff"]).toArray();
  const [records, held, changes] = await Promise.all([
    photos(database.records),
    photos(database.held),
    database.changes.filter((change) => change.kind === "photo").toArray(),
  ]);
  return new Set([...records, ...held, ...changes].map(({ fields }) => fields["hash"]));
}

/** The first of them that must go so that the others have no more bytes than `most`. */
function beyond(oldest: readonly string[], sizes: ReadonlyMap<string, number>, most: number): string[] {
  const sizeOf = (hash: string) => sizes.get(hash) ?? 0;
  let tooMuch = oldest.reduce((sum, hash) => sum + sizeOf(hash), 0) - most;
  const gone = [];
  for (const hash of oldest) {
    if (tooMuch <= 0) break;
    tooMuch -= sizeOf(hash);
    gone.push(hash);
  }
  return gone;
}

function fresh(hash: string): StoredPhoto {
  return { hash, unsent: 0, problem: null, thumbnail: null, usedAt: now() };
}

function now(): string {
  return new Date().toISOString();
}
