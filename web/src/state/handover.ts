/** The finished bed: gaps and profiles measured on it, temperatures, forecasts, milestones let pass, and what was signed. */
import { uuidv7 } from "uuidv7";
import type { Edit, Fields, MilestoneName } from "../wire";
import { act, create, edit, type ActionOptions } from "./actions";
import { addEntry } from "./filling";
import { session } from "./status";

type New<K extends "gap" | "height_line" | "temperature_log" | "sign_off"> = Omit<Fields<K>, "room_id" | "deleted">;

export function addGap(roomId: string, gap: New<"gap"> & Required<Pick<Fields<"gap">, "from" | "to" | "gap">>, options?: ActionOptions): Promise<string> {
  return create("gap", { taken_at: now(), ...gap, room_id: roomId }, options);
}

export function editGap(id: string, fields: Fields<"gap">, options?: ActionOptions): Promise<void> {
  return edit("gap", id, fields, options);
}

export function addHeightLine(roomId: string, line: New<"height_line"> & { readonly heights: readonly number[] }, options?: ActionOptions): Promise<string> {
  return create("height_line", { taken_at: now(), ...line, room_id: roomId }, options);
}

export function editHeightLine(id: string, fields: Fields<"height_line">, options?: ActionOptions): Promise<void> {
  return edit("height_line", id, fields, options);
}

export function addTemperatureLog(roomId: string, log: New<"temperature_log">, options?: ActionOptions): Promise<string> {
  return create("temperature_log", { ...log, room_id: roomId }, options);
}

export type NewForecastDay = Omit<Fields<"forecast_day">, "job_id" | "deleted">;

/** Several days in one step to undo. A day that was told before is told anew: the later record holds. */
export function addForecast(jobId: string, days: readonly NewForecastDay[], options?: ActionOptions): Promise<void> {
  return act(days.map((day): Edit<"forecast_day"> => ({ kind: "forecast_day", id: uuidv7(), fields: { ...day, job_id: jobId } })), options);
}

export function signRoom(roomId: string, signed: New<"sign_off">, options?: ActionOptions): Promise<string> {
  return create("sign_off", { at: now(), by: session.peek().person ?? "", ...signed, room_id: roomId }, options);
}

export type Look = Pick<Fields<"entry">, "by" | "at" | "text">;

/** Somebody looked at the bed and lets a milestone pass: this person, now, unless told. */
export function tickMilestone(roomId: string, milestone: MilestoneName, how: string, look: Look = {}, options?: ActionOptions): Promise<string> {
  return addEntry(roomId, { what: "milestone", code: milestone, how, by: session.peek().person ?? "", ...look }, options);
}

/** The bed was rubbed down or filled up at a place, now: what was read there before is out of date. */
export function touchBed(roomId: string, way: "rubbed" | "filled_up", place: readonly [number, number]): Promise<string> {
  return addEntry(roomId, { what: way, place });
}

function now(): string {
  return new Date().toISOString();
}
