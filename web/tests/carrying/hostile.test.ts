/** The same hostile files that the service refuses, made by Python's own zip library, tried on the phone's code. */
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { JobFileError, readJobFile } from "../../src/carrying";
import { FAULTS } from "../../src/carrying/faults";
import { neededIn, wrongField } from "../../src/carrying/fields";

const ROOT = join(import.meta.dirname, "..", "..", "..");
const PYTHON = join(ROOT, ".venv", "bin", "python");
const MAKING_MS = 120_000;
const LONGEST_MS = 20_000; // to refuse the largest, on a slow machine with others at work

let folder: string;
let expected: Readonly<Record<string, string | null>>;

beforeAll(() => {
  if (!existsSync(PYTHON)) throw new Error("The project's Python is not set up: run make installed.");
  folder = mkdtempSync(join(tmpdir(), "evenbed-hostile-"));
  execFileSync(PYTHON, ["-m", "tests.jobfiles.hostile", folder], { cwd: ROOT, env: { ...process.env, PYTHONPATH: join(ROOT, "server") } });
  expected = JSON.parse(readFileSync(join(folder, "expected.json"), "utf8")) as typeof expected;
}, MAKING_MS);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function whyOf(name: string): Promise<string | null> {
  try {
    await readJobFile(new Blob([readFileSync(join(folder, `${name}.zip`))]));
    return null;
  } catch (error) {
    if (!(error instanceof JobFileError)) throw error;
    return error.fault;
  }
}

test("each is refused with its reason, in time, and the good ones are not", { timeout: MAKING_MS }, async () => {
  for (const [name, fault] of Object.entries(expected)) {
    const started = performance.now();
    expect([name, await whyOf(name)]).toEqual([name, fault]);
    expect(performance.now() - started).toBeLessThan(LONGEST_MS);
  }
});

test("every reason has a file", () => {
  expect(new Set(Object.values(expected).filter((fault) => fault !== null))).toEqual(new Set(FAULTS));
});

interface Probes {
  readonly values: readonly unknown[];
  /** By kind and field: the places of the values that the service keeps. */
  readonly kept: Readonly<Record<string, Readonly<Record<string, readonly number[]>>>>;
  readonly needed: Readonly<Record<string, readonly string[]>>;
}

test("the phone takes in every field what the service keeps, and nothing else", () => {
  const { values, kept, needed } = JSON.parse(readFileSync(join(folder, "probes.json"), "utf8")) as Probes;
  for (const [kind, fields] of Object.entries(kept)) {
    expect([kind, [...neededIn(kind)].sort()]).toEqual([kind, [...(needed[kind] ?? [])].sort()]);
    for (const [name, places] of Object.entries(fields)) {
      const mine = [...values.keys()].filter((place) => wrongField(kind, Object.fromEntries([[name, values[place]]])) === null);
      expect([kind, name, mine]).toEqual([kind, name, places]);
    }
  }
});

test("names that this version does not know are left out and listed", async () => {
  const { contents, unknown } = await readJobFile(new Blob([readFileSync(join(folder, "good_with_unknown_names.zip"))]));
  expect(unknown).toEqual(["colour"]);
  expect("colour" in contents).toBe(false);
});
