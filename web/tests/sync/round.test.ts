import { afterEach, beforeEach, expect, test } from "vitest";
import { PROTOCOL } from "../../src/wire";
import { OfficeDouble, type Fault } from "./office_double";
import { job, Phone } from "./phone";
import { randomFrom } from "./random";

let office: OfficeDouble;
let phones: Phone[];

beforeEach(() => {
  office = new OfficeDouble();
  phones = [];
});
afterEach(() => phones.forEach((phone) => phone.close()));

function newPhone(name?: string): Phone {
  const phone = new Phone(office, name);
  phones.push(phone);
  return phone;
}

async function joined(): Promise<Phone> {
  const phone = newPhone();
  await phone.join();
  return phone;
}

test("a phone that never joined keeps everything and sends nothing", async () => {
  const phone = newPhone();
  await phone.save(job("a", "Mill house"));
  await phone.sync();
  expect(phone.phase).toBe("not_joined");
  expect(phone.standing?.waiting).toBe(1);
  expect(phone.line.asked).toEqual([]);
});

test("what was saved before joining goes out after it, and the queue empties", async () => {
  const phone = newPhone();
  await phone.save(job("a", "Mill house"));
  await phone.join();
  expect(office.fieldsOf("a")).toEqual({ name: "Mill house" });
  expect(phone.standing?.waiting).toBe(0);
  expect(phone.phase).toBe("idle");
  expect((await phone.row("a"))?.sequence).toBe(1);
});

test("a second phone sees what the first saved, over several pages", async () => {
  office.pageSize = 3;
  const [first, second] = [await joined(), await joined()];
  for (let n = 0; n < 8; n++) await first.save(job(`job-${n}`, `Job ${n}`));
  await first.sync();
  await second.sync();
  expect(await second.shown()).toEqual(await first.shown());
  expect(Object.keys(await second.shown())).toHaveLength(8);
});

test("a change whose reply was lost is sent again and takes effect once", async () => {
  const phone = await joined();
  await phone.save(job("a", "Mill house"));
  phone.line.faults = ["reply lost"];
  await phone.sync();
  expect(phone.phase).toBe("retrying");
  expect(phone.standing?.waiting).toBe(1);
  await phone.sync();
  expect(phone.standing?.waiting).toBe(0);
  expect(office.log.map(({ change }) => change.record_id)).toEqual(["a"]);
});

test("an app closed between saving and sending sends after it was opened again", async () => {
  const phone = await joined();
  await phone.save(job("a", "Mill house"));
  phone.restart();
  expect((await phone.row("a"))?.waiting).toBe(1);
  await phone.sync();
  expect(office.fieldsOf("a")).toEqual({ name: "Mill house" });
});

test("an app closed between the office's answer and the pull shows its own change all the while", async () => {
  const phone = await joined();
  await phone.save(job("a", "Mill house"));
  phone.line.faults = ["none", "request lost"];
  await phone.sync();
  expect(phone.standing?.waiting).toBe(0);
  phone.restart();
  expect((await phone.row("a"))?.fields).toEqual({ name: "Mill house" });
  await phone.sync();
  expect((await phone.row("a"))?.fields).toEqual({ name: "Mill house" });
});

test("what waits stays on top of what is pulled", async () => {
  const [mine, theirs] = [await joined(), await joined()];
  await mine.save(job("a", "Mill house"));
  await mine.sync();
  await theirs.sync();
  await theirs.save(job("a", { name: "Old mill", place: "Riverside" }));
  await theirs.sync();
  await mine.save(job("a", "New mill"));
  mine.line.faults = ["request lost"];
  await mine.sync();
  expect((await mine.row("a"))?.fields).toEqual({ name: "New mill" });
  await mine.sync();
  expect((await mine.row("a"))?.fields).toEqual({ name: "New mill", place: "Riverside" });
});

test("a refused change leaves the queue, the rest moves, and its value is kept", async () => {
  const phone = await joined();
  office.unwanted.add("bad");
  await phone.save(job("bad", "Bad"));
  await phone.save(job("good", "Good"));
  await phone.sync();
  expect(phone.standing?.waiting).toBe(0);
  expect(phone.standing?.refused).toMatchObject([
    { record_id: "bad", fields: { name: "Bad" }, reason: "bad_value", message: "No." },
  ]);
  expect(await phone.row("bad")).toBeUndefined();
  expect(office.fieldsOf("good")).toEqual({ name: "Good" });
  await phone.storage.dismissRefused(phone.standing?.refused[0]?.change_id ?? "");
  expect(phone.standing?.refused).toEqual([]);
});

test("one change that the office cannot read does not hold up the others", async () => {
  const phone = await joined();
  office.unreadable.add("odd");
  for (const id of ["a", "odd", "b", "c"]) await phone.save(job(id, id));
  await phone.sync();
  expect(office.records.map((record) => record.id)).toEqual(["a", "b", "c"]);
  expect(phone.standing?.refused.map((one) => [one.record_id, one.reason])).toEqual([["odd", "malformed"]]);
  expect(phone.standing?.waiting).toBe(0);
});

test("a phone restored from a backup takes a new identity and offers its changes again", async () => {
  const phone = await joined();
  await phone.save(job("a", "First"));
  await phone.sync();
  const old = await phone.storage.account();
  await phone.save(job("b", "Sent by the phone before it was restored"));
  await phone.sync();
  const restored = newPhone();
  restored.line.device = old.deviceId;
  await restored.storage.updateAccount({ deviceId: old.deviceId, joined: true });
  await restored.save(job("c", "Made after the restore"));
  await restored.sync();
  expect(restored.phase).toBe("not_joined");
  expect(restored.standing?.account.mustJoinAgain).toBe(true);
  expect(restored.standing?.account.deviceId).not.toBe(old.deviceId);
  expect((await restored.row("c"))?.waiting).toBe(1);
  await restored.join();
  expect(office.fieldsOf("c")).toEqual({ name: "Made after the restore" });
  expect(Object.keys(await restored.shown())).toEqual(["a", "b", "c"]);
});

test("after the office was restored from a backup, phones offer again what it lost", async () => {
  const [first, second] = [await joined(), await joined()];
  await first.save(job("a", "Before the backup"));
  await first.sync();
  const backup = office.backup();
  await first.save(job("a", "Renamed after the backup"), job("b", "Made after the backup"));
  await first.sync();
  await second.sync();
  office.restore(backup);
  await first.save(job("c", "Made after the restore"));
  await first.sync();
  await second.sync();
  await first.sync();
  expect(office.fieldsOf("a")).toEqual({ name: "Renamed after the backup" });
  expect(office.fieldsOf("b")).toEqual({ name: "Made after the backup" });
  expect(office.fieldsOf("c")).toEqual({ name: "Made after the restore" });
  expect(await first.shown()).toEqual(await second.shown());
  expect(office.log.filter(({ change }) => change.record_id === "b")).toHaveLength(1);
  expect(first.standing?.waiting).toBe(0);
});

test("a phone that lost touch while the office was restored shows everything at every moment", async () => {
  const phone = await joined();
  await phone.save(job("a", "A"), job("b", "B"));
  await phone.sync();
  office.restore([]);
  for (const fault of ["request lost", "reply lost"] as const) {
    phone.line.faults = ["none", fault];
    await phone.sync();
    phone.restart();
    expect(Object.keys(await phone.shown())).toEqual(["a", "b"]);
  }
  await phone.sync();
  expect(office.records.map((record) => record.id)).toEqual(["a", "b"]);
});

test("a removed phone must join again, works on, and loses nothing", async () => {
  const phone = await joined();
  office.removed.add(phone.line.device ?? "");
  await phone.save(job("a", "Mill house"));
  await phone.sync();
  expect(phone.phase).toBe("not_joined");
  expect(phone.standing?.account).toMatchObject({ joined: false, mustJoinAgain: true, removed: true });
  const { deviceId } = await phone.storage.account();
  await phone.save(job("b", "Barn"));
  await phone.join();
  expect(phone.standing?.account).toMatchObject({ joined: true, mustJoinAgain: false, removed: false, deviceId });
  expect(office.records.map((record) => record.id)).toEqual(["a", "b"]);
});

test("an office older than the phone is told as such, and the queue waits for it", async () => {
  const phone = await joined();
  office.protocol = 0;
  await phone.save(job("a", "Mill house"));
  await phone.sync();
  expect(phone.phase).toBe("update_needed");
  expect(phone.standing?.waiting).toBe(1);
  office.protocol = PROTOCOL;
  await phone.sync();
  expect(phone.standing?.waiting).toBe(0);
});

test("the clock's offset is measured at each exchange", async () => {
  office.clockAheadMs = 3_600_000;
  const phone = await joined();
  expect(phone.standing?.account.clockOffsetMs).toBeGreaterThan(3_590_000);
  office.clockAheadMs = -60_000;
  await phone.sync();
  expect(phone.standing?.account.clockOffsetMs).toBeLessThan(-50_000);
});

test("a wrong code and a missing network are outcomes, not errors", async () => {
  const phone = newPhone();
  expect(await phone.office.join("WRONG", "Ana", "phone")).toEqual({ outcome: "wrong_code" });
  phone.line.faults = ["request lost"];
  expect(await phone.office.join("RIGHT-CODE", "Ana", "phone")).toEqual({ outcome: "offline" });
});

test("a sign-in page of some other network is no answer of the office", async () => {
  const phone = await joined();
  await phone.save(job("a", "Mill house"));
  phone.line.faults = ["sign-in page"];
  await phone.sync();
  expect(phone.phase).toBe("retrying");
  expect(phone.standing?.waiting).toBe(1);
});

const FAULTS: readonly Fault[] = ["none", "none", "request lost", "reply lost", "sent twice"];

test.each([1, 2, 3, 4, 5, 6])("phones and office end the same whatever the line does (seed %i)", async (seed) => {
  const random = randomFrom(seed);
  office.pageSize = 4;
  const crew = [await joined(), await joined(), await joined()];
  let saved = 0;
  for (let step = 0; step < 40; step++) {
    const phone = crew[Math.floor(random() * crew.length)] as Phone;
    phone.line.faults = Array.from({ length: 4 }, () => FAULTS[Math.floor(random() * FAULTS.length)] as Fault);
    if (random() < 0.6) {
      await phone.save(job(`job-${Math.floor(random() * 12)}`, { note: `${saved++}` }));
    }
    if (random() < 0.5) await phone.sync();
    if (random() < 0.2) phone.restart();
  }
  for (const phone of [...crew, ...crew]) {
    phone.line.faults = [];
    await phone.sync();
  }
  const expected = Object.fromEntries(office.records.map((record) => [record.id, record.fields]));
  for (const phone of crew) expect(await phone.shown()).toEqual(expected);
  expect(office.log).toHaveLength(saved);
  expect(new Set(office.log.map(({ change }) => change.change_id)).size).toBe(saved);
});
