/** The state over real storage, with an engine that the test answers for. */
import { jobFilesOf } from "../../src/app/jobFiles";
import "fake-indexeddb/auto";
import { connect, hideRows, showRows, type Ports } from "../../src/state/connect";
import { Storage } from "../../src/storage";
import type { OwnPhoto } from "../../src/wire";

/** The edge behind the state that is not under test here: plans come from the test, the office stays silent. */
export class Outside {
  readonly asked: { question: string; key: string; text: string; answer: (plan: string) => void; fail: (e: Error) => void }[] = [];
  /** What the office answers where it is part of the test. */
  office: Partial<Ports["office"]> = {};
  picture: Ports["photos"]["picture"] = () => Promise.resolve(null);
  /** What the next file is made into; null where it is no picture. */
  prepared: OwnPhoto | null = null;
  storage = new Storage(`state-${crypto.randomUUID()}`);

  async connect(): Promise<void> {
    this.storage.onNews(({ rows, gone }) => {
      showRows(rows);
      hideRows(gone);
    });
    await connect(this.#ports());
  }

  /** The app closed and opened again over the same database. */
  async reopen(): Promise<void> {
    await connect(this.#ports());
  }

  #ports(): Ports {
    const silent = () => Promise.reject(new Error("The office is not part of this test."));
    return {
      storage: this.storage,
      jobFiles: jobFilesOf(this.storage),
      engine: {
        ask: (question, key, text) =>
          new Promise((answer, fail) => this.asked.push({ question, key, text, answer, fail })),
      },
      office: {
        join: silent,
        leave: silent,
        syncNow: silent,
        historyOf: silent,
        people: silent,
        invite: silent,
        editPerson: silent,
        renameDevice: silent,
        removeDevice: silent,
        calendar: silent,
        makeCalendar: silent,
        revokeCalendar: silent,
        forecast: silent,
        ...this.office,
      },
      photos: { prepare: () => Promise.resolve(this.prepared), thumbnail: silent, picture: (hash) => this.picture(hash), sendAgain: silent },
      scans: { read: silent },
      update: { accept: () => undefined },
    };
  }
}
