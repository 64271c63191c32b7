import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, test } from "vitest";
import { Office } from "../../src/sync";
import { OfficeDouble } from "./office_double";
import { job, Phone } from "./phone";

let office: OfficeDouble;
let phones: Phone[];

beforeEach(() => {
  office = new OfficeDouble();
  phones = [];
});
afterEach(() => phones.forEach((phone) => phone.close()));

function newPhone(): Phone {
  const phone = new Phone(office);
  phones.push(phone);
  return phone;
}

async function joined(): Promise<Phone> {
  const phone = newPhone();
  await phone.join();
  return phone;
}

function becomes(role: OfficeDouble["role"]): void {
  office.role = role;
  office.view += 1;
}

test("a phone knows whose it is, what they may do and what it is called", async () => {
  const phone = await joined();
  const { personId } = office;
  expect(phone.standing?.account).toMatchObject({ person: "Ana", personId, role: "foreman", deviceName: "phone" });
});

test("a person who became a viewer keeps what waits, is told so, and still gets the news", async () => {
  const [viewer, other] = [await joined(), await joined()];
  await other.save(job("b", "Barn"));
  await other.sync();
  becomes("viewer");
  await viewer.save(job("a", "Mill house"));
  await viewer.sync();
  expect(viewer.phase).toBe("only_looks");
  expect(viewer.standing).toMatchObject({ waiting: 1, account: { role: "viewer" } });
  expect(Object.keys(await viewer.shown())).toEqual(["a", "b"]);
  viewer.line.asked.length = 0;
  await viewer.sync();
  expect(viewer.line.asked).toEqual(["/api/session", "/api/pull"]);
});

test("what a viewer had waiting flows once they may write again", async () => {
  const phone = await joined();
  becomes("viewer");
  await phone.save(job("a", "Mill house"));
  await phone.sync();
  becomes("setter");
  await phone.sync();
  expect(phone.phase).toBe("idle");
  expect(phone.standing?.waiting).toBe(0);
  expect(office.fieldsOf("a")).toEqual({ name: "Mill house" });
});

test("a viewer with nothing waiting is like anybody else, and asks nobody who they are", async () => {
  const phone = await joined();
  becomes("viewer");
  await phone.sync();
  phone.line.asked.length = 0;
  await phone.sync();
  expect(phone.phase).toBe("idle");
  expect(phone.line.asked).toEqual(["/api/pull"]);
});

test("a viewer's phone offers nothing after a restore of the office, and holds nothing back", async () => {
  const phone = await joined();
  await phone.save(job("a", "Mill house"));
  await phone.sync();
  becomes("viewer");
  office.restore([]);
  await phone.sync();
  expect(phone.standing?.waiting).toBe(0);
  expect(phone.phase).toBe("idle");
  expect(await phone.shown()).toEqual({});
});

test("a phone that lost its token is no removed phone", async () => {
  const phone = await joined();
  phone.line.device = null;
  await phone.sync();
  expect(phone.standing?.account).toMatchObject({ joined: false, mustJoinAgain: true, removed: false });
});

test("a phone whose identity is somebody else's takes a new one and joins with the same code", async () => {
  const phone = newPhone();
  await phone.save(job("a", "Mill house"));
  const { deviceId } = await phone.storage.account();
  office.taken.add(deviceId);
  await phone.join();
  expect(phone.standing?.account).toMatchObject({ joined: true, mustJoinAgain: false });
  expect((await phone.storage.account()).deviceId).not.toBe(deviceId);
  expect(office.fieldsOf("a")).toEqual({ name: "Mill house" });
});

test("a code that is for nobody by name asks for one", async () => {
  office.asksForName = true;
  const phone = newPhone();
  expect(await phone.office.join("RIGHT-CODE", "", "phone")).toEqual({ outcome: "name_needed" });
  expect((await phone.storage.account()).joined).toBe(false);
  expect(await phone.office.join("RIGHT-CODE", "Ana", "phone")).toEqual({ outcome: "joined" });
  await phone.sync();
});

test("leaving takes the phone off the office's list, and what it holds stays until it joins again", async () => {
  const phone = await joined();
  await phone.save(job("a", "Mill house"));
  expect(await phone.office.leave()).toEqual({ outcome: "done" });
  expect(office.removed.has(phone.line.device ?? "")).toBe(true);
  await phone.sync();
  expect(phone.phase).toBe("not_joined");
  expect(phone.standing).toMatchObject({ waiting: 1, account: { joined: false, mustJoinAgain: false, role: null } });
  await phone.join();
  expect(office.fieldsOf("a")).toEqual({ name: "Mill house" });
});

test("leaving without a network stops the sending, and says that the office was not told", async () => {
  const phone = await joined();
  phone.line.faults = ["request lost"];
  expect(await phone.office.leave()).toMatchObject({ outcome: "offline" });
  await phone.save(job("a", "Mill house"));
  phone.line.asked.length = 0;
  await phone.sync();
  expect(phone.line.asked).toEqual([]);
  expect(office.removed.size).toBe(0);
});

test("a phone that the office does not let go stays joined", async () => {
  const phone = await joined();
  office.isLastForeman = true;
  expect(await phone.office.leave()).toMatchObject({ outcome: "last_foreman" });
  expect((await phone.storage.account()).joined).toBe(true);
});

test("leaving the office that removed this phone is done already", async () => {
  const phone = await joined();
  office.removed.add(phone.line.device ?? "");
  expect(await phone.office.leave()).toEqual({ outcome: "done" });
});

test("the live stream brings no request for what this phone has, and one pull for what it has not", async () => {
  const [phone, other] = [await joined(), await joined()];
  await phone.save(job("a", "Mill house"));
  const round = phone.office.syncNow();
  phone.office.heard({ latest: 1, view: 1 });
  await round;
  expect(phone.line.asked.slice(-2)).toEqual(["/api/push", "/api/pull"]);
  await other.sync();
  phone.line.asked.length = 0;
  phone.office.heard({ latest: 1, view: 1 });
  await other.save(job("b", "Barn"));
  await other.sync();
  expect(phone.line.asked).toEqual([]);
  phone.office.heard({ latest: 2, view: 1 });
  await expect.poll(() => phone.phase).toBe("idle");
  await expect.poll(() => phone.row("b")).toBeDefined();
  expect(phone.line.asked).toEqual(["/api/pull"]);
  office.view += 1;
  phone.office.heard({ latest: 2, view: 2 });
  await expect.poll(() => phone.line.asked).toEqual(["/api/pull", "/api/pull", "/api/session"]);
});

test("of two tabs that hear of a push, neither asks for what the other has brought", async () => {
  const phone = await joined();
  let turn: Promise<unknown> = Promise.resolve();
  const alone = <T>(work: () => Promise<T>) => {
    const mine = turn.then(work);
    turn = mine.catch(() => undefined);
    return mine;
  };
  const tabs = [1, 2].map(() => new Office(phone.storage, { http: phone.line.http, isOnline: () => true, alone }));
  for (const tab of tabs) await tab.syncNow();
  await phone.save(job("a", "Mill house"));
  phone.line.asked.length = 0;
  const round = tabs[0]?.syncNow();
  for (const tab of tabs) tab.heard({ latest: 1, view: 1 });
  await round;
  await alone(() => Promise.resolve());
  expect(phone.line.asked).toEqual(["/api/push", "/api/pull"]);
});

test("an answer of something between phone and office is no answer of the office", async () => {
  const phone = await joined();
  office.broken = 502;
  expect(await phone.office.people()).toMatchObject({ outcome: "offline" });
  await phone.sync();
  expect(phone.phase).toBe("retrying");
});

test("a role that could not be asked for after the view came is asked for in the next round", async () => {
  const phone = await joined();
  becomes("viewer");
  phone.line.faults = ["none", "request lost"];
  await phone.sync();
  expect((await phone.storage.account()).view).toBe(office.view);
  expect((await phone.storage.account()).role).toBe("foreman");
  await phone.sync();
  expect((await phone.storage.account()).role).toBe("viewer");
});

test("leaving while a round is under way is leaving, not being removed", async () => {
  const phone = await joined();
  let turn: Promise<unknown> = Promise.resolve();
  const alone = <T>(work: () => Promise<T>) => {
    const mine = turn.then(work);
    turn = mine.catch(() => undefined);
    return mine;
  };
  const tab = new Office(phone.storage, { http: phone.line.http, isOnline: () => true, alone });
  for (const id of ["a", "b", "c"]) await phone.save(job(id, id));
  const round = tab.syncNow();
  expect(await tab.leave()).toEqual({ outcome: "done" });
  await round;
  expect(await phone.storage.account()).toMatchObject({ joined: false, mustJoinAgain: false, removed: false, role: null });
  expect(office.records.map((record) => record.id)).toEqual(["a", "b", "c"]);
});
