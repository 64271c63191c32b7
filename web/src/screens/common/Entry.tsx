/** A value being typed: what it is, what stands there so far, and the pad. Every key press is kept as a draft. */
import { useCallback } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { Keypad, type PadKind } from "../../keypad/Keypad";
import { press, shownText, typedLength, type Key } from "../../keypad/keys";
import { pressNumber, shownNumber, typedNumber } from "../../keypad/number";
import { getDraft, preferences, setDraft } from "../../state";
import type { Units } from "../../units";
import { t } from "../../words";

export interface EntryProps {
  readonly what: string;
  readonly draft: string;
  readonly measure: "length" | "number";
  readonly signed?: boolean;
  readonly goesOn?: boolean;
  readonly nextLabel?: string;
  readonly note?: string;
  readonly beside?: ComponentChildren;
  readonly asleep?: boolean;
  readonly onDone: (value: number, typed: string) => void;
}

function padKind(measure: "length" | "number", units: Units): PadKind {
  if (measure === "number") return "number";
  return units === "imperial" ? "feet" : "metric";
}

function valueOf(text: string, measure: "length" | "number", units: Units): number | null {
  return measure === "number" ? typedNumber(text) : typedLength(text, units);
}

export function Entry(props: EntryProps) {
  const { units } = preferences.value;
  const { measure, draft, signed = false, goesOn = false, asleep = false, onDone } = props;
  const text = getDraft(draft) ?? "";
  const pressed = useCallback((key: Key) => {
    if (asleep) return;
    const typed = getDraft(draft) ?? "";
    const after = measure === "number" ? pressNumber(typed, key, signed) : press(typed, key, { units, signed, goesOn });
    if (after.text !== typed) void setDraft(draft, after.text);
    const value = after.finished ? valueOf(after.text, measure, units) : null;
    if (value !== null) onDone(value, after.text);
  }, [draft, measure, units, signed, goesOn, asleep, onDone]);
  const shown = measure === "number" ? shownNumber(text) : shownText(text, units);
  return (
    <div class="stack tight">
      <div class="entry">
        <div>
          <p class="what" data-testid="entry-what">{props.what}</p>
          <p class={shown ? "typed" : "typed empty"} data-testid="typed" aria-live="polite">{shown}</p>
        </div>
        {props.beside}
      </div>
      {props.note !== undefined && <p class="entry-note" role="status">{props.note}</p>}
      <Keypad kind={padKind(measure, units)} signed={signed} canFinish={!asleep && valueOf(text, measure, units) !== null} nextLabel={props.nextLabel ?? t("keys.next")} onKey={pressed} />
    </div>
  );
}
