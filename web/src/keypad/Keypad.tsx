/** The pad itself: digits at the left, the tape's sixteenths at the right; or digits alone for mm and plain numbers. */
import type { RefObject } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { t } from "../words";
import { keyFromKeyboard, type Key } from "./keys";

export type PadKind = "feet" | "metric" | "number";

export interface KeypadProps {
  readonly kind: PadKind;
  readonly signed: boolean;
  readonly canFinish: boolean;
  readonly nextLabel: string;
  readonly onKey: (key: Key) => void;
}

const FEET_ROWS: readonly (readonly Key[])[] = [
  ["7", "8", "9", "part-1", "part-2", "part-3"],
  ["4", "5", "6", "part-4", "part-5", "part-6"],
  ["1", "2", "3", "part-7", "part-8", "part-9"],
  ["feet", "0", "back", "part-10", "part-11", "part-12"],
  ["minus", "next", "part-13", "part-14", "part-15"],
];
const PLAIN_ROWS: readonly (readonly Key[])[] = [
  ["7", "8", "9", "back"],
  ["4", "5", "6", "minus"],
  ["1", "2", "3", "next"],
  ["0", "point"],
];

function partLabel(key: Key): string {
  let [over, under] = [Number(key.slice(5)), 16];
  while (over % 2 === 0) [over, under] = [over / 2, under / 2];
  return `${over}/${under}`;
}

function faceOf(key: Key, nextLabel: string): string {
  if (key === "feet") return `\u2032 ${t("keys.feet")}`;
  if (key === "back") return "\u232b";
  if (key === "minus") return "\u2212";
  if (key === "point") return ".";
  if (key === "next") return nextLabel;
  return key.startsWith("part-") ? partLabel(key) : key;
}

function spokenOf(key: Key, nextLabel: string): string {
  if (key === "back") return t("keys.back");
  if (key === "minus") return t("keys.minus");
  if (key === "point") return t("keys.point");
  if (key === "feet") return t("keys.feet_spoken");
  return faceOf(key, nextLabel);
}

function classOf(key: Key, nextLabel: string): string {
  if (key.startsWith("part-")) return `key part of-${partLabel(key).split("/")[1] ?? "16"}`;
  if (key === "0") return "key zero";
  if (key === "next") return nextLabel.length > 9 ? "key next long" : "key next";
  return /^\d$/.test(key) ? "key" : "key tool";
}

function isTypingElsewhere(target: EventTarget | null): boolean {
  return target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement;
}

/** Keys of a keyboard go to the pad of the sheet that lies on top. */
function isCovered(pad: HTMLElement | null): boolean {
  const sheet = [...document.querySelectorAll("dialog[open]")].at(-1);
  return sheet !== undefined && !sheet.contains(pad);
}

function useKeyboard(pad: RefObject<HTMLDivElement | null>, onKey: (key: Key) => void): void {
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      const key = keyFromKeyboard(event.key);
      const onButton = event.target instanceof HTMLButtonElement && event.key === "Enter";
      if (key === null || isTypingElsewhere(event.target) || onButton || event.ctrlKey || event.metaKey || event.altKey || isCovered(pad.current)) return;
      event.preventDefault();
      onKey(key);
    };
    window.addEventListener("keydown", listen);
    return () => window.removeEventListener("keydown", listen);
  }, [onKey]);
}

function isAsleep(key: Key, props: KeypadProps): boolean {
  if (key === "minus") return !props.signed;
  return key === "next" && !props.canFinish;
}

export function Keypad(props: KeypadProps) {
  const pad = useRef<HTMLDivElement>(null);
  useKeyboard(pad, props.onKey);
  const rows = props.kind === "feet" ? FEET_ROWS : PLAIN_ROWS;
  return (
    <div ref={pad} class={`keypad ${props.kind}`} role="group" aria-label={t("keys.pad")} data-testid="keypad">
      {rows.flat().map((key) => (
        <button
          key={key}
          type="button"
          class={classOf(key, props.nextLabel)}
          aria-label={spokenOf(key, props.nextLabel)}
          data-testid={`key-${key}`}
          disabled={isAsleep(key, props)}
          onClick={() => props.onKey(key)}
        >
          {faceOf(key, props.nextLabel)}
        </button>
      ))}
    </div>
  );
}
