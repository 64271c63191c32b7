/** Records of the finished bed as a person reads them. */
import { jobOf, roomOf } from "../../state";
import { lengthText, momentText, numberText, temperatureText } from "../../units";
import type { GapLimit, Typed } from "../../wire";
import { reader, t } from "../../words";
import { placeText } from "../common/roomFigure";
import { measure } from "./boughtValues";
import type { Writers } from "./values";

const HASH_SHOWN = 12;
const text = (value: string) => (value === "" ? t("value.nothing") : value);
const yesOrNo = (value: boolean) => (value ? t("yes") : t("no"));
const moment = (iso: string) => momentText(iso, reader.value);
const degrees = (celsius: number) => temperatureText(celsius, reader.value);
const roomName = (id: string) => roomOf(id)?.fields.name ?? t("value.gone");
const typedText = (typed: Typed) => Object.values(typed).join("; ") || t("value.nothing");
const count = (values: readonly number[]) => t("value.values", { values: values.length });
const hash = (value: string) => value.slice(0, HASH_SHOWN);
const where = (value: "bed" | "air") => t(`value.log_${value}`);

/** The most that may stand open under a straightedge of one length. */
export function limitText({ length, gap }: GapLimit): string {
  return t("value.gap_limit", { length, gap });
}

type Handed = "gap" | "height_line" | "temperature_log" | "forecast_day" | "sign_off";

export const HANDOVER_WRITERS: Pick<Writers, Handed> = {
  gap: { room_id: roomName, from: placeText, to: placeText, gap: (mm) => lengthText(mm, reader.value), at: placeText, passed_over: yesOrNo, typed: typedText, taken_at: moment, deleted: yesOrNo },
  height_line: { room_id: roomName, heights: count, spacing: measure, from: placeText, to: placeText, typed: typedText, taken_at: moment, deleted: yesOrNo },
  temperature_log: { room_id: roomName, start: moment, seconds: count, celsius: count, where, name: text, deleted: yesOrNo },
  forecast_day: {
    job_id: (id) => jobOf(id)?.fields.name ?? t("value.gone"), low: degrees, high: degrees, low_at: moment, high_at: moment,
    humidity: (value) => `${numberText(value, 0, reader.value.language)}\u202f%`, wind: (value) => t("value.km_h", { speed: value }), source: text, deleted: yesOrNo,
  },
  sign_off: {
    room_id: roomName, at: moment, by: text, engine: text, engine_hash: hash, inputs_hash: hash,
    copy: (value) => t("value.kilobytes", { kilobytes: Math.ceil(value.length / 1000) }), note: text, deleted: yesOrNo,
  },
};
