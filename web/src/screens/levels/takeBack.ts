/** The one undo while the floor or the bed is read: the rod goes back to where the reading that was taken back stood. */
import { useEffect, useRef } from "preact/hooks";
import { canUndo, readingsAt, readingsOf, setDraft, undo, type Row } from "../../state";
import type { Stage } from "../../wire";
import { saved } from "../common/saving";
import { offerStepBack } from "../common/stepBack";
import { draftFromTarget, draftOfReadPlace, targetDraft } from "./round";
import type { Work } from "./work";

/** The one reading that is there no more; null where it was several, or a correction, which leaves the reading before it. */
function goneFrom(before: readonly Row<"reading">[], after: readonly Row<"reading">[]): Row<"reading"> | null {
  const gone = before.filter(({ id }) => !after.some((row) => row.id === id));
  return after.length === before.length - 1 ? (gone[0] ?? null) : null;
}

/** Takes back what was done last; where that was a reading, its place is read next. */
async function takeBack(room: string, stage: Stage): Promise<void> {
  const readings = () => readingsAt(readingsOf(room).peek(), stage);
  const before = readings();
  if (!(await saved(undo()))) return;
  const { at, mark } = goneFrom(before, readings())?.fields ?? {};
  if (at) await setDraft(targetDraft(room, stage), draftOfReadPlace(at));
  else if (mark) await setDraft(targetDraft(room, stage), draftFromTarget({ mark }));
}

export function useTakeBack({ room: { id }, stage }: Work): void {
  const can = canUndo.value;
  const turn = useRef<Promise<void>>(Promise.resolve()); // each knows what the one before took back
  useEffect(() => {
    const step = () => { turn.current = turn.current.then(() => takeBack(id, stage), () => takeBack(id, stage)); };
    return offerStepBack(can ? step : null);
  }, [id, stage, can]);
}
