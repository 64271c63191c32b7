import { expect, test } from "vitest";
import { bandsOf, clippedAt, type Corner } from "../../src/drawing/bands";
import { boundsOf, dragged, fit, fitBeside, pinched, toRoom, toWindow, zoomed, type Place } from "../../src/drawing/camera";
import { firstPlaces, gridPlaces } from "../../src/drawing/firstPlaces";
import { closedFigure, isInside, isOnFloor, misclosureOf, placeOffWall, rectangle, rectangleOffWall, roomiestPlace, toEdge, twiceArea, walkOf } from "../../src/drawing/figure";
import { placeForName } from "../../src/drawing/HandAreas";
import { writtenStations } from "../../src/drawing/Rails";
import type { SceneRail } from "../../src/drawing/scene";
import { fittingLabels } from "../../src/drawing/labels";

const WINDOW = { width: 340, height: 260 };
const L_ROOM: readonly Place[] = [[0, 0], [3700, 0], [3700, 3000], [2200, 3000], [2200, 1750], [0, 1750]];
const CAMERA = fit(boundsOf(L_ROOM), WINDOW, 20);
const NEAR = 1e-9;

function expectNear(found: Place, wanted: Place, tolerance = 1e-6): void {
  expect(Math.hypot(found[0] - wanted[0], found[1] - wanted[1])).toBeLessThan(tolerance);
}

test("what goes to the window comes back to the same place in the room", () => {
  for (const place of L_ROOM) expectNear(toRoom(CAMERA, WINDOW, toWindow(CAMERA, WINDOW, place)), place);
});

test("a fitted room lies wholly in the window, clear of the margin, y upwards", () => {
  for (const place of L_ROOM) {
    const [x, y] = toWindow(CAMERA, WINDOW, place);
    expect(x).toBeGreaterThanOrEqual(20 - NEAR);
    expect(x).toBeLessThanOrEqual(320 + NEAR);
    expect(y).toBeGreaterThanOrEqual(20 - NEAR);
    expect(y).toBeLessThanOrEqual(240 + NEAR);
  }
  expect(toWindow(CAMERA, WINDOW, [0, 3000])[1]).toBeLessThan(toWindow(CAMERA, WINDOW, [0, 0])[1]);
});

test("a room fitted beside the buttons leaves their strip free", () => {
  const camera = fitBeside(boundsOf(L_ROOM), WINDOW, 20, 56);
  const places = L_ROOM.map((place) => toWindow(camera, WINDOW, place));
  const isRightFree = places.every(([x]) => x <= 340 - 56 - 20 + NEAR);
  const isFootFree = places.every(([, y]) => y <= 260 - 56 - 20 + NEAR);
  expect(isRightFree || isFootFree).toBe(true);
});

test("zooming holds the place under the finger", () => {
  const hold: Place = [100, 70];
  const held = toRoom(CAMERA, WINDOW, hold);
  expectNear(toWindow(zoomed(CAMERA, WINDOW, hold, 1.7), WINDOW, held), hold);
});

test("a pinch carries both fingers' places with the fingers where they only spread", () => {
  const [one, other]: [Place, Place] = [[100, 130], [200, 130]];
  const places = [toRoom(CAMERA, WINDOW, one), toRoom(CAMERA, WINDOW, other)] as const;
  const camera = pinched(CAMERA, WINDOW, [one, other], [[80, 120], [260, 120]]);
  expectNear(toWindow(camera, WINDOW, places[0]), [80, 120]);
  expectNear(toWindow(camera, WINDOW, places[1]), [260, 120]);
});

test("a drag moves the drawing with the finger", () => {
  const at = toWindow(dragged(CAMERA, [12, -7]), WINDOW, [1000, 1000]);
  const before = toWindow(CAMERA, WINDOW, [1000, 1000]);
  expectNear(at, [before[0] + 12, before[1] - 7]);
});

function areaOf(polygon: readonly Place[]): number {
  return Math.abs(twiceArea(polygon)) / 2;
}

test("bands share out a triangle's whole area and keep to their levels", () => {
  const triangle: readonly Corner[] = [[0, 0, 0], [100, 0, 7], [30, 80, -4]];
  const bands = bandsOf([triangle], 7);
  const whole = areaOf(triangle.map(([x, y]) => [x, y] as const));
  const shared = bands.flatMap(({ polygons }) => polygons).reduce((sum, polygon) => sum + areaOf(polygon), 0);
  expect(Math.abs(shared - whole)).toBeLessThan(1e-9 * whole);
  expect(bands).toHaveLength(7);
});

test("level ground is one band", () => {
  expect(bandsOf([[[0, 0, 5], [10, 0, 5], [0, 10, 5]]], 7)).toHaveLength(1);
  expect(bandsOf([], 7)).toEqual([]);
});

test("cutting above and below a level gives the two parts of the triangle", () => {
  const triangle: readonly Corner[] = [[0, 0, 0], [10, 0, 10], [0, 10, 10]];
  const parts = [clippedAt(triangle, 5, 1), clippedAt(triangle, 5, -1)].map((part) => areaOf(part.map(([x, y]) => [x, y] as const)));
  expect(parts[0]).toBeCloseTo(37.5, 9);
  expect(parts[1]).toBeCloseTo(12.5, 9);
});

test("a rectangle walked by left turns closes, and a missed length is spread by wall length", () => {
  expect(misclosureOf(walkOf(rectangle(4000, 3000)))).toBeLessThan(1e-9);
  const walls = [{ length: 4010, turn: 90 }, { length: 3000, turn: 90 }, { length: 4000, turn: 90 }, { length: 3000, turn: 90 }];
  const figure = closedFigure(walls);
  expect(misclosureOf(walkOf(walls))).toBeCloseTo(10, 9);
  expectNear(figure[1] ?? [0, 0], [4010 - (10 * 4010) / 14010, 0]);
});

test("inside and outside of an L, its cutouts, its edges", () => {
  expect(isInside(L_ROOM, [100, 100])).toBe(true);
  expect(isInside(L_ROOM, [100, 2500])).toBe(false);
  expect(isOnFloor(L_ROOM, [[[500, 500], [900, 500], [900, 900], [500, 900]]], [700, 700])).toBe(false);
  expect(toEdge(L_ROOM, [1000, 300])).toBeCloseTo(300, 9);
});

test("a place by tape lies along its wall and off it, to the room's side", () => {
  expectNear(placeOffWall([[0, 0], [4000, 0]], 1000, 200), [1000, 200]);
  expectNear(placeOffWall([[3700, 0], [3700, 3000]], 500, 200), [3500, 500]);
  expect(areaOf(rectangleOffWall([[0, 0], [4000, 0]], 100, 200, [300, 400]))).toBeCloseTo(120_000, 6);
});

const ROOMS: readonly (readonly [string, readonly Place[]])[] = [
  ["an L", L_ROOM],
  ["a closet", [[0, 0], [900, 0], [900, 1100], [0, 1100]]],
  ["a bathroom", [[0, 0], [2400, 0], [2400, 1800], [0, 1800]]],
  ["a hall", [[0, 0], [9000, 0], [9000, 1200], [0, 1200]]],
  ["a shop floor", [[0, 0], [12000, 0], [12000, 9000], [0, 9000]]],
  ["an L walked the other way round", [...L_ROOM].reverse()],
];

test.each(ROOMS)("before the engine answers there is a place to read in every corner of %s and along its walls, none in a cutout", (_, figure) => {
  const [[x, y] = [0, 0]] = figure;
  const cutout: readonly Place[] = [[x - 200, y - 200], [x + 200, y - 200], [x + 200, y + 200], [x - 200, y + 200]];
  const places = firstPlaces(figure, []);
  for (const place of places) expect(isOnFloor(figure, [], place)).toBe(true);
  for (const corner of figure) expect(Math.min(...places.map((place) => Math.hypot(place[0] - corner[0], place[1] - corner[1])))).toBeLessThan(110);
  const long = figure.filter((corner, index) => Math.hypot(corner[0] - (figure[index - 1] ?? figure.at(-1) ?? corner)[0], corner[1] - (figure[index - 1] ?? figure.at(-1) ?? corner)[1]) >= 1200);
  expect(places.length).toBe(figure.length + long.length);
  expect(places.length - firstPlaces(figure, [cutout]).length).toBe(1);
});

test.each(ROOMS)("should the engine never answer, a grid goes on over %s, clear of walls and of what stands there", (_, figure) => {
  const places = gridPlaces(figure, []);
  expect(places.length).toBeGreaterThan(0);
  expect(places.length).toBeLessThanOrEqual(49);
  for (const place of places) {
    expect(isOnFloor(figure, [], place)).toBe(true);
    expect(toEdge(figure, place)).toBeGreaterThanOrEqual(75);
  }
  for (const [index, [x, y]] of places.entries()) for (const [ox, oy] of places.slice(index + 1)) expect(Math.hypot(ox - x, oy - y)).toBeGreaterThan(250);
  const [[x, y] = [0, 0]] = places;
  const post: readonly Place[] = [[x - 50, y - 50], [x + 50, y - 50], [x + 50, y + 50], [x - 50, y + 50]];
  expect(gridPlaces(figure, [post])).not.toContainEqual([x, y]);
  expect(gridPlaces([[0, 0], [1, 1]], [])).toEqual([]);
});

test("labels that would cover another give way to the more important", () => {
  const label = (id: string, x: number, rank: number) => ({ id, text: "12 3/16", at: [x, 50] as const, size: 12, rank });
  expect([...fittingLabels([label("late", 60, 5), label("high", 70, 1), label("far", 200, 5)])].sort()).toEqual(["far", "high"]);
  expect([...fittingLabels([label("covered", 60, 5)], [[60, 50]])]).toEqual([]);
});

test("the name of a bent section stands well within it", () => {
  const bent: readonly Place[] = [[2210, 1829], [4420, 1829], [4420, 1981], [3200, 1981], [3200, 3658], [2210, 3658]];
  const place = roomiestPlace(bent);
  expect(isInside(bent, place)).toBe(true);
  expect(toEdge(bent, place)).toBeGreaterThan(350);
});

test("a place's name stands in its middle, else beside what a rail shows there, and nowhere where all is taken", () => {
  const strip = { at: [7, 100] as const, polygon: [[0, 0], [14, 0], [14, 200], [0, 200]] as const };
  const asDrawn = (place: Place) => place;
  expect(placeForName(strip, [], asDrawn)).toEqual([7, 100]);
  const moved = placeForName(strip, [{ on: [3, 104], reach: 10 }], asDrawn);
  expect(moved && Math.hypot(moved[0] - 3, moved[1] - 104)).toBeGreaterThanOrEqual(19);
  expect(moved?.[0]).toBe(7);
  expect(placeForName(strip, [{ on: [7, 100], reach: 200 }], asDrawn)).toBeNull();
});

test("shims are written for all rails together: that in hand always, none of them over another, over a station or a name", () => {
  const rail = (id: string, y: number, current = -1): SceneRail => ({
    id, from: [0, y], to: [90, y], isCurrent: current >= 0,
    stations: [0, 30, 60, 90].map((x, index) => ({ at: [x, y] as const, label: "1 3/16\u2033", state: index === current ? "current" as const : "waiting" as const })),
  });
  const asDrawn = (place: Place) => place;
  expect(writtenStations([rail("A", 0), rail("B", 60, 1)], asDrawn)).toContain("B:1");
  const crowded = writtenStations([rail("A", 0), rail("B", 12, 1), rail("C", 24)], asDrawn);
  expect([...crowded].filter((id) => id.startsWith("B"))).toContain("B:1");
  expect(crowded.size).toBeLessThan(4); // rails 12 px apart leave no room between them for a line of text
});
