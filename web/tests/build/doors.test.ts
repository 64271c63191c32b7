import { Linter } from "eslint";
import tseslint from "typescript-eslint";
import { expect, test } from "vitest";
import { doors } from "../../build/doors.mjs";

/** What the doors say about one import in one file. */
function judged(file: string, code: string): readonly string[] {
  const parser: Linter.Config = { files: ["**/*.ts"], languageOptions: { parser: tseslint.parser } };
  return new Linter().verify(code, [parser, ...doors], file).map((message) => message.ruleId ?? message.message);
}

test.each([
  ["src/screens/levels/a.ts", 'import { Storage } from "../../storage";'],
  ["src/screens/levels/a.ts", 'import type { Phase } from "../../sync/office";'],
  ["src/screens/a.ts", 'export { Bridge } from "../bridge/bridge";'],
  ["src/state/a.ts", 'import { Storage } from "../storage";'],
  ["src/storage/a.ts", 'import { Office } from "../sync";'],
  ["src/sync/a.ts", 'import { jobs } from "../state";'],
  ["src/wire/a.ts", 'import { length } from "../units";'],
  ["src/screens/a.ts", 'const storage = await import("../storage");'],
])("%s may not say %s", (file, code) => {
  expect(judged(file, code)).toHaveLength(1);
});

test.each([
  ["src/screens/levels/a.ts", 'import { jobs } from "../../state";'],
  ["src/screens/levels/a.ts", 'import type { Plan } from "../../wire";'],
  ["src/sync/a.ts", 'import { Storage } from "../storage";'],
  ["src/bridge/a.ts", 'import type { Answer } from "../engine-worker/messages";'],
  ["src/app/a.ts", 'import { Storage } from "../storage";'],
])("%s may say %s", (file, code) => {
  expect(judged(file, code)).toEqual([]);
});
