import { expect, test } from "vitest";
import { placeOnEarth } from "../../src/screens/common/onEarth";

const CHICAGO = { latitude: 41.88, longitude: -87.63 };

test.each([
  ["41.88, -87.63", CHICAGO],
  ["41.88,-87.63", CHICAGO],
  ["41,88; -87,63", CHICAGO],
  ["41.88 -87.63", CHICAGO],
  ["41.88° N, 87.63° W", CHICAGO],
  ["41,88 n; 87,63 o", CHICAGO],
  ["  -33.9 18.4 ", { latitude: -33.9, longitude: 18.4 }],
  ["33.9 S 18.4 E", { latitude: -33.9, longitude: 18.4 }],
  ["90, 180", { latitude: 90, longitude: 180 }],
  ["0 0", { latitude: 0, longitude: 0 }],
])("%j is a place", (typed, place) => {
  expect(placeOnEarth(typed)).toEqual(place);
});

test.each(["", "41.88", "41,88", "north", "91, 0", "0, 180.5", "1,2,3,4", "41.88 -87.63 5", "1e1 2"])("%j is none", (typed) => {
  expect(placeOnEarth(typed)).toBeNull();
});
