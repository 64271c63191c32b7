/**
 * A double of the service's photos: parts in order, the whole judged by its hash, and a line that can lose what a test
 * tells it to. It stands for the outside; nothing of the phone is replaced.
 */
import { createHash } from "node:crypto";
import type { Bytes } from "../../src/wire";

export type Fault = "none" | "request_lost" | "reply_lost" | "busy";

export class PhotoOffice {
  /** Photos that a record names: hash and size. */
  readonly named = new Map<string, number>();
  readonly here = new Map<string, Uint8Array>();
  readonly whole = new Map<string, Uint8Array>();
  /** Codes that the office answers the last part of a photo with. */
  readonly unwanted = new Map<string, string>();
  /** What the line does to the requests to come, first one first. */
  faults: Fault[] = [];
  /** Bytes that arrived, counted as often as they did. */
  bytesTaken = 0;
  asked = 0;
  parts = 0;
  /** Called before every part is taken. */
  onPart: () => Promise<void> | void = () => undefined;
  /** A person who lost the right to send. */
  answersAll: number | null = null;
  /** Answers like something in between, without a code. */
  broken: number | null = null;
  /** Photos that the office fails at, by hash. */
  readonly failing = new Set<string>();

  readonly http = async (path: string, init: RequestInit): Promise<Response> => {
    this.asked += 1;
    const fault = this.faults.shift() ?? "none";
    if (init.signal?.aborted) throw new DOMException("Aborted", "AbortError");
    if (fault === "request_lost") throw new TypeError("Failed to fetch");
    if (fault === "busy") return problem(503, "busy");
    const reply = await this.#answer(path, init);
    if (fault === "reply_lost") throw new TypeError("Failed to fetch");
    return reply;
  };

  async #answer(path: string, init: RequestInit): Promise<Response> {
    const url = new URL(path, "http://office.test");
    const [, , , hash = "", more] = url.pathname.split("/");
    if (this.broken !== null) return new Response("<html>Gateway</html>", { status: this.broken });
    if (this.failing.has(hash)) return problem(500, "internal");
    if (this.answersAll !== null) return problem(this.answersAll, "viewer_only_looks");
    if (more !== undefined) return this.#picture(hash);
    if (!this.named.has(hash)) return problem(404, "not_found");
    if (init.method === "PUT") return this.#take(hash, url, new Uint8Array(init.body as ArrayBuffer));
    return this.#state(hash);
  }

  #picture(hash: string): Response {
    const bytes = this.whole.get(hash);
    return bytes === undefined ? problem(404, "not_found") : new Response(bytes as Bytes);
  }

  #state(hash: string): Response {
    const size = this.named.get(hash) ?? 0;
    const complete = this.whole.has(hash);
    return Response.json({ size, received: complete ? size : (this.here.get(hash)?.length ?? 0), complete });
  }

  async #take(hash: string, url: URL, content: Uint8Array): Promise<Response> {
    await this.onPart();
    const here = this.here.get(hash) ?? new Uint8Array();
    const offset = Number(url.searchParams.get("offset"));
    if (offset > here.length) return problem(409, "photo_gap", { expected: here.length });
    if (offset < here.length || this.whole.has(hash)) return this.#state(hash);
    this.parts += 1;
    this.bytesTaken += content.length;
    const joined = new Uint8Array(here.length + content.length);
    joined.set(here);
    joined.set(content, here.length);
    this.here.set(hash, joined);
    return joined.length === this.named.get(hash) ? this.#judge(hash, joined) : this.#state(hash);
  }

  #judge(hash: string, bytes: Uint8Array): Response {
    this.here.delete(hash);
    const isWhole = createHash("sha256").update(bytes).digest("hex") === hash;
    const code = isWhole ? this.unwanted.get(hash) : "photo_damaged";
    if (code !== undefined) return problem(422, code);
    this.whole.set(hash, bytes);
    return this.#state(hash);
  }
}

function problem(status: number, code: string, more: object = {}): Response {
  return Response.json({ status, code, ...more }, { status });
}
