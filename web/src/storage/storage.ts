/**
 * The phone's storage. Every method that writes is one transaction, and returns after it was committed and announced;
 * one that fails throws a StorageError and leaves everything as it was.
 */
import type { Edit, Loaded, PullReply, PushReply, WriteTogether } from "../wire";
import { Announcer, newsOf, standingOf, type News, type Standing } from "./announce";
import { loadAccount, loadUndo, PhoneDatabase, type Account, type QueuedChange, type RecordKey } from "./database";
import { committed } from "./errors";
import { adoptDatabase, continueFrom, offerHeld, settlePush, takeNewIdentity, takePage } from "./exchange";
import { rowsFrom } from "./overlay";
import { enqueue, keepRefused, waitingChanges } from "./queue";

export type AccountNews = Partial<Omit<Account, "key" | "nextNumber" | "cursor" | "database">>;

export class Storage {
  readonly #database: PhoneDatabase;
  readonly #announcer: Announcer;
  readonly #onStanding = new Set<(standing: Standing) => void>();

  constructor(name = "evenbed") {
    this.#database = new PhoneDatabase(name);
    this.#announcer = new Announcer(name);
    this.#announcer.onOtherTab((keys) => void this.#readAgain(keys));
  }

  /** Called with every record that looks different after a commit, here or in another tab. */
  onNews(listener: (news: News) => void): void {
    this.#announcer.onNews(listener);
  }

  /** Called after every commit that touched the queue, the refused changes or the account. */
  onStanding(listener: (standing: Standing) => void): void {
    this.#onStanding.add(listener);
  }

  async load(): Promise<Loaded> {
    const { loaded, standing } = await committed(() =>
      this.#inTransaction("r", async () => ({
        loaded: await this.#loadAll(),
        standing: await standingOf(this.#database),
      })),
    );
    this.#tellStanding(standing);
    return loaded;
  }

  async #loadAll(): Promise<Loaded> {
    const [records, held, changes, drafts, undo] = await Promise.all([
      this.#database.records.toArray(),
      this.#database.held.toArray(),
      this.#database.changes.toArray(),
      this.#database.drafts.toArray(),
      loadUndo(this.#database),
    ]);
    return { rows: rowsFrom(records, held, changes), drafts: drafts.map(({ key, text }) => [key, text]), undo };
  }

  async write(edits: readonly Edit[], together: WriteTogether): Promise<void> {
    await this.#writeAnd(async (database) => {
      await enqueue(database, edits);
      await database.meta.put({ key: "undo", steps: together.undo });
      if (together.clearDraft !== undefined) await database.drafts.delete(together.clearDraft);
      return edits.map(({ kind, id }): RecordKey => [kind, id]);
    });
  }

  async saveDraft(key: string, text: string | null): Promise<void> {
    const { drafts } = this.#database;
    await committed<unknown>(() => (text === null ? drafts.delete(key) : drafts.put({ key, text })));
  }

  async dismissRefused(changeId: string): Promise<void> {
    await this.#writeAnd(async (database) => {
      await database.refused.delete(changeId);
      return [];
    });
  }

  account(): Promise<Account> {
    return committed(() => loadAccount(this.#database));
  }

  /** The first `most` changes that wait, in order. */
  async waiting(most: number): Promise<readonly QueuedChange[]> {
    return (await committed(() => waitingChanges(this.#database))).slice(0, most);
  }

  async hasHeld(): Promise<boolean> {
    return (await committed(() => this.#database.held.count())) > 0;
  }

  async updateAccount(news: AccountNews): Promise<void> {
    await this.#writeAnd(async (database) => {
      await database.meta.put({ ...(await loadAccount(database)), ...news });
      return [];
    });
  }

  settlePush(reply: PushReply): Promise<void> {
    return this.#writeAnd((database) => settlePush(database, reply));
  }

  /** Sets aside one change that the service cannot read, and closes the gap its number would leave. */
  refuse(change: QueuedChange, reason: string, message: string): Promise<void> {
    return this.#writeAnd(async (database) => {
      await keepRefused(database, change, { reason, message }, new Date().toISOString());
      await continueFrom(database, change.number);
      return [[change.kind, change.record_id]];
    });
  }

  takePage(page: PullReply): Promise<void> {
    return this.#writeAnd((database) => takePage(database, page));
  }

  adoptDatabase(identity: string): Promise<void> {
    return this.#writeAnd((database) => adoptDatabase(database, identity).then(() => []));
  }

  offerHeld(): Promise<void> {
    return this.#writeAnd((database) => offerHeld(database));
  }

  takeNewIdentity(): Promise<void> {
    return this.#writeAnd((database) => takeNewIdentity(database).then(() => []));
  }

  continueFrom(expected: number): Promise<void> {
    return this.#writeAnd((database) => continueFrom(database, expected).then(() => []));
  }

  close(): void {
    this.#announcer.close();
    this.#database.close();
  }

  /** One transaction: the work, then what it changed as it now looks. Announced only once committed. */
  async #writeAnd(work: (database: PhoneDatabase) => PromiseLike<readonly RecordKey[]>): Promise<void> {
    const { news, standing } = await committed(() =>
      this.#inTransaction("rw", async () => {
        const keys = await work(this.#database);
        return { news: await newsOf(this.#database, keys), standing: await standingOf(this.#database) };
      }),
    );
    this.#announcer.tell(news);
    this.#tellStanding(standing);
  }

  #inTransaction<T>(mode: "r" | "rw", work: () => Promise<T>): PromiseLike<T> {
    return this.#database.transaction(mode, this.#database.tables, work);
  }

  #tellStanding(standing: Standing): void {
    for (const listener of this.#onStanding) listener(standing);
  }

  async #readAgain(keys: readonly RecordKey[]): Promise<void> {
    const { news, standing } = await committed(() =>
      this.#inTransaction("r", async () => ({
        news: await newsOf(this.#database, keys),
        standing: await standingOf(this.#database),
      })),
    );
    this.#announcer.tellHere(news);
    this.#tellStanding(standing);
  }
}
