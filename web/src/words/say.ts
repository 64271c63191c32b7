/**
 * Sentences with their blanks filled. A blank names its value and how to write it: `{depth:depth}` writes the value
 * `depth`, a number of mm, as inches and sixteenths or as mm, whichever the person reads. `{count|room|rooms}` chooses.
 */
import {
  areaText, clockHourText, clockText, datedText, depthText, errorText, gapText, heightText, hoursText, lengthText, loadText, massText, momentText, numberText,
  rateText, soonHourText, soonText, speedText, temperatureText, volumeText, waterText, type Reader,
} from "../units";

export type Values = Readonly<Record<string, unknown>>;

const BLANK = /\{(\w+)(?::(\w+))?\}/g;
/** `{count|room|rooms}`: the first form for exactly one. */
const FORMS = /\{(\w+)\|([^|}]*)\|([^|}]*)\}/g;

type Writer = (value: number, reader: Reader) => string;

const WRITERS: Readonly<Record<string, Writer>> = {
  area: areaText,
  depth: depthText,
  error: errorText,
  gap: gapText,
  height: heightText,
  hours: hoursText,
  length: lengthText,
  load: loadText,
  mass: massText,
  number: (value, { language }) => numberText(value, 2, language),
  percent: (value, { language }) => `${numberText(value * 100, 1, language)}\u202f%`,
  rate: rateText,
  speed: speedText,
  temperature: temperatureText,
  volume: volumeText,
  whole: (value, { language }) => numberText(value, 0, language),
  water: waterText,
};

const TEXT_WRITERS: Readonly<Record<string, (text: string, reader: Reader) => string>> = {
  clock: clockText,
  dated: datedText,
  moment: momentText,
  hour: (text, reader) => clockHourText(Date.parse(text), reader),
  soon: (text, reader) => soonText(text, reader),
  soon_hour: (text, reader) => soonHourText(text, reader),
};

function placeText(value: readonly unknown[], reader: Reader): string {
  return value.map((part) => (typeof part === "number" ? lengthText(part, reader) : String(part))).join(" · ");
}

function written(value: unknown, kind: string | undefined, reader: Reader): string {
  if (Array.isArray(value)) return placeText(value, reader);
  if (typeof value === "number") return (WRITERS[kind ?? "number"] ?? WRITERS["number"])?.(value, reader) ?? String(value);
  if (typeof value === "string" && kind !== undefined) return TEXT_WRITERS[kind]?.(value, reader) ?? value;
  return typeof value === "string" || typeof value === "boolean" ? String(value) : "";
}

/** `sentence` with every blank filled from `values`. */
export function filled(sentence: string, values: Values, reader: Reader): string {
  const chosen = sentence.replace(FORMS, (_, name: string, one: string, many: string) => (values[name] === 1 ? one : many));
  return chosen.replace(BLANK, (blank: string, name: string, kind: string | undefined, at: number) => {
    const text = written(values[name], kind, reader);
    const isStop = text.endsWith(".") && chosen[at + blank.length] === "."; // 7:30 p.m. ends its sentence by itself
    return isStop ? text.slice(0, -1) : text;
  });
}

/** The blanks of a sentence, sorted: the same in every language. */
export function blanksOf(sentence: string): readonly string[] {
  const bare = sentence.replace(FORMS, "{$1}");
  return [...bare.matchAll(BLANK)].map(([blank]) => blank).sort();
}
