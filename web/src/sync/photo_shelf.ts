/** Pictures for the screen: from the phone where they are, else from the office, and then kept. */
import { StorageError, type Photos } from "../storage";
import type { Bytes } from "../wire";
import type { PhotoService } from "./photo_service";
import { NoReply, ProblemReply } from "./service";

/** Small pictures asked for at once: the screen fills soon, and changes find the line free. */
const MOST_AT_ONCE = 2;

export class PhotoShelf {
  readonly #asking = new Map<string, Promise<Bytes | null>>();
  readonly #queue: (() => void)[] = [];
  #running = 0;

  constructor(
    readonly photos: Photos,
    readonly service: PhotoService,
  ) {}

  /** Null where it is neither here nor to be had now. A picture out of a file has no small one: it stands for it. */
  thumbnail(hash: string): Promise<Bytes | null> {
    return this.#once(`thumbnail ${hash}`, async () => (await this.photos.thumbnail(hash)) ?? (await this.photos.unsentPicture(hash)) ?? this.#fetchThumbnail(hash));
  }

  /** The whole picture; null where it is neither here nor to be had now. */
  picture(hash: string): Promise<Bytes | null> {
    return this.#once(`picture ${hash}`, async () => (await this.photos.picture(hash)) ?? this.#fetchPicture(hash));
  }

  #once(key: string, work: () => Promise<Bytes | null>): Promise<Bytes | null> {
    const asking = this.#asking.get(key) ?? work().finally(() => this.#asking.delete(key));
    this.#asking.set(key, asking);
    return asking;
  }

  #fetchThumbnail(hash: string): Promise<Bytes | null> {
    return this.#inTurn(async () => {
      const bytes = await this.#fromOffice(() => this.service.thumbnail(hash, new AbortController().signal));
      if (bytes !== null) await keptIfItFits(this.photos.keepThumbnail(hash, bytes));
      return bytes;
    });
  }

  async #fetchPicture(hash: string): Promise<Bytes | null> {
    const bytes = await this.#fromOffice(() => this.service.picture(hash, new AbortController().signal));
    if (bytes !== null) await keptIfItFits(this.photos.keepPicture(hash, bytes));
    return bytes;
  }

  async #fromOffice(ask: () => Promise<Bytes>): Promise<Bytes | null> {
    try {
      return await ask();
    } catch (error) {
      if (error instanceof NoReply || error instanceof ProblemReply) return null;
      throw error;
    }
  }

  async #inTurn<T>(work: () => Promise<T>): Promise<T> {
    while (this.#running >= MOST_AT_ONCE) await new Promise<void>((resolve) => this.#queue.push(resolve));
    this.#running += 1;
    try {
      return await work();
    } finally {
      this.#running -= 1;
      this.#queue.shift()?.();
    }
  }
}

/** A phone that is too full to keep a picture of the office shows it all the same. */
async function keptIfItFits(keeping: Promise<void>): Promise<void> {
  try {
    await keeping;
  } catch (error) {
    if (!(error instanceof StorageError && error.reason === "full")) throw error;
  }
}
