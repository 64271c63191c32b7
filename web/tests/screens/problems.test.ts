import { expect, test } from "vitest";
import { problemText } from "../../src/screens/common/plan";
import type { Problem } from "../../src/wire";

function tooSmall(path: string): Problem {
  return { path, code: "too_small", message: "0 is too small: the least is 0.001.", values: { value: 0, low: 0.001 } };
}

test("a value out of its range says of which choice it is, the room's or the company's", () => {
  expect(problemText(tooSmall("supplies.tile.box_area"))).toMatch(/^Tile, area of a box: 0 is too small/);
  expect(problemText(tooSmall("mix.sand"))).toMatch(/^Sand, parts: /);
  expect(problemText(tooSmall("prices.margin"))).toMatch(/^Margin: /);
});

test("a problem at no choice of anybody's is told as it is", () => {
  expect(problemText(tooSmall("outline.walls[2].length"))).toMatch(/^0 is too small/);
});
