/** How each input of a formula is written: by what it is, in the person's units. */
import {
  areaText, depthText, errorText, heightText, hoursText, lengthText, massText, momentText, numberText, temperatureText, volumeText,
  expansionText, warmthText,
} from "../../units";
import { reader } from "../../words";

type Writer = (value: number) => string;

const plain: Writer = (value) => numberText(value, 4, reader.value.language);
const WRITERS: Readonly<Record<string, Writer>> = {
  area: (value) => areaText(value, reader.value),
  volume: (value) => volumeText(value, reader.value),
  mixed_volume: (value) => volumeText(value, reader.value),
  low: (value) => volumeText(value, reader.value),
  high: (value) => volumeText(value, reader.value),
  saves_minimum_thickness: (value) => volumeText(value, reader.value),
  saves_maximum_thickness: (value) => volumeText(value, reader.value),
  saves_held_low: (value) => volumeText(value, reader.value),
  saves_held_high: (value) => volumeText(value, reader.value),
  saves_largest_fall: (value) => volumeText(value, reader.value),
  sill: (value) => errorText(value, reader.value),
  nugget: (value) => errorText(value, reader.value),
  error: (value) => errorText(value, reader.value),
  read: (value) => heightText(value, reader.value),
  expected: (value) => heightText(value, reader.value),
  range: (value) => lengthText(value, reader.value),
  batch_volume: (value) => volumeText(value, reader.value),
  yield: (value) => volumeText(value, reader.value),
  mass: (value) => massText(value, reader.value),
  bag_mass: (value) => massText(value, reader.value),
  density: (value) => `${numberText(value, 0, reader.value.language)} kg/m³`,
  z: (value) => heightText(value, reader.value),
  a: (value) => heightText(value, reader.value),
  highest: (value) => heightText(value, reader.value),
  top: (value) => heightText(value, reader.value),
  subfloor: (value) => heightText(value, reader.value),
  minimum: (value) => depthText(value, reader.value),
  thickness: (value) => depthText(value, reader.value),
  strip_thickness: (value) => depthText(value, reader.value),
  strip: (value) => depthText(value, reader.value),
  x: (value) => lengthText(value, reader.value),
  y: (value) => lengthText(value, reader.value),
  straightedge: (value) => lengthText(value, reader.value),
  bearing: (value) => lengthText(value, reader.value),
  inset: (value) => lengthText(value, reader.value),
  needs: (value) => hoursText(value, reader.value),
  equivalent_age: (value) => hoursText(value, reader.value),
  working_time: (value) => hoursText(value, reader.value),
  published: (value) => depthText(value, reader.value),
  by_movement: (value) => depthText(value, reader.value),
  movement: (value) => errorText(value, reader.value),
  spacing: (value) => lengthText(value, reader.value),
  panel: (value) => lengthText(value, reader.value),
  temperature_range: (value) => warmthText(value, reader.value),
  expansion: (value) => expansionText(value, reader.value),
  sealant: (value) => `${numberText(value * 100, 1, reader.value.language)} %`,
  reference: (value) => temperatureText(value, reader.value),
  temperature: (value) => temperatureText(value, reader.value),
  assumed: (value) => temperatureText(value, reader.value),
  waste: (value) => `${numberText(value * 100, 1, reader.value.language)} %`,
  air: (value) => `${numberText(value * 100, 1, reader.value.language)} %`,
};

/** One input of an explanation as a person reads it. */
export function inputText(name: string, value: unknown): string {
  if (typeof value === "number") return (WRITERS[name] ?? plain)(value);
  if (Array.isArray(value)) return value.map((part) => (typeof part === "number" ? lengthText(part, reader.value) : String(part))).join(" · ");
  if (typeof value === "string" && /^\d{4}-\d\d-\d\dT/.test(value)) return momentText(value, reader.value);
  return String(value);
}
