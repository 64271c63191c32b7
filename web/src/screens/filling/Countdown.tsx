/** How long the oldest batch can still be used: one giant figure, told by words and a shape as well as by colour. */
import { t } from "../../words";
import { batchState, type BatchState, type FreshBatch } from "../common/filled";
import { useNow } from "../common/useNow";
import { countdownOf } from "./countdownOf";

const SHAPES: Readonly<Record<BatchState, string>> = {
  fresh: "M24 4a20 20 0 1 0 0.01 0Z",
  soon: "M24 4L46 43H2Z",
  late: "M10 4L24 18L38 4L44 10L30 24L44 38L38 44L24 30L10 44L4 38L18 24L4 10Z",
};

function Sign({ state }: { state: BatchState }) {
  return <svg class="sign" viewBox="0 0 48 48" aria-hidden="true"><path d={SHAPES[state]} /></svg>;
}

export function Countdown({ batch }: { batch: FreshBatch }) {
  const now = useNow();
  const state = batchState(batch, now);
  const { minutes, seconds } = countdownOf(batch.useBy - now);
  return (
    <div class={`countdown ${state}`} role="timer" data-testid="countdown" data-state={state}>
      <Sign state={state} />
      <p class="number" data-testid="countdown-left">{minutes}<span class="part">:{seconds}</span></p>
      <p class="label">{t(state === "late" ? "filling.minutes_over" : "filling.minutes_left", { at: batch.mixedAt })}</p>
      <p class="say" data-testid="countdown-say"><strong>{t(`batch_state.${state}`)}</strong> <span>{t(`filling.batch_${state}_by`, { by: new Date(batch.useBy).toISOString() })}</span></p>
    </div>
  );
}

/** Where no batch waits: how long the next one will last. */
export function NoBatch({ hours }: { hours: number }) {
  return (
    <div class="countdown none" data-testid="countdown" data-state="none">
      <p class="number" data-testid="countdown-left">{Math.round(hours * 60)}</p>
      <p class="label">{t("filling.minutes_last")}</p>
      <p class="say" data-testid="countdown-say"><strong>{t("batch_state.none")}</strong></p>
    </div>
  );
}
