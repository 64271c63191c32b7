/** Addresses inside the app. The same ones serve the phone and the wide window. */
import { signal } from "@preact/signals";
import { KINDS, type Kind } from "../../wire";

export const STEPS = ["outline", "levels", "bed", "material", "rails", "filling", "checking", "waiting"] as const;
export type Step = (typeof STEPS)[number];

/** What is done about the rails beside setting them: laying them out, truing them, setting them with wet hands. */
export const RAIL_PARTS = ["layout", "true", "hands"] as const;
export type RailPart = (typeof RAIL_PARTS)[number];

/** What is done on the finished bed beside looking at it: reading it, laying a straightedge, a line of heights. */
export const CHECK_PARTS = ["read", "edge", "heights"] as const;
export type CheckPart = (typeof CHECK_PARTS)[number];

type PlainName = "jobs" | "new_job" | "settings" | "people" | "review" | "prices" | "board";

export type Route =
  | { readonly name: PlainName | "missing" }
  | { readonly name: "job" | "order"; readonly job: string }
  | { readonly name: "history"; readonly kind: Kind; readonly id: string }
  | { readonly name: "in_out" | "joints" | "record"; readonly room: string }
  | { readonly name: "rails"; readonly room: string; readonly part: RailPart }
  | { readonly name: "checking"; readonly room: string; readonly part: CheckPart }
  | { readonly name: "room"; readonly room: string; readonly step: Step | null };

const IN_OUT = "in-out";
const ORDER = "order";
const JOINTS = "joints";
const RECORD = "record";

export const path = signal(typeof location === "undefined" ? "/" : location.pathname);

const PLAIN: Readonly<Record<string, PlainName>> = {
  "/": "jobs", "/new": "new_job", "/settings": "settings", "/people": "people", "/review": "review", "/prices": "prices", "/board": "board",
};

function isStep(text: string): text is Step {
  return (STEPS as readonly string[]).includes(text);
}

/** The screen that an address stands for. */
export function routeFromPath(address: string): Route {
  const plain = PLAIN[address];
  if (plain) return { name: plain };
  const [, kind, id = "", step, part = ""] = address.split("/");
  if (kind === "job" && id) return { name: step === ORDER ? "order" : "job", job: id };
  if (kind === "history") return historyRoute(id, step);
  if (kind !== "room" || !id) return { name: "missing" };
  if (step === undefined || step === "") return { name: "room", room: id, step: null };
  if (step === IN_OUT) return { name: "in_out", room: id };
  if (step === JOINTS) return { name: "joints", room: id };
  if (step === RECORD) return { name: "record", room: id };
  if (step === "rails" && part) return railsRoute(id, part);
  if (step === "checking" && part) return checkRoute(id, part);
  return isStep(step) ? { name: "room", room: id, step } : { name: "missing" };
}

function railsRoute(room: string, text: string): Route {
  const part = RAIL_PARTS.find((one) => one === text);
  return part ? { name: "rails", room, part } : { name: "missing" };
}

function checkRoute(room: string, text: string): Route {
  const part = CHECK_PARTS.find((one) => one === text);
  return part ? { name: "checking", room, part } : { name: "missing" };
}

function historyRoute(kind: string, id: string | undefined): Route {
  const known = KINDS.find((one) => one === kind);
  return known && id ? { name: "history", kind: known, id } : { name: "missing" };
}

export function pathOfHistory(kind: Kind, id: string): string {
  return `/history/${kind}/${id}`;
}

/** Where readings come in from tables and scans, and go out. */
export function pathOfInOut(room: string): string {
  return `/room/${room}/${IN_OUT}`;
}

/** What the rooms of a job need together. */
export function pathOfOrder(job: string): string {
  return `/job/${job}/${ORDER}`;
}

/** The movement joints of a room. */
export function pathOfJoints(room: string): string {
  return `/room/${room}/${JOINTS}`;
}

/** The record of a room, to hand over. */
export function pathOfHandOver(room: string): string {
  return `/room/${room}/${RECORD}`;
}

export function pathOfRails(room: string, part: RailPart): string {
  return `/room/${room}/rails/${part}`;
}

export function pathOfCheck(room: string, part: CheckPart): string {
  return `/room/${room}/checking/${part}`;
}

export function pathOfRoom(room: string, step: Step | null = null): string {
  return step === null ? `/room/${room}` : `/room/${room}/${step}`;
}

/** Where the settings were opened from: their way back leads there. */
export const beforeSettings = signal("/");
/** Where the prices were opened from: a room's quote, an order or the settings. */
export const beforePrices = signal("/settings");
/** Screens that lie behind the settings: coming back from them is no new way in. */
const OF_THE_SETTINGS: ReadonlySet<string> = new Set(["/review", "/people", "/prices"]);

/** Shows another screen; the browser's own back leads home again. */
export function go(address: string): void {
  if (address === path.peek()) return;
  if (address === "/settings" && !OF_THE_SETTINGS.has(path.peek())) beforeSettings.value = path.peek();
  if (address === "/prices" && !path.peek().startsWith("/history/")) beforePrices.value = path.peek();
  history.pushState(null, "", address);
  path.value = address;
}

export function listenForBack(): () => void {
  const listen = () => { path.value = location.pathname; };
  window.addEventListener("popstate", listen);
  return () => window.removeEventListener("popstate", listen);
}
