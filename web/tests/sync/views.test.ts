import { afterEach, beforeEach, expect, test } from "vitest";
import { OfficeDouble, type Fault } from "./office_double";
import { job, Phone } from "./phone";
import { randomFrom } from "./random";

let office: OfficeDouble;
let phones: Phone[];

beforeEach(() => {
  office = new OfficeDouble();
  office.pageSize = 2;
  phones = [];
});
afterEach(() => phones.forEach((phone) => phone.close()));

async function joined(): Promise<Phone> {
  const phone = new Phone(office);
  phones.push(phone);
  await phone.join();
  return phone;
}

/** A phone that has six jobs of the office, a to f. */
async function withJobs(): Promise<Phone> {
  const phone = await joined();
  for (const id of ["a", "b", "c", "d", "e", "f"]) await phone.save(job(id, id));
  await phone.sync();
  return phone;
}

/** The crews change: from now on this person does not see these. */
function hide(...ids: readonly string[]): void {
  office.hidden = new Set(ids);
  office.view += 1;
}

async function shownIds(phone: Phone): Promise<string> {
  return Object.keys(await phone.shown()).join("");
}

test("jobs that the person sees no more go, those they see now come, however old they are", async () => {
  const phone = await withJobs();
  hide("a", "d");
  await phone.sync();
  expect(await shownIds(phone)).toBe("bcef");
  hide("b");
  await phone.sync();
  expect(await shownIds(phone)).toBe("acdef");
});

test("nothing goes from the screen before the last page, wherever the snapshot is cut off", async () => {
  const phone = await withJobs();
  hide("a");
  for (let pages = 1; pages < 3; pages++) {
    phone.line.faults = ["none", "none", "request lost"];
    await phone.sync();
    phone.restart();
    expect(await shownIds(phone)).toBe("abcdef");
  }
  phone.line.faults = [];
  await phone.sync();
  expect(await shownIds(phone)).toBe("bcdef");
});

test("crews that change again in the middle of a snapshot begin it anew", async () => {
  const phone = await withJobs();
  hide("a", "b");
  phone.line.faults = ["none", "none", "request lost"];
  await phone.sync();
  hide("f");
  await phone.sync();
  expect(await shownIds(phone)).toBe("abcde");
});

test("what waits stays on show and in the queue when its job goes", async () => {
  const phone = await withJobs();
  office.unwanted.add("a");
  await phone.save(job("a", { note: "Typed in the cellar" }));
  hide("a");
  phone.line.faults = ["request lost"];
  await phone.sync();
  expect((await phone.row("a"))?.fields).toEqual({ name: "a", note: "Typed in the cellar" });
  await phone.sync();
  expect(phone.standing?.refused.map((one) => one.fields)).toEqual([{ note: "Typed in the cellar" }]);
  expect(await shownIds(phone)).toBe("bcdef");
});

test("a sent change stays on top until its own record comes, also over many pages", async () => {
  const [mine, theirs] = [await withJobs(), await joined()];
  await theirs.sync();
  await mine.save(job("a", "Mine"));
  for (const id of ["b", "c", "d", "a"]) await theirs.save(job(id, { note: "Theirs" }));
  mine.line.faults = ["none", "request lost"];
  await mine.sync();
  await theirs.sync();
  mine.line.faults = ["none", "request lost"];
  await mine.sync();
  expect((await mine.row("a"))?.fields).toMatchObject({ name: "Mine" });
  await mine.sync();
  expect((await mine.row("a"))?.fields).toEqual({ name: "Mine", note: "Theirs" });
});

test("an edit says what the person knew of the record, in the middle of a pull neither more nor less", async () => {
  const [mine, theirs] = [await withJobs(), await joined()];
  await theirs.sync();
  for (const id of ["b", "a", "a"]) await theirs.save(job(id, { note: "Theirs" }));
  await theirs.save(job("c", "c"), job("d", "d"), job("a", { place: "Riverside" }));
  await theirs.sync();
  mine.line.faults = ["none", "request lost"];
  await mine.sync();
  await mine.save(job("a", "Mine"), job("b", "Mine"));
  const seen = (await mine.storage.waiting(9)).map((change) => change.seen);
  expect(seen).toEqual([1, 7]);
});

test("of a record that went out of sight an edit knows nothing, whatever the pull has counted since", async () => {
  const phone = await withJobs();
  hide("a");
  await phone.sync();
  await phone.save(job("a", { note: "Of a page that was still open" }));
  expect((await phone.storage.waiting(9)).map((change) => change.seen)).toEqual([0]);
});

test("a page that another tab asked for earlier and that comes late brings nothing back", async () => {
  const phone = await withJobs();
  const { cursor, view } = await phone.storage.account();
  const late = office.answer(phone.line.device, "GET", `/api/pull?after=0&view=${view}`, null);
  await phone.save(job("a", "Newer"));
  hide("f");
  await phone.sync();
  const page = (await late.json()) as Parameters<Phone["storage"]["takePage"]>[1];
  expect(await phone.storage.takePage({ after: cursor, view }, page)).toBe(false);
  await phone.sync();
  expect((await phone.row("a"))?.fields).toEqual({ name: "Newer" });
  expect(await shownIds(phone)).toBe("abcde");
});

test("another person on the same phone sees what they see, though the numbers of the views are the same", async () => {
  const phone = await withJobs();
  await phone.office.leave();
  office.personId = crypto.randomUUID();
  office.hidden = new Set(["a", "b", "c"]);
  await phone.join();
  expect(await shownIds(phone)).toBe("def");
});

test("a role that changed is known after the next round", async () => {
  const phone = await withJobs();
  office.role = "setter";
  office.view += 1;
  await phone.sync();
  expect(phone.standing?.account.role).toBe("setter");
});

test("a setter offers after a restore what the office lost, without the crew that is not theirs to say", async () => {
  const foreman = await withJobs();
  await foreman.save(job("a", { crew: ["x"], note: "After the backup" }));
  await foreman.sync();
  office.role = "setter";
  const setter = await joined();
  office.restore([]);
  await setter.sync();
  expect(office.fieldsOf("a")).toEqual({ name: "a", note: "After the backup" });
});

const FAULTS: readonly Fault[] = ["none", "none", "none", "request lost", "reply lost"];
const IDS = ["a", "b", "c", "d", "e", "f", "g", "h"] as const;

test.each([1, 2, 3, 4, 5, 6, 7, 8])("crews change at any moment, and phones end with what their person sees (seed %i)", async (seed) => {
  const random = randomFrom(seed);
  const crew = [await joined(), await joined()];
  for (let step = 0; step < 60; step++) {
    const phone = crew[Math.floor(random() * crew.length)] as Phone;
    phone.line.faults = Array.from({ length: 6 }, () => FAULTS[Math.floor(random() * FAULTS.length)] as Fault);
    if (random() < 0.4) await phone.save(job(IDS[Math.floor(random() * IDS.length)] as string, { note: `${step}` }));
    if (random() < 0.15) hide(...IDS.filter(() => random() < 0.4));
    if (random() < 0.5) await phone.sync();
    if (random() < 0.15) phone.restart();
    if (random() < 0.04) office.restore(office.backup().slice(0, -2));
  }
  for (const phone of [...crew, ...crew, ...crew]) {
    phone.line.faults = [];
    await phone.sync();
  }
  const seen = office.records.filter((record) => !office.hidden.has(record.id));
  const expected = Object.fromEntries(seen.map((record) => [record.id, record.fields]));
  for (const phone of crew) expect(await phone.shown()).toEqual(expected);
});
