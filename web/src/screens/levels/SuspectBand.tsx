/** Over the keys, while a reading looks mis-read: what was expected, what may have happened, and one tap to read again. */
import { mayWrite, setDraft } from "../../state";
import { t, told } from "../../words";
import { saved } from "../common/saving";
import { draftFromTarget, targetDraft } from "./round";
import { againFor, suspectsIn, trust } from "./suspects";
import type { Work } from "./work";

export function SuspectBand({ work: { room, stage, readings } }: { work: Work }) {
  const suspect = suspectsIn(room, readings)[0];
  const row = readings.find(({ id }) => id === suspect?.reading);
  if (!suspect || !row) return null;
  const down = row.fields.down ?? 0;
  const text = t(row === readings.at(-1) ? "suspect.last" : "suspect.line", { down, expected: down + suspect.difference, by: Math.abs(suspect.difference) });
  const again = () => void saved(setDraft(targetDraft(room.id, stage), draftFromTarget({ again: againFor(room, row) })));
  return (
    <div class="suspect-band" role="status" data-testid="suspect">
      <p>{text} {suspect.slip && told("slip", suspect.slip.kind, {}, "")}</p>
      {mayWrite.value && (
        <>
          <button type="button" class="button" data-testid="suspect-again" onClick={again}>{t("suspect.again")}</button>
          <button type="button" class="button" data-testid="suspect-right" onClick={() => void saved(trust(room.id, row.id))}>{t("suspect.right")}</button>
        </>
      )}
    </div>
  );
}
