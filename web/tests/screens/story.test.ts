import { expect, test } from "vitest";
import { changedFields } from "../../src/screens/common/changed";
import { offeredBy, storyOf, type Chapter, type StoryLine } from "../../src/screens/history/story";
import { codeFromText } from "../../src/screens/settings/joinCode";
import type { AnyFields, HistoryEntry } from "../../src/wire";

let sequence = 0;

function entry(fields: AnyFields, more: Partial<HistoryEntry> = {}): HistoryEntry {
  sequence += 1;
  const who = { person: "Ana", device_id: "d", device_name: "phone", at: "2026-05-04T08:30:00Z" };
  const met = { concurrent: [], overruled: [], replaced: {} };
  return { change_id: `c${sequence}`, sequence, ...who, ...met, fields, ...more };
}

function told(...entries: readonly HistoryEntry[]): Chapter {
  return { entries, unsent: [] };
}

function brief({ field, before, after }: StoryLine): readonly unknown[] {
  return [field, before, after];
}

test("each step tells what a field was and became, the newest first", () => {
  const { steps } = storyOf([told(entry({ name: "Hall" }), entry({ name: "Den", note: "wet" }), entry({ note: "dry" }))]);
  expect(steps.map(({ what }) => what)).toEqual(["changed", "changed", "made"]);
  expect(steps.map(({ lines }) => lines.map(brief))).toEqual([
    [["note", "wet", "dry"]],
    [["name", "Hall", "Den"], ["note", null, "wet"]],
    [["name", null, "Hall"]],
  ]);
});

test("a value that was overruled never stood, and is offered all the same", () => {
  const story = storyOf([told(entry({ name: "Hall" }), entry({ name: "North" }), entry({ name: "South" }, { concurrent: ["name"], overruled: ["name"] }))]);
  const [line] = story.steps[0]?.lines ?? [];
  expect(line).toMatchObject({ before: "North", after: "South", isConcurrent: true, isOverruled: true });
  expect(story.now.get("name")).toBe("North");
  expect(line && offeredBy(line, story.now)).toEqual({ value: "South" });
});

test("what stands already is not offered again", () => {
  const story = storyOf([told(entry({ name: "Hall" }), entry({ name: "Den" }), entry({ name: "Hall" }))]);
  const offers = story.steps.flatMap(({ lines }) => lines.map((line) => offeredBy(line, story.now)));
  expect(offers).toEqual([{ value: "Den" }, undefined, { value: null }]);
});

test("deleting, bringing back and deciding for what stands are told as what they are", () => {
  const { steps } = storyOf([told(entry({ name: "Hall" }), entry({ deleted: true }), entry({ deleted: false }), entry({ name: "Hall" }))]);
  expect(steps.map(({ what }) => what)).toEqual(["decided", "restored", "deleted", "made"]);
  expect(steps[0]?.lines.map(brief)).toEqual([["name", "Hall", "Hall"]]);
});

test("a correction goes on from the reading it corrects and tells only what differs", () => {
  const { steps } = storyOf([told(entry({ down: 1000, at: [1, 2], setup: "a" })), told(entry({ down: 1010, at: [1, 2], setup: "a", supersedes: "x" }))]);
  expect(steps.map(({ what }) => what)).toEqual(["corrected", "made"]);
  expect(steps[0]?.lines.map(brief)).toEqual([["down", 1000, 1010]]);
});

test("this phone's unsent changes stand on top, and one that the office has told of already only once", () => {
  const sent = entry({ name: "Den" });
  const waiting = { change_id: "w", fields: { name: "Den, south" }, device_time: "2026-05-04T09:00:00Z" };
  const again = { change_id: sent.change_id, fields: sent.fields, device_time: sent.at };
  const { steps, now } = storyOf([{ entries: [entry({ name: "Hall" }), sent], unsent: [again, waiting] }]);
  expect(steps.map(({ isUnsent }) => isUnsent)).toEqual([true, false, false]);
  expect(now.get("name")).toBe("Den, south");
});

test("a text emptied and one that never stood there read the same", () => {
  expect(storyOf([told(entry({ name: "Hall" }), entry({ name: "Den", note: "" }))]).steps[0]?.lines).toHaveLength(1);
  expect(changedFields({ name: "Hall", note: undefined }, { name: "Hall", note: "" })).toEqual({});
  expect(changedFields({ name: "Hall", note: "wet" }, { name: "Den", note: "" })).toEqual({ name: "Den", note: "" });
});

test("a join code is found in an address and in itself, and nowhere else", () => {
  expect(codeFromText("http://office.local:8765/settings#join=9ZHC-MZJD")).toBe("9ZHC-MZJD");
  expect(codeFromText(" 9ZHCMZJD ")).toBe("9ZHCMZJD");
  for (const other of ["", "#", "#join=", "http://office.local/settings", "WIFI:S:hut;P:12345678;;"]) expect(codeFromText(other)).toBeNull();
});
