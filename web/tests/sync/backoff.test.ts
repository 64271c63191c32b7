import { expect, test } from "vitest";
import { waitFromFailures } from "../../src/sync/backoff";

test("waits double up to five minutes, and are spread over half of each step", () => {
  expect(waitFromFailures(1, 0)).toBe(1_000);
  expect(waitFromFailures(2, 0)).toBe(2_000);
  expect(waitFromFailures(3, 0.5)).toBe(6_000);
  expect(waitFromFailures(60, 0.999)).toBeLessThanOrEqual(300_000);
  expect(waitFromFailures(60, 0)).toBe(150_000);
});
