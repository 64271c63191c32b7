/**
 * Photos on their way to the office, in a loop of their own: one at a time, in parts, each going on from where the
 * office stands. Changes go first: before every part it is waited until nothing of them is under way, and a phone that
 * cannot send changes sends no photos either. Whatever happens, the picture stays here until the office has it whole.
 */
import type { Photos } from "../storage";
import { MOST_PART_BYTES, type Bytes, type PhotoReply } from "../wire";
import { waitFromFailures } from "./backoff";
import type { Phase } from "./office";
import type { PhotoService } from "./photo_service";
import { NoReply, ProblemReply } from "./service";

const LEAST_PART_BYTES = 16_384;
/** Parts are made larger while they take less than the first, smaller where they take more than the second. */
const SWIFT_MS = 1_000;
const SLOW_MS = 4_000;
/** How often one photo may lead nowhere (another phone sends it too, say) before the next occasion is waited for. */
const MOST_DETOURS = 3;

export interface PhotoSurroundings {
  isOnline(): boolean;
  /** Runs the work while no other tab does the same. */
  alone<T>(work: () => Promise<T>): Promise<T>;
}

/** Sending stopped because the phone may not send now; it goes on at the next occasion. */
class Stopped extends Error {}

/** This photo leads nowhere for now; the ones after it may. */
class Stuck extends Error {}

export class PhotoSender {
  #phase: Phase = "not_joined";
  #running: Promise<void> | null = null;
  #again = false;
  #stop = new AbortController();
  #failures = 0;
  #retry: ReturnType<typeof setTimeout> | null = null;
  #partBytes = LEAST_PART_BYTES * 4;
  readonly #turns = new Set<() => void>();

  constructor(
    readonly photos: Photos,
    readonly service: PhotoService,
    readonly around: PhotoSurroundings,
  ) {}

  /** How the exchange of changes stands. When it has come to rest, photos may go. */
  follow(phase: Phase): void {
    this.#phase = phase;
    if (phase === "syncing") return;
    for (const turn of this.#turns) turn();
    this.#turns.clear();
    if (this.#mayGo()) this.nudge();
    else this.stop();
  }

  #mayGo(): boolean {
    return this.#phase === "idle" || this.#phase === "full";
  }

  /** There may be something to send. */
  nudge(): void {
    this.#again = true;
    if (this.#retry === null && this.#mayGo()) void this.sendNow();
  }

  /** Everything that waits, now; resolves when all is sent or it cannot go on. */
  sendNow(): Promise<void> {
    this.#again = true;
    this.#running ??= this.#runAll().finally(() => (this.#running = null));
    return this.#running;
  }

  /** Ends what is under way: the network is gone, or the phone left. A part that is cut off is sent anew later. */
  stop(): void {
    this.#again = false;
    this.#stop.abort();
    this.#cancelRetry();
  }

  async #runAll(): Promise<void> {
    this.#cancelRetry();
    try {
      while (this.#again) await this.#runOnce();
      this.#failures = 0;
    } catch (error) {
      this.#ended(error);
    }
  }

  async #runOnce(): Promise<void> {
    this.#again = false;
    this.#stop = new AbortController();
    const { signal } = this.#stop;
    try {
      await this.around.alone(() => this.#sendAll());
    } catch (error) {
      if (!(error instanceof Stopped || signal.aborted)) throw error;
    }
  }

  #ended(error: unknown): void {
    if (!this.around.isOnline()) return;
    if (!(error instanceof NoReply || error instanceof ProblemReply)) console.error(error);
    this.#failures += 1;
    this.#retry = setTimeout(() => {
      this.#retry = null;
      this.nudge();
    }, waitFromFailures(this.#failures, Math.random()));
  }

  #cancelRetry(): void {
    if (this.#retry !== null) clearTimeout(this.#retry);
    this.#retry = null;
  }

  async #sendAll(): Promise<void> {
    const stuck: unknown[] = [];
    for (const { hash, problem } of await this.photos.unsent()) {
      if (problem !== null) continue;
      await this.#sendOne(hash).catch((error: unknown) => {
        if (!isOfOnePhoto(error)) throw error;
        stuck.push(error);
      });
    }
    if (stuck.length > 0) throw stuck[0];
  }

  /** A photo that the office does not know (its record was refused or deleted) waits, and keeps no other from going. */
  async #sendOne(hash: string): Promise<void> {
    try {
      await this.#sendWhole(hash);
      await this.photos.settle(hash);
    } catch (error) {
      if (!(error instanceof ProblemReply && error.isOfTheService)) throw error;
      if (error.code === "viewer_only_looks") throw new Stopped();
      if (isAboutThePhoto(error)) await this.photos.refuse(hash, error.code);
      else if (error.status !== 404) throw error;
    }
  }

  async #sendWhole(hash: string): Promise<void> {
    const bytes = await this.photos.picture(hash);
    if (bytes === null) throw new Stuck(`The picture ${hash} is not on this phone any more.`);
    await this.#turn();
    let state = await this.service.state(hash, this.#stop.signal);
    for (let detours = 0; !state.complete; ) {
      await this.#turn();
      const next = await this.#sendPart(hash, bytes, state);
      if (next.received <= state.received && !next.complete) detours += 1;
      if (detours > MOST_DETOURS) throw new Stuck(`The picture ${hash} gets no further.`);
      state = next;
    }
  }

  async #sendPart(hash: string, bytes: Bytes, { received }: PhotoReply): Promise<PhotoReply> {
    const content = bytes.subarray(received, received + this.#partBytes);
    const began = Date.now();
    try {
      const state = await this.service.send({ hash, offset: received, size: bytes.length, content }, this.#stop.signal);
      this.#fitParts(Date.now() - began);
      return state;
    } catch (error) {
      if (error instanceof NoReply) this.#fitParts(SLOW_MS + 1);
      return await this.#whereItStands(hash, error);
    }
  }

  /** What was sent before these bytes was let go of, or came from two phones at once: on from where the office says. */
  async #whereItStands(hash: string, error: unknown): Promise<PhotoReply> {
    const code = error instanceof ProblemReply ? error.code : null;
    if (code === "photo_gap") return this.service.state(hash, this.#stop.signal);
    if (code !== "photo_damaged" || this.#damaged.has(hash)) throw error;
    this.#damaged.add(hash);
    return this.service.state(hash, this.#stop.signal);
  }

  /** Photos whose bytes the office found damaged once: another phone may have sent it wrong ones for a first part. */
  readonly #damaged = new Set<string>();

  #fitParts(tookMs: number): void {
    if (tookMs < SWIFT_MS) this.#partBytes = Math.min(MOST_PART_BYTES, this.#partBytes * 2);
    if (tookMs > SLOW_MS) this.#partBytes = Math.max(LEAST_PART_BYTES, this.#partBytes / 2);
  }

  /** Changes go first: resolves when none is under way, and throws where photos may not go then. */
  async #turn(): Promise<void> {
    while (this.#phase === "syncing") await new Promise<void>((resolve) => this.#turns.add(resolve));
    if (!this.#mayGo() || this.#stop.signal.aborted) throw new Stopped();
  }
}

/** The office has judged the picture, and will not judge otherwise when it comes again. */
function isAboutThePhoto({ status, code }: ProblemReply): boolean {
  return code.startsWith("photo_") || status === 413 || status === 415 || status === 422;
}

/** Not the network's fault, nor that of an office which is busy: the office fails at this photo, or it leads nowhere. */
function isOfOnePhoto(error: unknown): boolean {
  return error instanceof Stuck || (error instanceof ProblemReply && error.isOfTheService && error.status === 500);
}
