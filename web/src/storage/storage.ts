/**
 * The phone's storage. Every method that writes is one transaction, and returns after it was committed and announced;
 * one that fails throws a StorageError and leaves everything as it was.
 */
import { JobFileError, type JobFileRead } from "../carrying";
import type { Edit, JobHistoryReply, Kind, Loaded, People, PullReply, PushReply, Unsent, WriteTogether } from "../wire";
import { adoptDatabase, offerHeld } from "./adopt";
import { Announcer, newsOf, standingOf, type News, type Standing } from "./announce";
import {
  loadAccount,
  loadPeople,
  loadUndo,
  PhoneDatabase,
  type Account,
  type QueuedChange,
  type RecordKey,
  type StoredHistory,
  type StoredOpened,
} from "./database";
import { committed } from "./errors";
import { continueFrom, noteWho, settlePush, takeNewIdentity, type Who } from "./exchange";
import { keepHistory, unsentOf } from "./kept";
import { rowsFrom } from "./overlay";
import { takePage, type Asked } from "./pages";
import { keepOwn, Photos } from "./photos";
import { Presses } from "./presses";
import { enqueue, keepRefused, waitingChanges } from "./queue";
import { contentsFromText, takeIn, type ReadOutcome } from "./read_in";
import { withRoom } from "./room";
import { freshIn, jobIn, type JobIn } from "./job_in";
import { jobOut, type JobOut } from "./job_out";
import { keepPast, noteOpened, pastsToFetch } from "./pasts";
import { DATABASE, unsentFile, type UnsentFile } from "./unsent";

export type AccountNews = Partial<Omit<Account, "key" | "nextNumber" | "cursor" | "view" | "sweeping" | "database">>;

export class Storage {
  readonly #database: PhoneDatabase;
  readonly #announcer: Announcer;
  readonly #onStanding = new Set<(standing: Standing) => void>();
  readonly #presses: Presses;
  readonly photos: Photos;

  constructor(readonly name = DATABASE) {
    this.#database = new PhoneDatabase(name);
    this.#announcer = new Announcer(name);
    this.#presses = new Presses(name);
    this.photos = new Photos(this.#database, name);
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

  /** Called where another tab, with an older version of the app, keeps the database from being brought up to date. */
  onBlocked(listener: () => void): void {
    this.#database.on("blocked", listener);
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
    const [records, held, changes, drafts, undo, people] = await Promise.all([
      this.#database.records.toArray(),
      this.#database.held.toArray(),
      this.#database.changes.toArray(),
      this.#database.drafts.toArray(),
      loadUndo(this.#database),
      loadPeople(this.#database),
    ]);
    const rows = rowsFrom(records, held, changes);
    const typed = new Map([...drafts.map(({ key, text }): [string, string] => [key, text]), ...this.#presses.all()]);
    return { rows, drafts: [...typed], undo, people };
  }

  async write(edits: readonly Edit[], together: WriteTogether): Promise<void> {
    await this.#writeAnd(async (database) => {
      await enqueue(database, edits);
      await database.meta.put({ key: "undo", steps: together.undo });
      if (together.clearDraft !== undefined) await database.drafts.delete(together.clearDraft);
      if (together.photo !== undefined) await keepOwn(database, together.photo);
      return edits.map(({ kind, id }): RecordKey => [kind, id]);
    });
    if (together.clearDraft !== undefined) this.#presses.settle(together.clearDraft, null);
    if (together.photo !== undefined) this.photos.tell();
  }

  async saveDraft(key: string, text: string | null): Promise<void> {
    const { drafts } = this.#database;
    if (text !== null) this.#presses.keep(key, text);
    await withRoom<unknown>(this.#database, () => (text === null ? drafts.delete(key) : drafts.put({ key, text })));
    this.#presses.settle(key, text);
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

  /** The service told whose phone this is; `news` goes with it. */
  noteWho(who: Who, news: AccountNews = {}): Promise<void> {
    return this.#writeAnd(async (database) => {
      await noteWho(database, who);
      await database.meta.put({ ...(await loadAccount(database)), ...news });
      return [];
    });
  }

  /** Room is not made for a story: the others would go for it. */
  async keepHistory(history: StoredHistory): Promise<void> {
    const { histories } = this.#database;
    await committed(() => this.#database.transaction("rw", histories, () => keepHistory(this.#database, history)));
  }

  historyKept(kind: Kind, id: string): Promise<StoredHistory | undefined> {
    return committed(() => this.#database.histories.get([kind, id]));
  }

  async keepPeople(people: People): Promise<void> {
    await withRoom(this.#database, () => this.#database.meta.put({ key: "people", ...people }));
  }

  unsentOf(kind: Kind, id: string): Promise<readonly Unsent[]> {
    return committed(() => unsentOf(this.#database, kind, id));
  }

  /** Everything unsent as a file, read past this class and its library: it works where they no longer do. */
  unsentFile(): Promise<UnsentFile> {
    return unsentFile(this.name);
  }

  /** Takes the changes of such a file into the queue: all of them or, where that fails, none. */
  async readUnsentFile(text: string): Promise<ReadOutcome> {
    const contents = contentsFromText(text);
    if ("outcome" in contents) return contents;
    let count = 0;
    await this.#writeAnd(async (database) => {
      const taken = await takeIn(database, contents);
      count = taken.count;
      return taken.keys;
    });
    if (contents.photos.length > 0) this.photos.tell();
    return { outcome: "read", count };
  }

  /** A job that is looked at here: its history is fetched when the office can be reached. */
  noteOpened(jobId: string): Promise<void> {
    return committed(() => this.#inTransaction("rw", () => noteOpened(this.#database, jobId, new Date().toISOString())));
  }

  pastsToFetch(): Promise<readonly StoredOpened[]> {
    return committed(() => this.#inTransaction("r", () => pastsToFetch(this.#database)));
  }

  /** True where more of the same job is to be asked for. Room is not made for it: others' histories would go. */
  keepPast(asked: StoredOpened, page: JobHistoryReply): Promise<boolean> {
    return committed(() => this.#inTransaction("rw", () => keepPast(this.#database, asked, page)));
  }

  /** Everything known here of one job, with its pictures; null where it is not here. */
  jobOut(jobId: string, app: string): Promise<JobOut | null> {
    return committed(() => this.#inTransaction("r", () => jobOut(this.#database, jobId, app)));
  }

  /** Takes a job file that was found good: all of it or, where that fails, nothing. */
  async takeJob(file: JobFileRead): Promise<JobIn> {
    let taken: JobIn = { changes: 0, photos: 0, known: 0, keys: [] };
    const faults: JobFileError[] = [];
    await this.#writeAnd(async (database) => {
      const fresh = await freshIn(database, file);
      if (fresh instanceof JobFileError) {
        faults.push(fresh);
        return [];
      }
      taken = await jobIn(database, file, fresh);
      return taken.keys;
    });
    for (const fault of faults) throw fault;
    if (taken.photos > 0) this.photos.tell();
    return taken;
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

  /** False where the page does not follow on what is stored, and was left out: ask again from where the account is. */
  async takePage(asked: Asked, page: PullReply): Promise<boolean> {
    let isTaken = false;
    await this.#writeAnd(async (database) => {
      const keys = await takePage(database, asked, page);
      isTaken = keys !== null;
      return keys ?? [];
    });
    return isTaken;
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
    this.photos.close();
    this.#database.close();
  }

  /** One transaction: the work, then what it changed as it now looks. Announced only once committed. */
  async #writeAnd(work: (database: PhoneDatabase) => PromiseLike<readonly RecordKey[]>): Promise<void> {
    const { news, standing } = await withRoom(this.#database, () =>
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
