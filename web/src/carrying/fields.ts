/**
 * Whether the fields of a record hold what their kind may hold, by the service's own description of it: JSON Schema, of which
 * the description uses the words below and no other.
 */
import { FIELD_SHAPES } from "../wire/generated/fields";
import { isRecordMoment } from "./moments";

interface Schema {
  readonly type?: string;
  readonly $ref?: string;
  readonly anyOf?: readonly Schema[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly pattern?: string;
  readonly format?: string;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly maxProperties?: number;
  readonly items?: Schema;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly propertyNames?: Schema;
  readonly additionalProperties?: boolean | Schema;
  readonly required?: readonly string[];
}

type Open = Readonly<Record<string, unknown>>;

/** The names that a new record of the kind cannot be without. */
export function neededIn(kind: string): readonly string[] {
  return shapeOf(kind).required ?? [];
}

/** The first field that the kind does not have, or whose value it cannot hold; null where there is none. */
export function wrongField(kind: string, fields: Open): string | null {
  const { properties = {} } = shapeOf(kind);
  const wrong = Object.entries(fields).find(([name, value]) => !Object.hasOwn(properties, name) || !fits(value, properties[name] ?? {}));
  return wrong === undefined ? null : wrong[0];
}

function shapeOf(kind: string): Schema {
  return named(`${kind.split("_").map((word) => word.charAt(0).toUpperCase() + word.slice(1)).join("")}Fields`);
}

function named(name: string): Schema {
  const shape: Schema | undefined = FIELD_SHAPES[name];
  if (shape === undefined) throw new RangeError(`The service describes no ${name}.`);
  return shape;
}

function fits(value: unknown, schema: Schema): boolean {
  if (schema.$ref !== undefined) return fits(value, named(schema.$ref.split("/").at(-1) ?? ""));
  if (schema.anyOf !== undefined) return schema.anyOf.some((one) => fits(value, one));
  if ("const" in schema && value !== schema.const) return false;
  if (schema.enum !== undefined && !schema.enum.includes(value)) return false;
  switch (schema.type) {
    case "string": return typeof value === "string" && isTextOf(value, schema);
    case "integer": return Number.isInteger(value) && isBetween(Number(value), schema.minimum, schema.maximum);
    case "number": return typeof value === "number" && isBetween(value, schema.minimum, schema.maximum);
    case "boolean": return typeof value === "boolean";
    case "null": return value === null;
    case "array": return Array.isArray(value) && isBetween(value.length, schema.minItems, schema.maxItems) && value.every((one) => fits(one, schema.items ?? {}));
    case "object": return typeof value === "object" && value !== null && !Array.isArray(value) && isObjectOf(value as Open, schema);
    default: return true;
  }
}

function isTextOf(text: string, { pattern, format, minLength, maxLength }: Schema): boolean {
  const isLong = maxLength !== undefined && text.length > maxLength && Array.from(text).length > maxLength;
  if (isLong || text.length < (minLength ?? 0)) return false;
  return (pattern === undefined || new RegExp(pattern, "u").test(text)) && (format !== "date-time" || isRecordMoment(text));
}

function isBetween(value: number, low = -Infinity, high = Infinity): boolean {
  return value >= low && value <= high;
}

function isObjectOf(value: Open, { properties = {}, propertyNames, additionalProperties = true, maxProperties }: Schema): boolean {
  const entries = Object.entries(value);
  if (!isBetween(entries.length, 0, maxProperties)) return false;
  return entries.every(([name, one]) => {
    if (propertyNames !== undefined && !fits(name, { type: "string", ...propertyNames })) return false;
    if (Object.hasOwn(properties, name)) return fits(one, properties[name] ?? {});
    return typeof additionalProperties === "boolean" ? additionalProperties : fits(one, additionalProperties);
  });
}
