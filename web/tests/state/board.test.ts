import { afterEach, beforeEach, expect, test } from "vitest";
import * as state from "../../src/state";
import { Outside } from "./whole_phone";

const OUTLINE = { vertices: [[0, 0], [3000, 0], [3000, 2000], [0, 2000]] } as const;
const PLACED = "2026-05-04T15:00:00.000Z";
let outside: Outside;
let job: string;
let stop: () => void = () => undefined;
const rooms = () => state.roomsOf(job).value.map(({ id }) => id);

/** Answers what was asked, one question after the other, until nothing more comes; the rooms that were asked about. */
async function answerAll(): Promise<readonly string[]> {
  const about: string[] = [];
  for (let idle = 0; idle < 60; idle += 1) {
    await new Promise((resolve) => setTimeout(resolve, 10));
    const asked = outside.asked.filter(({ question }) => question === "waiting");
    expect(asked.length - about.length, "one question at a time").toBeLessThanOrEqual(1);
    const next = asked[about.length];
    if (!next) continue;
    about.push(next.key.replace("board:", ""));
    next.answer(JSON.stringify({ countdown: [], curve: [] }));
    idle = 0;
  }
  outside.asked.length = 0;
  return about;
}

beforeEach(async () => {
  outside = new Outside();
  await outside.connect();
  job = await state.createJob({ name: "Mill house" });
  for (const name of ["Hall", "Bath", "Kitchen"]) await state.createRoom(job, { name, outline: OUTLINE });
  for (const room of rooms().slice(0, 2)) await state.addPlacement(room, { section: "s1", placed_at: PLACED });
});
afterEach(() => {
  stop();
  outside.storage.close();
});

test("rooms are asked about one after the other, those without mortar never, and a kept answer is not asked for again", async () => {
  stop = state.watchBoard(rooms);
  expect(await answerAll()).toEqual(rooms().slice(0, 2));
  expect([...state.boardWaits.value.keys()]).toEqual(expect.arrayContaining(rooms().slice(0, 2)));
  stop();
  stop = state.watchBoard(rooms);
  expect(await answerAll()).toEqual([]);
});

test("a change asks again about the room that it touches, and about no other", async () => {
  stop = state.watchBoard(rooms);
  await answerAll();
  const [, bath = ""] = rooms();
  await state.addClimate(bath, { at: PLACED, air: 12 });
  expect(await answerAll()).toEqual([bath]);
  await state.editRoom(bath, { name: "Bathroom" });
  expect(await answerAll()).toEqual([]);
});

test("nothing is asked any more once nobody looks", async () => {
  stop = state.watchBoard(rooms);
  stop();
  await state.addClimate(rooms()[0] ?? "", { at: PLACED, air: 12 });
  expect(await answerAll()).toEqual([]);
});
