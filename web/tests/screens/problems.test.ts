import { expect, test } from "vitest";
import { wayToMend } from "../../src/screens/common/NoPlan";
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

test("a length out of its range is told in the person's units, one of a list by the name of the list", () => {
  const short = (path: string): Problem => ({ path, code: "too_small", message: "", values: { value: 25.4, low: 203.2 } });
  expect(problemText(short("rails.straightedge"))).toBe("Straightedge: 1\u2033 is too little: the least is 8\u2033.");
  expect(problemText(short("rails.straightedges[1]"))).toBe("More straightedges: 1\u2033 is too little: the least is 8\u2033.");
  expect(problemText(short("rails.strips[0].length"))).toBe("Strips on hand: 1\u2033 is too little: the least is 8\u2033.");
  expect(problemText({ ...short("rails.strips[0].count"), values: { value: 0, low: 1 } })).toBe("Strips on hand: 0 is too small: the least is 1.");
});

test("the way to mend leads where the choice is made, and to the outline where there is none", () => {
  const room = (path: string, outline = true) => ({
    id: "r", fields: outline ? { outline: { walls: [] } } : {},
    state: { status: "problems" as const, plan: null, problems: [tooSmall(path)], at: null },
  });
  expect(wayToMend(room("rails.straightedges[1]")).to).toBe("/room/r/rails/layout");
  expect(wayToMend(room("mix.sand")).to).toBe("/room/r/material");
  expect(wayToMend(room("bed.minimum_thickness")).to).toBe("/room/r/bed");
  expect(wayToMend(room("levelling.readings[0].down")).to).toBe("/room/r/levels");
  expect(wayToMend(room("rails.inset", false)).to).toBe("/room/r/outline");
});
