/** A sign for how a milestone stands: a shape of its own for each, so that no colour is needed to tell them apart. */
import type { WaitState } from "./standing";

const EYE = "M2 24C10 11 17 8 24 8s14 3 22 16C38 37 31 40 24 40S10 37 2 24ZM24 15a9 9 0 1 0 0.01 0Z";
const SHAPES: Readonly<Record<WaitState, string>> = {
  not_placed: "M8 20H40V28H8Z",
  waiting: "M9 3H39V9L28 24L39 39V45H9V39L20 24L9 9ZM17 9L24 18.5L31 9Z",
  may_be_ready: EYE,
  should_be_ready: `${EYE}M24 19.5a4.5 4.5 0 1 0 0.01 0Z`,
  ticked: "M4 26L11 18L19 27L38 7L45 14L19 41Z",
  never: "M10 4L24 18L38 4L44 10L30 24L44 38L38 44L24 30L10 44L4 38L18 24L4 10Z",
};

export function Sign({ state }: { state: WaitState }) {
  return <svg class="sign wait-sign" viewBox="0 0 48 48" aria-hidden="true"><path fill-rule="evenodd" d={SHAPES[state]} /></svg>;
}
