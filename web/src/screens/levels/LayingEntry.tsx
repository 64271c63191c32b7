/** The keys while a long level is laid from place to place: the gap under one end, then on to the next place by itself. */
import { useRef } from "preact/hooks";
import { addLaying } from "../../state";
import { t } from "../../words";
import { distance } from "../../drawing/camera";
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
  const under = laying?.under ?? "to";
  return (
    <Entry
      what={what} draft={gapDraft(room.id)} measure="length" goesOn asleep={!laying?.to} nextLabel={t("keys.next")} onDone={done}
      beside={<button type="button" class="button" data-testid="gap-end" onClick={() => putGapUnder(work, under === "to" ? "from" : "to")}>{t(`laying.under_${under}`)}{" \u21c4"}</button>}
    />
  );
}
