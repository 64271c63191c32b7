/** People, crews and edits that met: phones against the service itself, where the project's Python is set up. */
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Edit, KnownPerson } from "../../src/wire";
import { hasService, RealOffice, START_MS, type RealPhone } from "./real_office";

describe.skipIf(!hasService)("people at the service itself", () => {
  const office = new RealOffice();
  let boss: RealPhone;

  beforeAll(async () => {
    await office.start();
    boss = await office.joined("Ana");
  }, START_MS);
  afterAll(() => office.stop());

  async function newJob(by: RealPhone, name: string): Promise<string> {
    const id = uuidv7();
    await by.save({ kind: "job", id, fields: { name } } as Edit);
    await by.sync();
    return id;
  }

  async function personOf(phone: RealPhone): Promise<KnownPerson> {
    const answer = await boss.office.people();
    if (answer.outcome !== "done") throw new Error(answer.message);
    const { deviceId } = await phone.storage.account();
    const found = answer.people.list.find((person) => person.devices.some((device) => device.id === deviceId));
    if (found === undefined) throw new Error("The phone is nobody's.");
    return found;
  }

  async function assign(jobId: string, ...phones: readonly RealPhone[]): Promise<void> {
    const crew = await Promise.all(phones.map(async (phone) => (await personOf(phone)).id));
    await boss.save({ kind: "job", id: jobId, fields: { crew } } as Edit);
    await boss.sync();
  }

  test("a setter gets the job with the crew and loses it with the crew, what waits for it is refused and kept", async () => {
    const setter = await office.joined("Ben", "setter");
    const [theirs, old] = [await newJob(boss, "Theirs"), await newJob(boss, "Old")];
    await setter.sync();
    expect(await setter.shown()).toEqual({});
    await assign(theirs, setter);
    await assign(old, setter);
    await setter.sync();
    expect(Object.keys(await setter.shown()).sort()).toEqual([theirs, old].sort());
    await assign(old);
    await setter.save({ kind: "job", id: old, fields: { note: "Typed in the cellar" } } as Edit);
    await setter.sync();
    await setter.sync();
    expect(Object.keys(await setter.shown())).toEqual([theirs]);
    expect(setter.standing?.refused).toMatchObject([{ reason: "not_assigned", fields: { note: "Typed in the cellar" } }]);
  });

  test("a setter who says who the crew is, is refused", async () => {
    const setter = await office.joined("Cal", "setter");
    const own = await newJob(setter, "Own");
    await setter.save({ kind: "job", id: own, fields: { crew: [] } } as Edit);
    await setter.sync();
    expect(setter.standing?.refused).toMatchObject([{ reason: "foreman_only" }]);
    expect(await setter.row(own)).toBeDefined();
  });

  test("a viewer looks; what was saved before waits, and flows when the role is given back", async () => {
    const phone = await office.joined("Dan", "setter");
    const own = await newJob(phone, "Own");
    const { id } = await personOf(phone);
    expect(await boss.office.editPerson(id, { role: "viewer" })).toEqual({ outcome: "done" });
    await phone.save({ kind: "job", id: own, fields: { note: "Waits" } } as Edit);
    await phone.sync();
    expect([phone.phase, phone.standing?.waiting, phone.standing?.account.role]).toEqual(["only_looks", 1, "viewer"]);
    await boss.office.editPerson(id, { role: "setter" });
    await phone.sync();
    expect([phone.phase, phone.standing?.waiting, phone.standing?.account.role]).toEqual(["idle", 0, "setter"]);
    await boss.sync();
    expect((await boss.row(own))?.fields).toMatchObject({ note: "Waits" });
  });

  test("two edits that met are reviewed on one phone and closed on both", async () => {
    const other = await office.joined("Eva");
    const id = await newJob(boss, "Mill house");
    await other.sync();
    await boss.save({ kind: "job", id, fields: { name: "Mill" } } as Edit);
    await other.save({ kind: "job", id, fields: { name: "Old mill" } } as Edit);
    await boss.sync();
    await other.sync();
    await boss.sync();
    const [mine, theirs] = [await boss.row(id), await other.row(id)];
    expect(mine?.conflicts).toEqual(theirs?.conflicts);
    const [lost] = mine?.conflicts["name"] ?? [];
    const met = [mine?.fields, lost?.value].map((one) => (typeof one === "object" ? (one as { name: string }).name : one));
    expect(met.sort()).toEqual(["Mill", "Old mill"]);
    expect(lost?.person).toBe(lost?.value === "Mill" ? "Ana" : "Eva");
    await boss.save({ kind: "job", id, fields: { name: lost?.value } } as Edit);
    expect((await boss.row(id))?.conflicts).toEqual({});
    await boss.sync();
    await other.sync();
    expect([(await other.row(id))?.conflicts, (await boss.row(id))?.conflicts]).toEqual([{}, {}]);
    expect((await other.row(id))?.fields).toMatchObject({ name: lost?.value });
  });

  test("a story is told fresh with the office, and as it was last told without", async () => {
    const id = await newJob(boss, "Mill house");
    const fresh = await boss.office.historyOf("job", id);
    expect(fresh).toMatchObject({ fresh: true, entries: [{ person: "Ana", fields: { name: "Mill house" } }] });
    boss.loseReplies = 1;
    const kept = await boss.office.historyOf("job", id);
    expect(kept).toEqual({ entries: fresh.entries, at: fresh.at, fresh: false });
    boss.loseReplies = 1;
    expect(await boss.office.historyOf("job", uuidv7())).toEqual({ entries: [], at: null, fresh: false });
    expect(await boss.office.historyOf("job", uuidv7())).toMatchObject({ entries: [], fresh: true });
  });

  test("a removed phone keeps what waits; its file reaches the office by another, and joining again sends nothing twice", async () => {
    const phone = await office.joined("Fay");
    const { id: personId, devices } = await personOf(phone);
    expect(await boss.office.removeDevice(devices[0]?.id ?? "")).toEqual({ outcome: "done" });
    const [a, b] = [uuidv7(), uuidv7()];
    await phone.save({ kind: "job", id: a, fields: { name: "A" } } as Edit, { kind: "job", id: b, fields: { name: "B" } } as Edit);
    await phone.sync();
    expect(phone.standing).toMatchObject({ waiting: 2, account: { joined: false, mustJoinAgain: true, removed: true } });
    const { text } = await phone.storage.unsentFile();
    expect(await boss.storage.readUnsentFile(text)).toEqual({ outcome: "read", count: 2 });
    await boss.sync();
    const invite = await boss.office.invite({ personId });
    expect(await phone.join(invite.outcome === "done" ? invite.invite.code : "", "")).toEqual({ outcome: "joined" });
    expect(phone.standing).toMatchObject({ waiting: 0, refused: [], account: { person: "Fay", removed: false } });
    expect((await boss.office.historyOf("job", a)).entries).toHaveLength(1);
    expect((await phone.row(b))?.fields).toEqual({ name: "B" });
  });

  test("a phone that leaves is off the list at once, and asking twice is no error", async () => {
    const phone = await office.joined("Gil", "setter");
    expect(await phone.office.leave()).toEqual({ outcome: "done" });
    expect((await personOf(phone)).devices[0]?.removed_at).not.toBeNull();
    const refusals = await Promise.all([phone.office.people(), phone.office.leave()]);
    expect(refusals.map((one) => one.outcome)).toEqual(["not_joined", "done"]);
  });

  test("people and devices get new names and roles, and whoever may not is told so in the closed codes", async () => {
    const setter = await office.joined("Hal", "setter");
    const { id, devices } = await personOf(setter);
    expect(await setter.office.people()).toMatchObject({ outcome: "foreman_only" });
    expect(await setter.office.renameDevice(devices[0]?.id ?? "", "Hal's tablet")).toEqual({ outcome: "done" });
    expect(await boss.office.editPerson(id, { name: "Hal B." })).toEqual({ outcome: "done" });
    expect(await boss.office.editPerson(uuidv7(), { name: "Nobody" })).toMatchObject({ outcome: "not_found" });
    expect(await personOf(setter)).toMatchObject({ name: "Hal B.", role: "setter", devices: [{ name: "Hal's tablet" }] });
    await setter.sync();
    expect(setter.standing?.account.deviceName).toBe("Hal's tablet");
  });

  test("the identity of somebody else's phone is changed by itself on joining", async () => {
    const [first, second] = [await office.joined("Ida"), office.phone()];
    const { deviceId } = await first.storage.account();
    await second.storage.updateAccount({ deviceId });
    expect(await second.join(await boss.codeFor("Jon", "setter"), "")).toEqual({ outcome: "joined" });
    expect((await second.storage.account()).deviceId).not.toBe(deviceId);
    expect((await personOf(first)).name).toBe("Ida");
  });
});
