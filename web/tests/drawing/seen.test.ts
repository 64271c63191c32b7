import { expect, test } from "vitest";
import type { Place } from "../../src/drawing/camera";
import { contourLabels } from "../../src/drawing/contourLabels";
import { fieldBands, valueAt, type Told } from "../../src/drawing/field";
import { isOnFloor, twiceArea } from "../../src/drawing/figure";
import { EMPTY_SCENE, type Scene } from "../../src/drawing/scene";

const ROOM: readonly Place[] = [[0, 0], [400, 0], [400, 300], [0, 300]];
const HOLE: readonly Place[] = [[150, 100], [250, 100], [250, 200], [150, 200]];
const itself = (place: Place) => place;

function sceneWith(lines: readonly (readonly Place[])[], more: Partial<Scene> = {}): Scene {
  return { ...EMPTY_SCENE, outline: ROOM, contours: lines.map((line, index) => ({ label: `+${index} mm`, lines: [line] })), ...more };
}

test("every contour with room for it carries its height once, on the floor and upright", () => {
  const scene = sceneWith([[[20, 60], [380, 60]], [[380, 150], [20, 150]], [[60, 290], [60, 170]]]);
  const labels = contourLabels(scene, itself, [], []);
  expect(labels.map(({ text }) => text)).toEqual(["+0 mm", "+1 mm", "+2 mm"]);
  for (const { at, turn } of labels) {
    expect(isOnFloor(ROOM, [], at)).toBe(true);
    expect(Math.abs(turn)).toBeLessThanOrEqual(90);
  }
});

test("a contour's height stands neither outside the walls, nor in a cutout, nor over a reading, nor over another", () => {
  const across: readonly Place[] = [[-800, 150], [405, 150]];
  const scene = sceneWith([across, [[20, 153], [390, 153]]], { cutouts: [HOLE] });
  const symbols: readonly Place[] = [[350, 150]];
  const labels = contourLabels(scene, itself, [], symbols);
  expect(labels.length).toBeGreaterThan(1);
  for (const { at: [x, y] } of labels) {
    expect(isOnFloor(ROOM, [HOLE], [x, y])).toBe(true);
    expect(Math.abs(x - 350) > 15 || Math.abs(y - 150) > 10).toBe(true);
  }
  const middles = labels.map(({ at: [x] }) => x).sort((a, b) => a - b);
  const apart = middles.slice(1).map((x, index) => x - (middles[index] ?? x));
  expect(Math.min(...apart)).toBeGreaterThan(30);
});

test("a contour too short for its height goes without", () => {
  expect(contourLabels(sceneWith([[[100, 50], [120, 60]]]), itself, [], [])).toEqual([]);
});

const TOLD: readonly Told[] = [{ at: [50, 50], value: 0.5 }, { at: [350, 50], value: 2 }, { at: [350, 250], value: 1 }, { at: [50, 250], value: 0.8 }];

test("a value is near its own where it was told alone, and between the least and the greatest everywhere", () => {
  for (const { at, value } of TOLD) expect(valueAt(TOLD, at, 100)).toBeCloseTo(value, 1);
  for (const place of [[200, 150], [0, 0], [400, 10], [120, 280], [9e9, -9e9]] as const) {
    expect(valueAt(TOLD, place, 100)).toBeGreaterThanOrEqual(0.5);
    expect(valueAt(TOLD, place, 100)).toBeLessThanOrEqual(2);
  }
  expect(valueAt([...TOLD, { at: [350, 52], value: 3 }], [350, 51], 100)).toBeCloseTo(2.5, 1);
});

test("the bands of a value cover the whole floor and overlap nowhere", () => {
  const bands = fieldBands(ROOM, TOLD, 7);
  const area = bands.flatMap(({ polygons }) => polygons).reduce((sum, polygon) => sum + Math.abs(twiceArea(polygon)) / 2, 0);
  const step = 400 / 28;
  expect(area).toBeCloseTo(400 * Math.ceil(300 / step) * step, 0);
  expect(fieldBands(ROOM, [], 7)).toEqual([]);
  expect(fieldBands(ROOM, [{ at: [10, 10], value: 3 }], 7)).toHaveLength(1);
});
