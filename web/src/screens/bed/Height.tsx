/** One height under the thumb: a step of the tape a tap, or dragged along the slider, or typed. */
import { useState } from "preact/hooks";
import { mayWrite, preferences } from "../../state";
import { heightText } from "../../units";
import { reader, t } from "../../words";
import { Giant } from "../common/Figure";
import { sayOnlyLooks } from "../common/saving";
import { ValueSheet } from "../common/ValueField";
import { steppedHeight } from "./steps";

const EIGHTH = 25.4 / 8;
const TWO_MM = 2;
const REACH = 24; // steps of the slider up and down from where the top may lie at its lowest

interface HeightProps {
  readonly name: string;
  /** Null while it is not known: it can be typed even then. */
  readonly height: number | null;
  /** About where the slider lies: the lowest top that keeps the least thickness, z. */
  readonly middle: number;
  /** Lets the top find its lowest height; null where it has none of its own. */
  readonly onLowest: (() => void) | null;
  readonly isLowest: boolean;
  readonly onHeight: (height: number) => void;
}

export function thumbStep(): number {
  return preferences.value.units === "imperial" ? EIGHTH : TWO_MM;
}

/** The slider reaches `REACH` steps each way; a height beyond stands at its end, so that a step stays a step. */
function Slider({ height, middle, onHeight }: { height: number; middle: number; onHeight: (height: number) => void }) {
  const step = thumbStep();
  const centre = Math.round(middle / step);
  return (
    <input
      type="range" class="slide" min={centre - REACH} max={centre + REACH} step={1} value={Math.round(height / step)}
      aria-label={t("bed.slide")} aria-valuetext={heightText(height, reader.value)} data-testid="top-slider"
      onInput={(event) => onHeight(Number(event.currentTarget.value) * step)}
    />
  );
}

function Shown({ name, height, onHeight }: Pick<HeightProps, "name" | "height" | "onHeight">) {
  const [open, setOpen] = useState(false);
  const text = height === null ? t("not_known") : heightText(height, reader.value);
  const typed = (to: number) => { onHeight(to); setOpen(false); };
  return (
    <>
      <button type="button" class="shown" aria-label={t("bed.top_typed", { height: text })} data-testid="field-top-height" onClick={() => { if (mayWrite.value) setOpen(true); else sayOnlyLooks(); }}>
        <span class={height === null ? "quiet" : "number"} aria-live="polite" data-testid="top-shown">{height === null ? text : <Giant text={text} />}</span>
      </button>
      {open && <ValueSheet name={name} label={t("bed.type_height")} note={t("bed.type_more")} shown={text} measure="length" signed onValue={typed} onClose={() => setOpen(false)} />}
    </>
  );
}

export function Height(props: HeightProps) {
  const { height, middle, isLowest, onLowest, onHeight } = props;
  const move = (way: 1 | -1) => { if (height !== null) onHeight(steppedHeight(height, way, thumbStep())); };
  return (
    <>
      <div class="stepper">
        <button type="button" class="button" disabled={height === null} aria-label={t("bed.lower")} data-testid="top-down" onClick={() => move(-1)}>{"\u2212"}</button>
        <Shown {...props} />
        <button type="button" class="button" disabled={height === null} aria-label={t("bed.raise")} data-testid="top-up" onClick={() => move(1)}>+</button>
      </div>
      <div class="deck-row">
        <Slider height={height ?? middle} middle={middle} onHeight={onHeight} />
        {onLowest && <button type="button" class="button" aria-pressed={isLowest} data-testid="top-lowest" onClick={onLowest}>{t("bed.to_lowest")}</button>}
      </div>
    </>
  );
}
