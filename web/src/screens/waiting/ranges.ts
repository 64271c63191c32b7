/** What can be typed, as the engine takes it: what lies outside is told where it is typed, and stays typed. */
import { celsiusFrom, hoursText, kmHFrom, numberText, speedText, temperatureText } from "../../units";
import { reader, t } from "../../words";

export type Range = readonly [low: number, high: number];
export type Fault = (typed: number) => string | null;

/** °C, %, km/h and hours, as the room document has them. */
export const RANGES = {
  bed: [-60, 100], air: [-60, 80], humidity: [0, 100], wind: [0, 400], ahead: [0, 2400],
  reference: [-20, 60], assumed: [-60, 80], datum: [-20, 10], forecast_doubt: [0, 20],
  activation: [0, 20_000], early: [10, 100], late: [100, 1000], follows: [0, 100], fresh_window: [0, 48], working_time: [0.05, 48], needs: [0, 100_000],
} as const satisfies Readonly<Record<string, Range>>;

/** Why a value cannot be, both ends told as the person reads them; null where it can. */
export function rangeFault(value: number, [low, high]: Range, text: (value: number) => string): string | null {
  return value < low || value > high ? t("constants.range", { low: text(low), high: text(high) }) : null;
}

export function temperatureFault(range: Range): Fault {
  return (typed) => rangeFault(celsiusFrom(typed, reader.value.units), range, (celsius) => temperatureText(celsius, reader.value));
}

export function speedFault(range: Range): Fault {
  return (typed) => rangeFault(kmHFrom(typed, reader.value), range, (wind) => speedText(wind, reader.value));
}

export function hoursFault(range: Range): Fault {
  return (typed) => rangeFault(typed, range, (hours) => hoursText(hours, reader.value));
}

/** In figures alone, with their unit. */
export function plainFault(range: Range, unit: string): Fault {
  return (typed) => rangeFault(typed, range, (value) => `${numberText(value, 2, reader.value.language)}\u202f${unit}`);
}
