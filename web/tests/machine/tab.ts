/** One open tab of the app on one phone: its own storage and office, over the phone's disk and the machine's network. */
import { JobFileError, makeJobFile, readJobFile } from "../../src/carrying";
import { Storage, type QueuedChange } from "../../src/storage";
import { Office, type Http, type JoinOutcome } from "../../src/sync";
import type { Edit, Row } from "../../src/wire";

export class Tab {
  readonly #storage: Storage;
  readonly #office: Office;
  readonly #shown = new Map<string, Row>();
  #phase = "";

  /** `http` carries requests; a browser without Web Locks lets every tab sync, so that is what the machine tries. */
  constructor(
    readonly disk: string,
    http: Http,
  ) {
    this.#storage = new Storage(disk);
    this.#storage.onNews(({ rows, gone }) => {
      for (const row of rows) this.#shown.set(`${row.kind}/${row.id}`, row);
      for (const [kind, id] of gone) this.#shown.delete(`${kind}/${id}`);
    });
    this.#office = new Office(this.#storage, { http, isOnline: () => true, alone: (work) => work() });
    this.#office.onPhase((phase) => (this.#phase = phase));
  }

  /** As the app starts: everything stored is read, from then on it is told what changes. */
  async start(): Promise<void> {
    for (const row of await this.loaded()) this.#shown.set(`${row.kind}/${row.id}`, row);
  }

  async loaded(): Promise<readonly Row[]> {
    return (await this.#storage.load()).rows;
  }

  get shown(): readonly Row[] {
    return [...this.#shown.values()];
  }

  async join(code: string, person: string): Promise<JoinOutcome> {
    const outcome = await this.#office.join(code, person, `phone ${this.disk}`);
    await this.sync();
    return outcome;
  }

  /** Goes on until the office rests; how it ended. */
  async sync(): Promise<string> {
    await this.#office.syncNow();
    this.#office.close();
    return this.#phase;
  }

  /** Saves the edits together as an action does; the changes that the phone made of them. */
  async write(edits: readonly Edit[]): Promise<readonly QueuedChange[]> {
    const before = new Set((await this.#storage.waiting(Infinity)).map((change) => change.change_id));
    await this.#storage.write(edits, { undo: [] });
    return (await this.#storage.waiting(Infinity)).filter((change) => !before.has(change.change_id));
  }

  dismiss(changeId: string): Promise<void> {
    return this.#storage.dismissRefused(changeId);
  }

  leave(): Promise<unknown> {
    return this.#office.leave();
  }

  /** The text of the file with everything unsent. */
  async unsent(): Promise<string> {
    return (await this.#storage.unsentFile()).text;
  }

  readIn(text: string): Promise<unknown> {
    return this.#storage.readUnsentFile(text);
  }

  openJob(jobId: string): Promise<void> {
    return this.#storage.noteOpened(jobId);
  }

  /** What this phone knows of a job as a file, in base 64; null where the job is not here. */
  async jobFile(jobId: string): Promise<string | null> {
    const out = await this.#storage.jobOut(jobId, "machine");
    if (out === null) return null;
    const file = makeJobFile(out.contents, out.photos);
    return Buffer.from(await file.arrayBuffer()).toString("base64");
  }

  /** Taken as the app takes it: looked into, then all of it or nothing, and why. */
  async takeJob(text: string): Promise<{ readonly changes: number } | { readonly fault: string }> {
    try {
      const { changes } = await this.#storage.takeJob(await readJobFile(new Blob([Buffer.from(text, "base64")])));
      return { changes };
    } catch (error) {
      if (error instanceof JobFileError) return { fault: error.fault };
      throw error;
    }
  }

  close(): void {
    this.#office.close();
    this.#storage.close();
  }
}
