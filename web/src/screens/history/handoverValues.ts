/** Records of the finished bed as a person reads them. */
import type { GapLimit } from "../../wire";
import { t } from "../../words";
import { placeText } from "../common/roomFigure";
import { degrees, humidity, jobName, kilobytes, length, measure, moment, roomName, text, typedText, wind, yesOrNo } from "./smallValues";
import type { Writers } from "./values";

const HASH_SHOWN = 12;
const count = (values: readonly number[]) => t("value.values", { values: values.length });
const hash = (value: string) => value.slice(0, HASH_SHOWN);
const where = (value: "bed" | "air") => t(`value.log_${value}`);

/** The most that may stand open under a straightedge of one length. */
export function limitText(limit: GapLimit): string {
  return t("value.gap_limit", { length: limit.length, gap: limit.gap });
}

type Handed = "gap" | "height_line" | "temperature_log" | "forecast_day" | "sign_off";

export const HANDOVER_WRITERS: Pick<Writers, Handed> = {
  gap: { room_id: roomName, from: placeText, to: placeText, gap: length, at: placeText, passed_over: yesOrNo, typed: typedText, taken_at: moment, deleted: yesOrNo },
  height_line: { room_id: roomName, heights: count, spacing: measure, from: placeText, to: placeText, typed: typedText, taken_at: moment, deleted: yesOrNo },
  temperature_log: { room_id: roomName, start: moment, seconds: count, celsius: count, where, name: text, deleted: yesOrNo },
  forecast_day: {
    job_id: jobName, low: degrees, high: degrees, low_at: moment, high_at: moment,
    humidity, wind, source: text, deleted: yesOrNo,
  },
  sign_off: {
    room_id: roomName, at: moment, by: text, engine: text, engine_hash: hash, inputs_hash: hash,
    copy: (value) => kilobytes(value.length), note: text, deleted: yesOrNo,
  },
};
