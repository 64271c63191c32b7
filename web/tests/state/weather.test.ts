import { afterEach, beforeEach, expect, test } from "vitest";
import * as state from "../../src/state";
import type { ForetoldDay } from "../../src/wire";
import { Outside } from "./whole_phone";

const MONDAY: ForetoldDay = { low: 4, high: 17, low_at: "2026-05-04T06:00:00-05:00", high_at: "2026-05-04T15:00:00-05:00", humidity: null, wind: 12, source: "weather.example" };
const TUESDAY = { ...MONDAY, low_at: "2026-05-05T06:00:00-05:00", high_at: "2026-05-05T15:00:00-05:00" };
let outside: Outside;
let job: string;
let days: readonly ForetoldDay[];
let sent: number;

beforeEach(async () => {
  [days, sent] = [[MONDAY, TUESDAY], 0];
  outside = new Outside();
  outside.office = {
    syncNow: () => { sent += 1; return Promise.resolve(); },
    forecast: (id) => Promise.resolve(id === job ? { outcome: "done", days } : { outcome: "not_found", message: "" }),
  };
  await outside.connect();
  job = await state.createJob({ name: "Mill house" });
});
afterEach(() => outside.storage.close());

test("days foretold become records of the job, from their source, and one undo takes them out", async () => {
  expect(await state.fetchForecast(job)).toEqual({ outcome: "done", foretold: 2, added: 2 });
  const { humidity: _none, ...monday } = MONDAY;
  expect(state.forecastOf(job).value.map(({ fields }) => fields)).toEqual([{ ...monday, job_id: job }, { ...monday, ...{ low_at: TUESDAY.low_at, high_at: TUESDAY.high_at }, job_id: job }]);
  await state.undo();
  expect(state.forecastOf(job).value).toEqual([]);
});

test("what is known already is not told again, and a day that changed is", async () => {
  await state.fetchForecast(job);
  expect(await state.fetchForecast(job)).toMatchObject({ added: 0 });
  days = [{ ...MONDAY, high: 14 }, TUESDAY];
  expect(await state.fetchForecast(job)).toMatchObject({ added: 1 });
  expect(state.forecastOf(job).value.at(-1)?.fields).toMatchObject({ high: 14, high_at: MONDAY.high_at });
});

test("what the office refuses changes nothing, and what waits is sent before it is asked", async () => {
  expect(await state.fetchForecast("another")).toMatchObject({ outcome: "not_found" });
  expect(state.forecastOf("another").value).toEqual([]);
  expect(sent).toBe(1);
});
