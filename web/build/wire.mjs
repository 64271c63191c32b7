/**
 * The wire's types from the service's own description: `evenbed openapi` → src/wire/generated/service.ts.
 * With --check nothing is written; the exit status is 1 where the file would change.
 */
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import openapiTS, { astToString } from "openapi-typescript";

const ROOT = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const FILE = join(ROOT, "web", "src", "wire", "generated", "service.ts");
const HEAD = "/** Made by `npm run wire` from the service's description. Not edited by hand. */\n\n";

/** The project's own Python where there is one, else the one at hand. */
function python() {
  const own = join(ROOT, ".venv", "bin", "python");
  return existsSync(own) ? own : "python3";
}

function description() {
  const env = { ...process.env, PYTHONPATH: join(ROOT, "server") };
  const text = execFileSync(python(), ["-m", "evenbed", "openapi"], { env, maxBuffer: 64 * 1024 * 1024 });
  return JSON.parse(text.toString("utf8"));
}

const made = HEAD + astToString(await openapiTS(description(), { immutable: true, alphabetize: true, defaultNonNullable: false }));
const kept = existsSync(FILE) ? readFileSync(FILE, "utf8") : "";
if (process.argv.includes("--check")) {
  if (made !== kept) throw new Error("The wire's types are not those of the service: run `npm run wire`.");
  console.log("The wire's types are those of the service.");
} else {
  mkdirSync(dirname(FILE), { recursive: true });
  writeFileSync(FILE, made);
}
