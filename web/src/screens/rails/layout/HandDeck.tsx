/** The rail in hand: what it is, what it breaks, and everything a finger can do to it, by buttons. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { RailLine } from "../../../wire";
import { t } from "../../../words";
import { cautionText } from "../../common/plan";
import type { Break } from "./breaks";
import { lengthened, movedAcross, SHORTEST, withLine, withoutLine, type End } from "./lines";
import { sidesOf, stepOf, stepText, type Pace, type Side } from "./moves";
import { lengthOf, railsOfLine } from "./shown";
import type { Lines } from "./useLines";

const ENDS = ["from", "to"] as const;
const PACES = ["coarse", "fine"] as const;

interface HandDeckProps {
  readonly laid: Lines;
  readonly line: RailLine;
  /** The worst of what it breaks, or of what the others do. */
  readonly worst: Break | null;
  readonly onSplit: () => void;
  readonly onDone: () => void;
}

interface Moving {
  readonly line: RailLine;
  readonly by: number;
  readonly onLine: (to: (line: RailLine) => RailLine) => void;
}

/** Arrow keys move the rail in hand where nothing else wants them. */
function useArrowKeys(sides: readonly Side[], move: (side: Side) => void): void {
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      const side = sides.find(({ key }) => key === event.key);
      const place = event.target instanceof Element ? event.target : null;
      if (!side || (place?.closest("dialog, input, textarea, select") ?? null) !== null) return;
      event.preventDefault();
      move(side);
    };
    document.addEventListener("keydown", pressed);
    return () => document.removeEventListener("keydown", pressed);
  });
}

function Across({ line, by, onLine }: Moving) {
  const sides = sidesOf(line);
  const move = ({ sign }: Side) => onLine((one) => movedAcross(one, sign * by));
  useArrowKeys(sides, move);
  return (
    <>
      {sides.map((side) => (
        <button key={side.sign} type="button" class="button arrow" aria-label={t(side.words, { by })} data-testid={side === sides[0] ? "nudge-back" : "nudge-on"} onClick={() => move(side)}>{side.arrow}</button>
      ))}
    </>
  );
}

function EndOf({ line, by, end, onLine }: Moving & { end: End }) {
  const number = ENDS.indexOf(end) + 1;
  const draw = (way: 1 | -1) => onLine((one) => lengthened(one, end, way * by));
  return (
    <div class="end-of" role="group" aria-label={t("lay.end", { end: number })}>
      <span class="end-name" aria-hidden="true">{t("lay.end", { end: number })}</span>
      <button type="button" class="button arrow" aria-label={t("lay.shorter", { end: number, by })} data-testid={`shorter-${number}`} disabled={lengthOf(line) <= SHORTEST} onClick={() => draw(-1)}>{"\u2212"}</button>
      <button type="button" class="button arrow" aria-label={t("lay.longer", { end: number, by })} data-testid={`longer-${number}`} onClick={() => draw(1)}>+</button>
    </div>
  );
}

/** Its figures, or the worst of what it breaks. */
function Standing({ laid, line, worst }: Pick<HandDeckProps, "laid" | "line" | "worst">) {
  const rails = railsOfLine(laid.told, line, laid.rails);
  const stations = rails.reduce((sum, rail) => sum + rail.stations.length, 0);
  const moves = rails.reduce((sum, rail) => sum + Math.max(0, rail.settings.length - 1), 0);
  return (
    <div class={worst ? "standing warns small" : "standing"} role="status" data-testid="hand-standing">
      <strong>{t("lay.hand", { rail: line.id, length: lengthOf(line) })}</strong>
      <span>{worst ? cautionText(worst.caution) : t("lay.hand_more", { stations, moves })}</span>
    </div>
  );
}

export function HandDeck({ laid, line, worst, onSplit, onDone }: HandDeckProps) {
  const [pace, setPace] = useState<Pace>("coarse");
  const deck = useRef<HTMLDivElement>(null);
  useEffect(() => deck.current?.scrollIntoView({ block: "nearest" }), [line.id]);
  const moving: Moving = {
    line, by: stepOf(pace),
    onLine: (to) => laid.change((lines) => lines.reduce((changed, one) => (one.id === line.id ? withLine(changed, to(one)) : changed), lines)),
  };
  return (
    <div class="rail-deck" ref={deck} data-testid="rail-deck">
      <div class="deck-head">
        <Standing laid={laid} line={line} worst={worst} />
        <button type="button" class="button" data-testid="hand-done" onClick={onDone}>{t("lay.done")}</button>
      </div>
      <div class="deck-moves">
        {PACES.map((one) => <button key={one} type="button" class="button" aria-pressed={pace === one} aria-label={t("lay.pace", { by: stepOf(one) })} data-testid={`pace-${one}`} onClick={() => setPace(one)}>{stepText(one)}</button>)}
        <Across {...moving} />
      </div>
      <div class="deck-ends">{ENDS.map((end) => <EndOf key={end} {...moving} end={end} />)}</div>
      <div class="row even">
        <button type="button" class="button" data-testid="split-rail" onClick={onSplit}>{t("lay.split")}</button>
        <button type="button" class="button danger" data-testid="delete-rail" onClick={() => { laid.change((lines) => withoutLine(lines, line.id)); onDone(); }}>{t("lay.delete")}</button>
      </div>
    </div>
  );
}
