/** Which end: two large buttons that stand as the ends do on the drawing, each with a picture of what it means. */
import type { Place } from "../../../drawing/camera";
import { t } from "../../../words";
import { arrowTo, isTurned } from "./arrows";
import { offFrom, type End, type Way } from "./reading";

const WIDE = 96;
const HIGH = 34;
const TILT = 7;

/** A level on its two ends, seen from the side; the strip under it falls away from the high end. */
function Picture({ way, high, under, labels }: { way: Way; high: "left" | "right"; under: "left" | "right"; labels: readonly [string, string] }) {
  const left = high === "left" ? HIGH - 8 - TILT : HIGH - 8;
  const right = high === "right" ? HIGH - 8 - TILT : HIGH - 8;
  const top = Math.min(left, right);
  const [levelLeft, levelRight] = way === "gap" ? [top, top] : [left, right];
  const bubble = way === "gap" ? WIDE / 2 : high === "left" ? WIDE * 0.3 : WIDE * 0.7;
  const at = under === "left" ? 16 : WIDE - 16;
  const middle = levelLeft + ((levelRight - levelLeft) * (bubble - 8)) / (WIDE - 16) - 5;
  return (
    <svg class="level-picture" viewBox={`0 0 ${WIDE} ${HIGH}`} aria-hidden="true">
      <path class="strip" d={`M2 ${left}L${WIDE - 2} ${right}v6L2 ${left + 6}z`} />
      <path class="level" d={`M8 ${levelLeft - 10}L${WIDE - 8} ${levelRight - 10}v9L8 ${levelLeft - 1}z`} />
      <ellipse class="bubble" cx={bubble} cy={middle} rx={7} ry={3} />
      {way === "gap" && <path class="gap-mark" d={`M${at} ${top + 1}v${TILT - 1}M${at - 4} ${top + 1}h8`} />}
      <text x={4} y={9}>{labels[0]}</text>
      <text x={WIDE - 4} y={9} text-anchor="end">{labels[1]}</text>
    </svg>
  );
}

interface EndButtonsProps {
  readonly way: Way;
  readonly end: End | "";
  readonly ends: readonly [from: Place, to: Place];
  readonly onEnd: (end: End) => void;
}

export function EndButtons({ way, end, ends: [from, to], onEnd }: EndButtonsProps) {
  const isToFirst = isTurned(from, to);
  const order: readonly End[] = isToFirst ? ["to", "from"] : ["from", "to"];
  const numberOf = (one: End) => (one === "from" ? "1" : "2");
  const labels = [numberOf(order[0] ?? "from"), numberOf(order[1] ?? "to")] as const;
  return (
    <div class="ends" role="group" aria-label={t(`truing.which_${way}`)}>
      {order.map((one, place) => {
        const isHigh = (offFrom(1, way, one) ?? 0) > 0 ? "to" : "from";
        const arrow = one === "to" ? arrowTo(from, to) : arrowTo(to, from);
        return (
          <button key={one} type="button" class="button end" aria-pressed={end === one} data-testid={`end-${one}`} onClick={() => onEnd(one)}>
            <Picture way={way} high={order.indexOf(isHigh) === 0 ? "left" : "right"} under={place === 0 ? "left" : "right"} labels={labels} />
            <span>{t(`truing.end_${way}`, { end: numberOf(one), arrow })}</span>
          </button>
        );
      })}
    </div>
  );
}
