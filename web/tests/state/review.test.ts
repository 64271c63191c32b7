import { afterEach, beforeEach, expect, test } from "vitest";
import * as state from "../../src/state";
import { session } from "../../src/state/status";
import type { Conflict, PulledRecord } from "../../src/wire";
import { Outside } from "./whole_phone";

const JOB = "0197a000-0000-7000-8000-000000000001";
const BEN: Conflict = { value: "Old mill", person: "Ben", device_id: "d2", at: "2026-05-04T08:30:00Z", sequence: 5 };
let outside: Outside;

beforeEach(async () => {
  outside = new Outside();
  await outside.connect();
  await outside.storage.adoptDatabase("the office");
});
afterEach(() => {
  session.value = { ...session.peek(), role: null };
  outside.storage.close();
});

/** The office tells of one job, as it stands there. */
async function told(fields: PulledRecord["fields"], sequence: number, conflicts: PulledRecord["conflicts"] = {}): Promise<void> {
  const { cursor: after, view } = await outside.storage.account();
  const made = { created_by: "Ana", changed_by: "Ana", changed_at: "2026-05-04T08:30:00Z" };
  const records: PulledRecord[] = [{ kind: "job", id: JOB, fields, sequence, conflicts, ...made }];
  const server_time = "2026-05-04T08:30:00Z";
  const page = { database: "the office", protocol: 1, server_time, latest: sequence, next: sequence, more: false, view: 1, records };
  await outside.storage.takePage({ after, view }, page);
}

function open(): readonly string[] {
  return state.openConflicts.value.map(({ field, others }) => `${field}: ${others.map((one) => String(one.value)).join()}`);
}

async function lastChange() {
  return (await outside.storage.waiting(99)).at(-1);
}

test("what lost against another edit is listed with what stands", async () => {
  await told({ name: "Mill house", note: "n" }, 5, { name: [BEN] });
  expect(state.openConflicts.value).toEqual([
    { kind: "job", id: JOB, field: "name", standing: { value: "Mill house" }, others: [BEN] },
  ]);
});

test("keeping what stands writes it again, knowing of the other, and closes the matter at once, also after a restart", async () => {
  await told({ name: "Mill house" }, 5, { name: [BEN] });
  await state.keepStanding("job", JOB, "name");
  expect(open()).toEqual([]);
  expect(await lastChange()).toMatchObject({ fields: { name: "Mill house" }, seen: 5 });
  await outside.reopen();
  expect(open()).toEqual([]);
  expect(state.canUndo.value).toBe(false);
});

test("taking the other is an edit like any other, and undo brings back what stood, with the matter still closed", async () => {
  await told({ name: "Mill house" }, 5, { name: [BEN] });
  await state.takeOther("job", JOB, "name", BEN);
  expect(state.jobOf(JOB)?.fields.name).toBe("Old mill");
  expect(open()).toEqual([]);
  await state.undo();
  expect(state.jobOf(JOB)?.fields.name).toBe("Mill house");
  expect(open()).toEqual([]);
});

test("an edit of another field decides nothing, one that did not know of the other neither", async () => {
  await told({ name: "Mill house" }, 4);
  await state.editJob(JOB, { name: "Mill" });
  await told({ name: "Mill house" }, 5, { name: [BEN] });
  await state.editJob(JOB, { note: "n" });
  expect(open()).toEqual(["name: Old mill"]);
  await state.editJob(JOB, { name: "New mill" });
  expect(open()).toEqual([]);
});

test("a decision against one leaves open what came up since", async () => {
  await told({ name: "Mill house" }, 5, { name: [BEN] });
  await state.keepStanding("job", JOB, "name");
  await told({ name: "Mill house" }, 9, { name: [BEN, { ...BEN, value: "Barn", sequence: 9 }] });
  expect(open()).toEqual(["name: Barn"]);
});

test("when the office has heard the decision, the matter stays closed", async () => {
  await told({ name: "Mill house" }, 5, { name: [BEN] });
  await state.keepStanding("job", JOB, "name");
  const change = await lastChange();
  const result = { number: 1, change_id: change?.change_id ?? "", outcome: "applied" as const, sequence: 6 };
  await outside.storage.settlePush({ database: "the office", server_time: "", latest: 6, results: [result] });
  expect(open()).toEqual([]);
  await told({ name: "Mill house" }, 6);
  expect(open()).toEqual([]);
});

test("the crew is for foremen to decide, and of a deleted job only whether it stays so", async () => {
  await told({ name: "Mill house", crew: [], deleted: true }, 5, { name: [BEN], crew: [BEN], deleted: [BEN] });
  expect(open()).toEqual(["deleted: Old mill"]);
  await state.restoreRecord("job", JOB);
  expect(open()).toEqual(["name: Old mill"]);
  session.value = { ...session.peek(), role: "foreman" };
  expect(open()).toEqual(["crew: Old mill", "name: Old mill"]);
});

test("an earlier value is restored as an edit, and that is undone like one", async () => {
  await told({ name: "Mill house" }, 5);
  await state.restoreValue("job", JOB, "name", "Barn");
  expect(state.jobOf(JOB)?.fields.name).toBe("Barn");
  await state.undo();
  expect(state.jobOf(JOB)?.fields.name).toBe("Mill house");
});

test("a record's changes that still wait are told in their order", async () => {
  await told({ name: "Mill house" }, 5);
  await state.editJob(JOB, { name: "A" });
  await state.setCrew(JOB, ["p1"]);
  expect((await state.unsentOf("job", JOB)).map((one) => one.fields)).toEqual([{ name: "A" }, { crew: ["p1"] }]);
  expect(await state.unsentOf("job", "another")).toEqual([]);
});

test("whatever a viewer does is refused before anything is stored", async () => {
  await told({ name: "Mill house" }, 5, { name: [BEN] });
  await state.editJob(JOB, { note: "As a setter" });
  session.value = { ...session.peek(), role: "viewer" };
  const waiting = await outside.storage.waiting(99);
  const actions = [
    () => state.createJob({ name: "Barn" }),
    () => state.editJob(JOB, { name: "Barn" }),
    () => state.deleteRecord("job", JOB),
    () => state.keepStanding("job", JOB, "name"),
    () => state.takeOther("job", JOB, "name", BEN),
    () => state.restoreValue("job", JOB, "name", "Barn"),
    () => state.setCrew(JOB, []),
    () => state.undo(),
    () => state.readUnsentFile("{}"),
  ];
  for (const act of actions) await expect(act()).rejects.toMatchObject({ name: "NotSavedError", reason: "only_looks" });
  expect(state.mayWrite.value).toBe(false);
  expect(await outside.storage.waiting(99)).toEqual(waiting);
  expect(open()).toEqual(["name: Old mill"]);
});

test("undo passes over what left this phone: the job is another crew's now", async () => {
  await told({ name: "Mill house" }, 5);
  const own = await state.createJob({ name: "Barn" });
  await state.editJob(own, { name: "Old barn" });
  await state.editJob(JOB, { note: "n" });
  const [, , change] = await outside.storage.waiting(9);
  if (change === undefined) throw new Error("The note does not wait.");
  await outside.storage.refuse(change, "not_assigned", "No.");
  const { cursor: after, view } = await outside.storage.account();
  const server_time = "2026-05-04T08:30:00Z";
  const page = { database: "the office", protocol: 1, server_time, latest: 9, next: 9, more: false, view: 2, records: [] };
  await outside.storage.takePage({ after, view }, page);
  expect(state.jobOf(JOB)).toBeUndefined();
  expect(await state.undo()).toBe(true);
  expect(state.jobOf(own)?.fields.name).toBe("Barn");
});

test("undo passes over a colleague's later value, and takes back what came before it", async () => {
  await told({ name: "Mill house" }, 5);
  const own = await state.createJob({ name: "Barn" });
  await state.editJob(own, { note: "n" });
  await state.editJob(JOB, { name: "Mine" });
  const [, , change] = await outside.storage.waiting(9);
  if (change === undefined) throw new Error("The name does not wait.");
  await outside.storage.refuse(change, "bad_value", "No.");
  await told({ name: "Theirs" }, 6);
  expect(await state.undo()).toBe(true);
  expect([state.jobOf(JOB)?.fields.name, state.jobOf(own)?.fields.note]).toEqual(["Theirs", null]);
});

test("a value that comes back from the office with its parts in another order can still be taken back", async () => {
  await told({ name: "Mill house" }, 5);
  const roomId = await state.createRoom(JOB, { name: "Hall" });
  await state.editRoom(roomId, { "bed.top": { kind: "level", height: 12 } });
  const { cursor: after, view } = await outside.storage.account();
  const [room] = (await outside.storage.waiting(1)).map(({ fields }) => fields);
  const results = (await outside.storage.waiting(9)).map(({ number, change_id }, index) =>
    ({ number, change_id, outcome: "applied" as const, reason: null, message: null, sequence: 6 + index }));
  const server_time = "2026-05-04T08:30:00Z";
  await outside.storage.settlePush({ database: "the office", latest: 7, server_time, results });
  const made = { created_by: "Ana", changed_by: "Ana", changed_at: server_time, conflicts: {} };
  const fields = { ...room, "bed.top": { height: 12, kind: "level" } };
  const records: PulledRecord[] = [{ kind: "room", id: roomId, fields, sequence: 7, ...made }];
  const page = { database: "the office", protocol: 1, server_time, latest: 7, next: 7, more: false, view: 1, records };
  await outside.storage.takePage({ after, view }, page);
  expect(Object.keys(state.roomOf(roomId)?.fields["bed.top"] ?? {})).toEqual(["height", "kind"]);
  await state.undo();
  expect(state.roomOf(roomId)?.fields).toMatchObject({ name: "Hall", "bed.top": null });
});

test("a file of unsent changes is shown as soon as it is read", async () => {
  await state.createJob({ name: "Mill house" });
  await state.setDraft("reading", "3 5/1");
  const { text, count } = await state.unsentFile();
  const other = new Outside();
  await other.connect();
  expect(state.jobs.value).toEqual([]);
  expect(await state.readUnsentFile(text)).toEqual({ outcome: "read", count });
  expect(state.jobs.value.map((row) => row.fields.name)).toEqual(["Mill house"]);
  expect(state.getDraft("reading")).toBe("3 5/1");
  other.storage.close();
});
