/** A foreman's wish on its way to the office: one at a time, and what the office said where it did not do it. */
import { useState } from "preact/hooks";
import type { Answer } from "../../state";
import { notDoneText } from "./outcomes";

export interface Wish {
  readonly isAsking: boolean;
  readonly failure: string | null;
  /** Asks, and gives what the office answered. */
  readonly ask: <A extends Answer>(work: () => Promise<A>) => Promise<A>;
}

export function useWish(): Wish {
  const [isAsking, setAsking] = useState(false);
  const [failure, setFailure] = useState<string | null>(null);
  const ask = async <A extends Answer>(work: () => Promise<A>): Promise<A> => {
    setAsking(true);
    const answer = await work();
    setAsking(false);
    setFailure(notDoneText(answer));
    return answer;
  };
  return { isAsking, failure, ask };
}

export function Failure({ wish }: { wish: Wish }) {
  return wish.failure === null ? null : <p class="caution" role="alert" data-testid="not-done">{wish.failure}</p>;
}
