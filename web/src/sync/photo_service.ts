/** The service's photos as the phone sees them: one function a request. */
import type { Bytes, PhotoReply } from "../wire";
import { bodyOf, NoReply, problemFrom, type Http } from "./service";

/** A part is made so small that it should take seconds; one that takes this long is lost. */
const REPLY_WAIT_MS = 60_000;

export interface Part {
  readonly hash: string;
  readonly offset: number;
  /** Bytes of the whole picture. */
  readonly size: number;
  readonly content: Bytes;
}

export class PhotoService {
  constructor(readonly http: Http) {}

  async state(hash: string, signal: AbortSignal): Promise<PhotoReply> {
    return (await this.#ask(pathOf(hash), { method: "GET" }, signal, bodyOf)) as PhotoReply;
  }

  async send({ hash, offset, size, content }: Part, signal: AbortSignal): Promise<PhotoReply> {
    const headers = { "content-type": "application/octet-stream" };
    const path = `${pathOf(hash)}?offset=${offset}&size=${size}`;
    return (await this.#ask(path, { method: "PUT", headers, body: content }, signal, bodyOf)) as PhotoReply;
  }

  picture(hash: string, signal: AbortSignal): Promise<Bytes> {
    return this.#ask(`${pathOf(hash)}/file`, { method: "GET" }, signal, bytesOf);
  }

  thumbnail(hash: string, signal: AbortSignal): Promise<Bytes> {
    return this.#ask(`${pathOf(hash)}/thumbnail`, { method: "GET" }, signal, bytesOf);
  }

  /** Ends when the caller wants it to, or when it has taken too long. */
  async #ask<T>(
    path: string,
    init: RequestInit,
    signal: AbortSignal,
    read: (response: Response) => Promise<T>,
  ): Promise<T> {
    const ending = new AbortController();
    const end = () => ending.abort();
    const timer = setTimeout(end, REPLY_WAIT_MS);
    signal.addEventListener("abort", end);
    try {
      const response = await this.#reached(path, { ...init, signal: ending.signal });
      if (!response.ok) throw problemFrom(response.status, await bodyOf(response));
      return await read(response);
    } finally {
      clearTimeout(timer);
      signal.removeEventListener("abort", end);
    }
  }

  async #reached(path: string, init: RequestInit): Promise<Response> {
    try {
      return await this.http(path, init);
    } catch (error) {
      throw new NoReply({ cause: error });
    }
  }
}

/** A picture cut off on its way is no reply. */
async function bytesOf(response: Response): Promise<Bytes> {
  try {
    return new Uint8Array(await response.arrayBuffer());
  } catch (error) {
    throw new NoReply({ cause: error });
  }
}

function pathOf(hash: string): string {
  return `/api/photos/${hash}`;
}
