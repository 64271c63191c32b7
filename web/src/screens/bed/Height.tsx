/** One height under the thumb: a step of the tape a tap, or dragged along the slider, or typed. */
import { preferences } from "../../state";
import { heightText } from "../../units";
import { reader, t } from "../../words";
import { ValueField } from "../common/ValueField";
import { steppedHeight } from "./steps";

const EIGHTH = 25.4 / 8;
const TWO_MM = 2;
const REACH = 24; // steps of the slider up and down from where the top may lie at its lowest

interface HeightProps {
  readonly name: string;
  readonly height: number;
  /** About where the slider lies: the lowest top that keeps the least thickness, z. */
  readonly middle: number;
  readonly onHeight: (height: number) => void;
}

export function thumbStep(): number {
  return preferences.value.units === "imperial" ? EIGHTH : TWO_MM;
}

function Slider({ height, middle, onHeight }: HeightProps) {
  const step = thumbStep();
  const at = Math.round(height / step);
  const from = Math.min(at, Math.round(middle / step) - REACH);
  const to = Math.max(at, Math.round(middle / step) + REACH);
  return (
    <input
      type="range" class="slider" min={from} max={to} step={1} value={at} aria-label={t("bed.slide")} aria-valuetext={heightText(height, reader.value)} data-testid="top-slider"
      onInput={(event) => onHeight(Number(event.currentTarget.value) * step)}
    />
  );
}

export function Height(props: HeightProps) {
  const { name, height, onHeight } = props;
  const move = (way: 1 | -1) => onHeight(steppedHeight(height, way, thumbStep()));
  return (
    <div class="stack tight">
      <div class="stepper">
        <button type="button" class="button" aria-label={t("bed.lower")} data-testid="top-down" onClick={() => move(-1)}>{"\u2212"}</button>
        <output class="shown" aria-live="polite"><span class="number" data-testid="top-shown">{heightText(height, reader.value)}</span></output>
        <button type="button" class="button" aria-label={t("bed.raise")} data-testid="top-up" onClick={() => move(1)}>+</button>
      </div>
      <Slider {...props} />
      <ValueField name={name} label={t("bed.type_height")} shown={heightText(height, reader.value)} measure="length" signed onValue={onHeight} />
    </div>
  );
}
