/** What is waited for next, to be read standing: the sign, the hours left in giant figures, the window in words. */
import type { WaitingAnswer } from "../../wire";
import { t, told } from "../../words";
import { useNow } from "../common/useNow";
import { LooksKey } from "./LooksKey";
import { Sign } from "./Sign";
import { leftUntil, milestonesOf, nextOf, type Left, type Milestone } from "./standing";
import { betweenText, likelyText } from "./windowText";

const EVERY_MS = 5000;

function LeftFigures({ left }: { left: Left }) {
  return (
    <p class="number" data-testid="next-left">
      {left.parts.map(({ figure, unit }, index) => (
        <span key={unit} class={index === 0 ? "whole" : "part"}>{figure}<span class="unit">{t(`waiting.left_${unit}`)}</span></span>
      ))}
    </p>
  );
}

function Countdown({ room, one, now }: { room: string; one: Milestone; now: number }) {
  const left = one.likely === null ? null : leftUntil(Date.parse(one.likely), now);
  return (
    <section class={`next ${one.state}`} data-testid="next" data-milestone={one.milestone} data-state={one.state}>
      <Sign state={one.state} />
      <div class="next-what">
        <h3 data-testid="next-name">{t("waiting.next", { milestone: told("milestone", one.milestone, {}, one.milestone) })}</h3>
        <p class="state-words" data-testid="next-state">{t(`wait_state.${one.state}`)}</p>
      </div>
      {left && <div class="next-left" role="timer"><LeftFigures left={left} /><p class="label">{t(left.isPast ? "waiting.left_past" : "waiting.left_until")}</p></div>}
      <p class="next-window" data-testid="next-window"><strong>{likelyText(one)}</strong>{" "}<span>{betweenText(one)}</span></p>
      <LooksKey room={room} one={one} isNext />
    </section>
  );
}

export function Next({ room, answer }: { room: string; answer: WaitingAnswer }) {
  const now = useNow(EVERY_MS);
  const next = nextOf(milestonesOf(room, answer, now));
  if (next === null) return <p class="notice good" data-testid="all-ticked">{t("waiting.all_ticked")}</p>;
  return answer.placed_at === null ? null : <Countdown room={room} one={next} now={now} />;
}
