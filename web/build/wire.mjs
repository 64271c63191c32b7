/**
 * The wire's types, the numbers the engine takes where a room says nothing, and what the fields of each kind may hold, from
 * the service's own description: `evenbed openapi` → src/wire/generated/service.ts, defaults.ts and fields.ts.
 * With --check nothing is written; the exit status is 1 where a file would change.
 */
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import openapiTS, { astToString } from "openapi-typescript";

const ROOT = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const FOLDER = join(ROOT, "web", "src", "wire", "generated");
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

/** @typedef {{ properties?: Record<string, Schema>, anyOf?: Schema[], $ref?: string, default?: unknown }} Schema */
/** @typedef {Record<string, Schema>} Schemas */

/**
 * The shape a property holds: its own, or the one before "or null".
 * @param {Schemas} schemas @param {Schema} property @returns {Schema}
 */
function shapeOf(schemas, property) {
  const plain = property.anyOf?.[0] ?? property;
  return plain.$ref ? { ...schemas[plain.$ref.split("/").at(-1) ?? ""], ...plain } : plain;
}

/**
 * Every number that has a default, by its dotted name: `rails.strip.thickness`.
 * @param {Schemas} schemas @param {Schema} shape @param {string[]} path @returns {(readonly [string, number])[]}
 */
function defaultNumbers(schemas, shape, path = []) {
  return Object.entries(shape.properties ?? {}).flatMap(([name, property]) => {
    const held = shapeOf(schemas, property);
    if (typeof held.default === "number") return [/** @type {const} */ ([[...path, name].join("."), held.default])];
    return held.properties ? defaultNumbers(schemas, held, [...path, name]) : [];
  });
}

/** @param {{ components: { schemas: Schemas } }} description */
function defaultsText({ components: { schemas } }) {
  const rows = defaultNumbers(schemas, schemas["Document"] ?? {}).map(([name, value]) => `  ${JSON.stringify(name)}: ${value},\n`);
  return `export const DEFAULTS = {\n${rows.join("")}} as const;\n`;
}

const TOLD_TO_READERS = new Set(["title", "description", "default"]);

/**
 * A schema less what is told to readers alone. Under `properties` stand names, which are all kept.
 * @param {unknown} schema @param {boolean} isNames @returns {unknown}
 */
function bare(schema, isNames = false) {
  if (Array.isArray(schema)) return schema.map((part) => bare(part));
  if (typeof schema !== "object" || schema === null) return schema;
  const kept = Object.entries(schema).filter(([name]) => isNames || !TOLD_TO_READERS.has(name));
  return Object.fromEntries(kept.map(([name, part]) => [name, bare(part, !isNames && name === "properties")]));
}

/**
 * The names of the shapes that a schema refers to.
 * @param {unknown} schema @returns {string[]}
 */
function namedIn(schema) {
  if (typeof schema !== "object" || schema === null) return [];
  return Object.entries(schema).flatMap(([name, part]) => (name === "$ref" ? [String(part).split("/").at(-1) ?? ""] : namedIn(part)));
}

/** @param {{ components: { schemas: Schemas } }} description */
function fieldsText({ components: { schemas } }) {
  const kept = new Map(Object.keys(schemas).filter((name) => name.endsWith("Fields")).map((name) => [name, bare(schemas[name])]));
  for (const [, schema] of kept) for (const name of namedIn(schema)) if (!kept.has(name)) kept.set(name, bare(schemas[name]));
  const rows = [...kept].sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, schema]) => `  ${name}: ${JSON.stringify(schema)},\n`);
  return `export const FIELD_SHAPES: Readonly<Record<string, object>> = {\n${rows.join("")}};\n`;
}

const told = description();
const made = {
  "service.ts": HEAD + astToString(await openapiTS(told, { immutable: true, alphabetize: true, defaultNonNullable: false })),
  "defaults.ts": HEAD + defaultsText(told),
  "fields.ts": HEAD + fieldsText(told),
};
for (const [name, text] of Object.entries(made)) {
  const file = join(FOLDER, name);
  const kept = existsSync(file) ? readFileSync(file, "utf8") : "";
  if (process.argv.includes("--check") && text !== kept) throw new Error(`${name} is not what the service says: run \`npm run wire\`.`);
  mkdirSync(FOLDER, { recursive: true });
  if (text !== kept) writeFileSync(file, text);
}
