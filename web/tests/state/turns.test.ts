/** A thumb is faster than a disk: what is done before the last thing was stored counts like anything else. */
import { afterEach, beforeEach, expect, test } from "vitest";
import * as state from "../../src/state";
import { Outside } from "./whole_phone";

let outside: Outside;
let room: string;

beforeEach(async () => {
  outside = new Outside();
  await outside.connect();
  const job = await state.createJob({ name: "Mill house" });
  room = await state.createRoom(job, { name: "Hall" });
});
afterEach(() => outside.storage.close());

function linesAt(y: number) {
  return [{ id: "A", from: [0, y], to: [4000, y] }] as const;
}

function placedAt(): number | null {
  return state.roomOf(room)?.fields["rails.lines"]?.[0]?.from[1] ?? null;
}

test("each of several moves made at once is a step of its own", async () => {
  await Promise.all([100, 125, 100, 150].map((y) => state.placeRails(room, linesAt(y))));
  const seen = [placedAt()];
  while (placedAt() !== null) {
    expect(await state.undo()).toBe(true);
    seen.push(placedAt());
  }
  expect(seen).toEqual([150, 100, 125, 100, null]);
});

test("undo asked for several times at once takes back as many steps", async () => {
  for (const y of [100, 125, 150]) await state.placeRails(room, linesAt(y));
  await Promise.all([state.undo(), state.undo()]);
  expect(placedAt()).toBe(100);
});
