/** The phone's storage and sync against the service itself, over HTTP, where the project's Python is set up. */
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Edit, Kind } from "../../src/wire";
import { job } from "./phone";
import { hasService, RealOffice, START_MS } from "./real_office";

describe.skipIf(!hasService)("against the service itself", () => {
  const office = new RealOffice();
  beforeAll(() => office.start(), START_MS);
  afterAll(() => office.stop());

  test("a wrong code is refused, the right one joins", async () => {
    const phone = office.phone();
    expect(await phone.office.join("WRONG-CODE", "Ana", "phone")).toEqual({ outcome: "wrong_code" });
    expect((await office.joined("Ana")).phase).toBe("idle");
  });

  test("a job, its room, its readings and an undo arrive whole at a second phone", async () => {
    const first = await office.joined("Ana");
    const [jobId, roomId, wrong, right] = [uuidv7(), uuidv7(), uuidv7(), uuidv7()];
    await first.save({ kind: "job", id: jobId, fields: { name: "Mill house", units: "imperial" } } as Edit);
    await first.save({ kind: "room", id: roomId, fields: roomFields(jobId) });
    const reading = { room_id: roomId, down: 300, at: [10, 20], taken_at: "2026-05-04T08:30:00Z", typed: "300" };
    await first.save({ kind: "reading", id: wrong, fields: reading } as Edit);
    await first.save({ kind: "reading", id: right, fields: { ...reading, down: 30, supersedes: wrong } } as Edit);
    await first.save({ kind: "room", id: roomId, fields: { "mix.sand": null } } as Edit);
    await first.save({ kind: "reading", id: right, fields: { deleted: true } });
    await first.sync();
    expect(first.standing?.refused).toEqual([]);
    expect(first.standing?.waiting).toBe(0);
    const second = await office.joined("Ben");
    expect(await second.shown()).toEqual(await first.shown());
    expect((await second.shown())[right]).toMatchObject({ down: 30, supersedes: wrong, deleted: true });
    expect((await second.shown())[roomId]).toMatchObject({ "mix.sand": null, "bed.minimum_thickness": 30 });
  });

  test("lost replies and repeated pushes take effect once, and history says who", async () => {
    const phone = await office.joined("Ana");
    const id = uuidv7();
    for (const name of ["One", "Two", "Three"]) {
      await phone.save({ kind: "job", id, fields: { name } } as Edit);
      phone.loseReplies = 1;
      await phone.sync();
      expect(phone.phase).toBe("retrying");
    }
    await phone.sync();
    const history = await phone.office.historyOf("job", id);
    expect(history.entries.map((entry) => [entry.person, entry.fields])).toEqual([
      ["Ana", { name: "One" }],
      ["Ana", { name: "Two" }],
      ["Ana", { name: "Three" }],
    ]);
  });

  test("a refused change comes back with its reason and its value, and the rest goes on", async () => {
    const phone = await office.joined("Ana");
    await phone.save({ kind: "room", id: uuidv7(), fields: { job_id: uuidv7(), name: "No job" } } as Edit);
    const id = uuidv7();
    await phone.save({ kind: "job", id, fields: { name: "Goes on" } } as Edit);
    await phone.sync();
    expect(phone.standing?.refused).toMatchObject([{ reason: "unknown_parent", fields: { name: "No job" } }]);
    expect(phone.standing?.waiting).toBe(0);
    expect((await phone.shown())[id]).toMatchObject({ name: "Goes on" });
  });

  test("a change that waited since rooms had ticks of stations is taken, and what came after it too", async () => {
    const phone = await office.joined("Ana");
    const [jobId, roomId] = [uuidv7(), uuidv7()];
    await phone.save(job(jobId, "Mill house"), { kind: "room", id: roomId, fields: roomFields(jobId) });
    await phone.sync();
    const made = { kind: "room", record_id: roomId, seen: 0, schema: 1, device_time: "2026-05-04T08:30:00Z" };
    const changes = [{ "rails.set_stations": ["A:0"] }, { "rails.set_stations": [], name: "Bath" }];
    const told = changes.map((fields, n) => ({ ...made, change_id: uuidv7(), number: n + 1, fields }));
    const file = { evenbed_unsent: 1, database: null, device_id: null, clock_offset_ms: null, changes: told, refused: [], drafts: [], photos: [], missing: [] };
    expect(await phone.storage.readUnsentFile(JSON.stringify(file))).toEqual({ outcome: "read", count: 2 });
    expect((await phone.shown())[roomId]).toMatchObject({ "rails.set_stations": [], name: "Bath" });
    await phone.sync();
    expect(phone.standing?.refused).toEqual([]);
    expect(phone.standing?.waiting).toBe(0);
    expect((await phone.shown())[roomId]).toEqual({ ...roomFields(jobId), name: "Bath" });
  });

  test("what is set, read, mixed and written down on the floor arrives whole at a second phone", async () => {
    const first = await office.joined("Ana");
    const [jobId, roomId] = [uuidv7(), uuidv7()];
    const at = "2026-05-04T08:30:00Z";
    const fields: Partial<Record<Kind, object>> = {
      placement: { section: "S1", mixed_at: at, placed_at: at, screeded_at: at, channels_at: at },
      batch: { section: "S1", mixed_at: at, placed_at: null, size: 0.5 },
      station: { rail: "A", at: [152.4, 0], shim: 6.35, set_at: at },
      rail_check: { rail: "A", rail_to: "B", from: 0, to: 10, off: -1.5, length: 1219.2, reversed_off: 0.5, level: "long", typed: { off: "1/16" }, taken_at: at },
      entry: { what: "trued", at, rail: "A", from_raise: 0, to_raise: 1.6 },
    };
    const inRoom = Object.entries(fields).map(([kind, one]) => ({ kind, id: uuidv7(), fields: { room_id: roomId, ...one } }));
    const rails = { "rails.lines": [{ id: "A", from: [150, 0], to: [150, 2400] }], "rails.strips": [{ thickness: 19, length: 2400, count: 3 }], "rails.wood": false };
    const filling = { "filling.mixer": [100, 200], "filling.day_ends": at, "rails.straightedges": [600], "rails.tolerance": 1 };
    await first.save(job(jobId, "Mill house"));
    await first.save({ kind: "room", id: roomId, fields: { ...roomFields(jobId), ...rails, ...filling } } as Edit, ...(inRoom as Edit[]));
    await first.sync();
    expect(first.standing?.refused).toEqual([]);
    const second = await office.joined("Ben");
    expect(await second.shown()).toEqual(await first.shown());
    for (const { id, fields: told } of inRoom) expect((await second.shown())[id]).toEqual(told);
  });

  test("more changes than one push or one page holds all arrive", async () => {
    const first = await office.joined("Ana");
    const edits = Array.from({ length: 1_203 }, (_, n) => ({ kind: "job", id: uuidv7(), fields: { name: `${n}` } }));
    await first.save(...(edits as Edit[]));
    await first.sync();
    expect(first.standing?.waiting).toBe(0);
    const second = await office.joined("Ben");
    const shown = await second.shown();
    expect(edits.filter(({ id }) => shown[id] === undefined)).toEqual([]);
  }, 60_000);
});

function roomFields(jobId: string): object {
  return {
    job_id: jobId,
    name: "Hall",
    outline: { vertices: [[0, 0], [4000, 0], [4000, 3000], [0, 3000]] },
    openings: [{ id: "d", wall: 0, from: 100, to: 900, exit: true }],
    "bed.minimum_thickness": 30,
    "bed.top": { kind: "level", height: null },
    "mix.sand": 4,
    typed: { "bed.minimum_thickness": "30 mm" },
  };
}
