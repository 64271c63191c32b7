/** Tells who listens, in this tab and the others, which records now look different, and how many changes wait. */
import type { Refused, Row } from "../wire";
import { loadAccount, type Account, type PhoneDatabase, type RecordKey } from "./database";
import { keyText, rowFrom } from "./overlay";

/** What a transaction changed, as it is now shown. */
export interface News {
  readonly rows: readonly Row[];
  /** Records that are shown no more: nothing of them is known. */
  readonly gone: readonly RecordKey[];
}

export interface Standing {
  readonly waiting: number;
  readonly refused: readonly Refused[];
  readonly account: Account;
}

/** Reads records as shown, inside the caller's transaction, so that nothing can slip between. */
export async function newsOf(database: PhoneDatabase, keys: readonly RecordKey[]): Promise<News> {
  const distinct = [...new Map(keys.map((key) => [keyText(...key), key])).values()];
  const shown = await Promise.all(distinct.map((key) => shownAt(database, key)));
  return {
    rows: shown.filter((row) => row !== null),
    gone: distinct.filter((_, index) => shown[index] === null),
  };
}

async function shownAt(database: PhoneDatabase, key: RecordKey): Promise<Row | null> {
  const [record, held, changes] = await Promise.all([
    database.records.get([...key]),
    database.held.get([...key]),
    database.changes.where("[kind+record_id]").equals([...key]).toArray(),
  ]);
  return rowFrom({ kind: key[0], id: key[1] }, { record, held }, changes);
}

/** How the queue and the account stand, inside the caller's transaction. */
export async function standingOf(database: PhoneDatabase): Promise<Standing> {
  const [waiting, refused, account] = await Promise.all([
    database.changes.where("acked").equals(0).count(),
    database.refused.toArray(),
    loadAccount(database),
  ]);
  return { waiting, refused, account };
}

type Listener<T> = (news: T) => void;

/** Other tabs are told keys only, and read for themselves. */
export class Announcer {
  readonly #channel: BroadcastChannel | null;
  readonly #onNews = new Set<Listener<News>>();
  readonly #onOtherTab = new Set<Listener<readonly RecordKey[]>>();

  constructor(name: string) {
    this.#channel = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel(name);
    this.#channel?.addEventListener("message", (event: MessageEvent<readonly RecordKey[]>) => {
      for (const listener of this.#onOtherTab) listener(event.data);
    });
  }

  onNews(listener: Listener<News>): void {
    this.#onNews.add(listener);
  }

  onOtherTab(listener: Listener<readonly RecordKey[]>): void {
    this.#onOtherTab.add(listener);
  }

  /** To this tab only: another tab did the writing. */
  tellHere(news: News): void {
    for (const listener of this.#onNews) listener(news);
  }

  tell(news: News): void {
    this.tellHere(news);
    this.#channel?.postMessage([...news.rows.map((row) => [row.kind, row.id]), ...news.gone]);
  }

  close(): void {
    this.#channel?.close();
  }
}
