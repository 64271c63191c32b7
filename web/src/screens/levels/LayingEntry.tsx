/** The keys while a long level is laid from place to place: the gap under one end, then on to the next place by itself. */
import { useEffect, useRef, useState } from "preact/hooks";
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
  const [, setSaved] = useState(0);
  const early = useRef<{ readonly gap: number; readonly typed: string } | null>(null);
  const laying = layingIn(work);
  const instrument = instrumentIn(room.fields, id);
  const done = (gap: number, typed: string) => {
    if (!laying?.to || !instrument) return;
    if (busy.current) { early.current = { gap, typed }; return; }
    busy.current = true;
    const taken = addLaying(room.id, { ...laying, to: laying.to, instrument, gap, typed, stage: work.stage }, { draft: gapDraft(work) });
    void saved(taken.then(() => forgetLaying(work))).then(() => { busy.current = false; setSaved((count) => count + 1); });
  };
  // A gap typed while the one before it was on its way into storage is the next laying's.
  useEffect(() => {
    const next = early.current;
    if (next === null || busy.current || !laying?.to) return;
    early.current = null;
    done(next.gap, next.typed);
  });
  const what = laying?.to ? t("laying.here", { long: distance(laying.from, laying.to), done: work.round.done, of: work.round.of }) : t("laying.tap");
  const under = laying?.under ?? "to";
  return (
    <Entry
      what={what} draft={gapDraft(work)} measure="length" goesOn asleep={!laying?.to} nextLabel={t("keys.next")} onDone={done}
      beside={<button type="button" class="button" data-testid="gap-end" onClick={() => putGapUnder(work, under === "to" ? "from" : "to")}>{t(`laying.under_${under}`)}{" \u21c4"}</button>}
    />
  );
}
