/** The phone's database as the app's third version declared it: rooms held ticks of stations by rail and row. */
import { Dexie, type Table } from "dexie";

type Raw = Record<string, unknown>;

export const TICKS = "rails.set_stations";
export const TICKED = { name: "Hall", [TICKS]: ["A:0"] };
/** A change that waits, as that version made it. */
export const WAITING = change(5, "r1", { [TICKS]: ["A:0", "A:1"] });

export class ThirdVersion extends Dexie {
  records!: Table<Raw>;
  held!: Table<Raw>;
  changes!: Table<Raw>;
  meta!: Table<Raw, string>;

  constructor(name: string) {
    super(name, { chromeTransactionDurability: "strict" });
    this.version(3).stores({
      records: "[kind+id]",
      held: "[kind+id]",
      changes: "change_id, number, acked, [kind+record_id]",
      refused: "change_id",
      meta: "key",
      drafts: "key",
      histories: "[kind+id], at",
      photos: "hash, unsent, [unsent+usedAt]",
      pictures: "hash, size",
    });
  }

  /** Some of everything that could hold ticks, beside what has none. */
  async fill(): Promise<void> {
    const lost = [{ value: [], person: "Ben", device_id: "d", at: "2026-05-04T08:30:00Z", sequence: 4 }];
    await this.records.bulkAdd([
      record("job", "j1", { name: "Mill house" }),
      { ...record("room", "r1", TICKED), conflicts: { [TICKS]: lost, name: lost } },
      record("room", "r2", { name: "Bath", "rails.inset": 150 }),
    ]);
    await this.held.add({ ...record("room", "r3", TICKED), conflicts: undefined });
    await this.changes.bulkAdd([WAITING, change(6, "r2", { name: "Shower" })]);
    await this.meta.bulkAdd([account(), { key: "undo", steps: [step("r2", { name: "Bath" }), step("r1", { [TICKS]: ["A:0"] })] }]);
  }
}

function record(kind: string, id: string, fields: object): Raw {
  return { kind, id, fields, sequence: 3, view: 1, conflicts: {} };
}

function change(number: number, id: string, fields: object): Raw {
  const made = { device_time: "2026-05-04T08:30:00Z", schema: 1, seen: 3, acked: 0 };
  return { change_id: `change-${number}`, number, kind: "room", record_id: id, fields, ...made };
}

function step(id: string, fields: object): Raw {
  return { at: "2026-05-04T08:30:00Z", inverse: [{ kind: "room", id, fields }] };
}

function account(): Raw {
  const standing = { joined: true, mustJoinAgain: false, removed: false, sweeping: false, lastSentAt: null, clockOffsetMs: 0 };
  const who = { person: "Ana", personId: "p", role: "setter", deviceName: "phone", deviceId: "0197a000-0000-7000-8000-000000000001" };
  return { key: "account", database: "the office", cursor: 7, view: 1, nextNumber: 7, ...standing, ...who };
}
