/** The keys while a long level is laid from place to place: the gap under one end, then on to the next place by itself. */
import { useRef } from "preact/hooks";
import { addLaying } from "../../state";
import { t } from "../../words";
import { distance } from "../../drawing/camera";
import { Choice } from "../common/Choice";
import { Entry } from "../common/Entry";
import { saved } from "../common/saving";
import { forgetLaying, gapDraft, layingIn, putGapUnder } from "./laying";
import { instrumentIn } from "./names";
import type { Work } from "./work";

export function LayingEntry({ work, laying: id }: { work: Work; laying: string }) {
  const { room } = work;
  const busy = useRef(false);
  const laying = layingIn(work);
  const instrument = instrumentIn(room.fields, id);
  const done = (gap: number, typed: string) => {
    if (!laying?.to || !instrument || busy.current) return;
    busy.current = true;
    const taken = addLaying(room.id, { ...laying, to: laying.to, instrument, gap, typed }, { draft: gapDraft(room.id) });
    void saved(taken.then(() => forgetLaying(room.id))).then(() => { busy.current = false; });
  };
  const what = laying?.to ? t("laying.here", { long: distance(laying.from, laying.to), done: work.round.done, of: work.round.of }) : t("laying.tap");
  return (
    <>
      <Choice
        label={t("laying.under")} name="gap" quiet value={laying?.under ?? "to"} onChoose={(under) => putGapUnder(work, under)}
        options={[{ value: "from", label: t("laying.under_from") }, { value: "to", label: t("laying.under_to") }]}
      />
      <Entry what={what} draft={gapDraft(room.id)} measure="length" goesOn asleep={!laying?.to} nextLabel={t("keys.next")} onDone={done} />
    </>
  );
}
