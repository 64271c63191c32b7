/** From JSON to the shapes of a job file. Names that they do not have are left out, and listed. */
import { JobFileError } from "./faults";
import { isUuid } from "./history";
import { isMoment } from "./moments";
import {
  EXTENSIONS, MOST_CHANGES, MOST_KNEW, MOST_PHOTO, MOST_PHOTOS, MOST_RECORDS, type FileChange, type FilePhoto, type FileRecord, type JobContents, type MediaType,
} from "./shapes";

type Open = Readonly<Record<string, unknown>>;
type Check = (value: unknown) => boolean;
type Shape = Readonly<Record<string, Check>>;

const LONGEST_NAME = 200;
const LONGEST_APP = 100;
/** On one line, and not all blanks. */
const NAME = /^[^\x00-\x1f\x7f]*[^\x00-\x20\x7f][^\x00-\x1f\x7f]*$/; // eslint-disable-line no-control-regex
const MOST_SCHEMA = 1_000_000;

const isText: Check = (value) => typeof value === "string";
const isObject = (value: unknown): value is Open => typeof value === "object" && value !== null && !Array.isArray(value);
const isShort = (value: string, most: number) => value.length <= most || Array.from(value).length <= most;
const isName: Check = (value) => value === null || (typeof value === "string" && NAME.test(value) && isShort(value, LONGEST_NAME));
const isSchema: Check = (value) => Number.isInteger(value) && Number(value) >= 1 && Number(value) <= MOST_SCHEMA;
const isHash: Check = (value) => typeof value === "string" && /^[0-9a-f]{64}$/.test(value);
const isId: Check = (value) => typeof value === "string" && isUuid(value);
const isListOf = (is: Check, most = Infinity): Check => (value) => Array.isArray(value) && value.length <= most && value.every(is);
const isMediaType = (value: unknown): value is MediaType => typeof value === "string" && Object.hasOwn(EXTENSIONS, value);
const isSize: Check = (value) => Number.isInteger(value) && Number(value) >= 1 && Number(value) <= MOST_PHOTO;

const MAKER: Shape = { person: isName, device: isName, app: (value) => typeof value === "string" && isShort(value, LONGEST_APP) };
const DEVICE: Shape = { id: isId, name: isName };
const RECORD: Shape = { kind: isText, id: isText, fields: isObject };
const CHANGE: Shape = {
  change_id: isText,
  kind: isText,
  record_id: isText,
  fields: isObject,
  schema: isSchema,
  at: isMoment,
  person: isName,
  device: (value) => value === null || isObject(value),
  knew: isListOf(isId, MOST_KNEW),
};
const PHOTO: Shape = { hash: isHash, media_type: isMediaType, size: isSize };
const COMPLETE: Shape = { history: (value) => typeof value === "boolean", photos: isListOf(isHash) };
const WHOLE: Shape = {
  evenbed_job: (value) => value === 1,
  made_at: isMoment,
  made_by: isObject,
  schema: isSchema,
  job: isId,
  records: isListOf(isObject, MOST_RECORDS),
  history: isListOf(isObject, MOST_CHANGES),
  photos: isListOf(isObject, MOST_PHOTOS),
  complete: isObject,
};

/** Throws JobFileError where something has another shape. */
export function contentsFrom(document: Open): { readonly contents: JobContents; readonly unknown: readonly string[] } {
  const unknown = new Set<string>();
  const fitted = (value: unknown, shape: Shape, where: string): Open => fit(value, { shape, where, unknown });
  const list = (name: string, shape: Shape) => (document[name] as unknown[]).map((one, index) => fitted(one, shape, `${name}.${index}`));
  const whole = fitted(document, WHOLE, "");
  const contents = {
    ...whole,
    made_by: fitted(whole["made_by"], MAKER, "made_by"),
    records: list("records", RECORD) as unknown as readonly FileRecord[],
    history: list("history", CHANGE).map((change, index) => withDevice(change, fitted, `history.${index}.device`)),
    photos: list("photos", PHOTO) as unknown as readonly FilePhoto[],
    complete: fitted(whole["complete"], COMPLETE, "complete"),
  };
  return { contents: contents as unknown as JobContents, unknown: [...unknown].sort() };
}

function withDevice(change: Open, fitted: (value: unknown, shape: Shape, where: string) => Open, where: string): FileChange {
  const { device } = change;
  return { ...change, device: device === null ? null : fitted(device, DEVICE, where) } as unknown as FileChange;
}

/** The value with the names of the shape alone, each as it should be. */
function fit(value: unknown, { shape, where, unknown }: { readonly shape: Shape; readonly where: string; readonly unknown: Set<string> }): Open {
  if (!isObject(value)) throw new JobFileError("wrong_shape", where);
  const wrong = Object.entries(shape).find(([name, is]) => !Object.hasOwn(value, name) || !is(value[name]));
  if (wrong !== undefined) throw new JobFileError("wrong_shape", where === "" ? wrong[0] : `${where}.${wrong[0]}`);
  for (const name of Object.keys(value)) if (!Object.hasOwn(shape, name)) unknown.add(name);
  return Object.fromEntries(Object.keys(shape).map((name) => [name, value[name]]));
}
