import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, test } from "vitest";
import { Storage } from "../../src/storage";
import { SCHEMA, type Edit } from "../../src/wire";
import { ThirdVersion, TICKS, WAITING } from "./third_version";

let name: string;
let storage: Storage;

beforeEach(async () => {
  name = `ticks-${crypto.randomUUID()}`;
  const old = new ThirdVersion(name);
  await old.fill();
  old.close();
  storage = new Storage(name);
});
afterEach(() => storage.close());

test("a database of the version before opens with every record, and without ticks but for what waits", async () => {
  const { rows } = await storage.load();
  expect(Object.fromEntries(rows.map((row) => [row.id, row.fields]))).toEqual({
    j1: { name: "Mill house" },
    r1: { name: "Hall", [TICKS]: ["A:0", "A:1"] },
    r2: { name: "Shower", "rails.inset": 150 },
    r3: { name: "Hall" },
  });
  expect(rows.find((row) => row.id === "r1")?.conflicts).toMatchObject({ name: [{ person: "Ben" }] });
  expect(Object.keys(rows.find((row) => row.id === "r1")?.conflicts ?? {})).toEqual(["name"]);
});

test("what waits to be sent goes as it was made, ticks and schema and all", async () => {
  await storage.load();
  const waiting = await storage.waiting(9);
  expect(waiting.map(({ number, fields, schema }) => [number, fields, schema])).toEqual([
    [5, WAITING["fields"], 1],
    [6, { name: "Shower" }, 1],
  ]);
});

test("undo no longer writes ticks, and what was made before them can be undone still", async () => {
  const { undo } = await storage.load();
  expect(undo.map(({ inverse }) => inverse.map(({ fields }) => fields))).toEqual([[{ name: "Bath" }]]);
});

test("a change that is made now is of today's schema", async () => {
  const set: Edit<"station"> = { kind: "station", id: "s1", fields: { room_id: "r1", rail: "A", at: [150, 0], shim: 6 } };
  await storage.write([set], { undo: [] });
  expect((await storage.waiting(9)).map(({ kind, schema }) => [kind, schema])).toEqual([["room", 1], ["room", 1], ["station", SCHEMA]]);
});

test("to another database of the office a room is offered without ticks: with them it would be refused whole", async () => {
  await storage.load();
  const page = { database: "another office", protocol: 1, server_time: "2026-05-04T09:00:00Z", latest: 0, next: 0, view: 1, more: false, records: [] };
  await storage.adoptDatabase("another office");
  await storage.takePage({ after: 0, view: 0 }, page);
  await storage.offerHeld();
  const offered = (await storage.waiting(9)).filter(({ schema }) => schema > 1);
  expect(offered.map(({ record_id: id, fields }) => [id, fields])).toEqual([
    ["j1", { name: "Mill house" }],
    ["r1", { name: "Hall" }],
    ["r2", { name: "Bath", "rails.inset": 150 }],
    ["r3", { name: "Hall" }],
  ]);
});
