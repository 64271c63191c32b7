/** The phone's database as the app's first version declared it, and used it while a tab with that version is open. */
import { Dexie, type Table } from "dexie";

const DEVICE = "0197a000-0000-7000-8000-000000000001";

export class FirstVersion extends Dexie {
  records!: Table<Record<string, unknown>>;
  held!: Table<Record<string, unknown>>;
  changes!: Table<Record<string, unknown>>;
  refused!: Table<Record<string, unknown>>;
  meta!: Table<Record<string, unknown>, string>;
  drafts!: Table<Record<string, unknown>>;

  constructor(name: string) {
    super(name, { chromeTransactionDurability: "strict" });
    this.version(1).stores({
      records: "[kind+id]",
      held: "[kind+id]",
      changes: "change_id, number, acked, [kind+record_id]",
      refused: "change_id",
      meta: "key",
      drafts: "key",
    });
  }

  /** A phone in the middle of its work: some of everything that the first version could hold. */
  async fill(): Promise<void> {
    await this.records.bulkAdd([record("j1", { name: "Mill house" }, 3), record("j2", { name: "Barn" }, 7)]);
    await this.held.add(record("j3", { name: "Of an earlier database" }, 2));
    await this.changes.bulkAdd([
      change(4, "j1", { note: "Sent, not pulled yet" }, 8),
      change(5, "j2", { note: "Waits" }),
      change(6, "j4", { name: "Waits too" }),
    ]);
    await this.refused.add({ ...refusal("c1"), fields: { name: "Refused" } });
    await this.drafts.add({ key: "reading", text: "3 5/1" });
    await this.meta.bulkAdd([account(), { key: "undo", steps: [{ at: "2026-05-04T08:30:00Z", inverse: [] }] }]);
  }

  /** Saves one change as the first version did. */
  save(id: string, fields: object): PromiseLike<void> {
    return this.transaction("rw", this.tables, async () => {
      const before = (await this.meta.get("account")) ?? {};
      const nextNumber = Number(before["nextNumber"]);
      await this.changes.bulkAdd([{ ...change(nextNumber, id, fields), seen: before["cursor"] }]);
      await this.meta.put({ ...before, nextNumber: nextNumber + 1 });
    });
  }

  /** Takes a page as the first version did: it knows of no view. */
  takePage(records: readonly Record<string, unknown>[], cursor: number): PromiseLike<void> {
    return this.transaction("rw", this.tables, async () => {
      await this.records.bulkPut(records);
      await this.meta.put({ ...(await this.meta.get("account")), cursor });
    });
  }
}

export function record(id: string, fields: object, sequence: number): Record<string, unknown> {
  return { kind: "job", id, fields, sequence };
}

function change(number: number, id: string, fields: object, acked = 0): Record<string, unknown> {
  const made = { device_time: "2026-05-04T08:30:00Z", schema: 1, seen: 7 };
  return { change_id: `change-${number}`, number, kind: "job", record_id: id, fields, ...made, acked };
}

function refusal(id: string): Record<string, unknown> {
  return { change_id: id, kind: "job", record_id: "j9", reason: "bad_value", message: "No.", at: "2026-05-04T08:30:00Z" };
}

function account(): Record<string, unknown> {
  return {
    key: "account",
    deviceId: DEVICE,
    database: "the office",
    cursor: 7,
    nextNumber: 7,
    joined: true,
    mustJoinAgain: false,
    person: "Ana",
    lastSentAt: "2026-05-04T08:30:00Z",
    clockOffsetMs: 120,
  };
}
