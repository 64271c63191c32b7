/** The phone's storage and sync against the service itself, over HTTP, where the project's Python is set up. */
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Edit } from "../../src/wire";
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
