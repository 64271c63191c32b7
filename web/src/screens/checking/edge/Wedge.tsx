/** What a wedge shows under the straightedge that lies there: typed with the pad, judged against the limit at once. */
import { useState } from "preact/hooks";
import { addGap, gapsOf, mayWrite, type Row } from "../../../state";
import { distance, type Place } from "../../../drawing/camera";
import type { StraightedgeAnswer } from "../../../wire";
import { t } from "../../../words";
import { Dialog } from "../../common/Dialog";
import { Entry } from "../../common/Entry";
import { gapText, ruleText, SIGNS } from "../../common/flatness";
import { saved, sayOnlyLooks } from "../../common/saving";
import { PassedOver } from "../PassedOver";
import { gapFault } from "../gapFault";
import { lengthOf, type Edge } from "./laid";

interface SheetProps {
  readonly room: string;
  readonly edge: Edge;
  /** Where it stood open most, where that is known. */
  readonly at: Place | null;
  readonly isPassedOver?: boolean;
  readonly onKept: () => void;
  readonly onClose: () => void;
}

interface WedgeProps {
  readonly room: string;
  readonly edge: Edge;
  /** Null while the engine reckons: the gap is kept all the same. */
  readonly answer: StraightedgeAnswer | null;
  /** Gaps that count no more, as the bed under them was worked over. */
  readonly outdated: ReadonlySet<string>;
}

const ONE_PLACE = 1; // mm

function wedgeDraft(room: string): string {
  return `wedge:${room}`;
}

/** The newest gap measured where the straightedge lies now. */
function measuredHere(gaps: readonly Row<"gap">[], edge: Edge): Row<"gap"> | undefined {
  return gaps.filter(({ fields: { from, to } }) => from && to && distance(from, edge.from) <= ONE_PLACE && distance(to, edge.to) <= ONE_PLACE).at(-1);
}

/** Against the limit for its length, as the engine told it. */
function Said({ gap, limit }: { gap: number; limit: number | null | undefined }) {
  const verdict = limit === undefined || limit === null ? null : gap <= limit ? "within" : "beyond";
  const more = limit === undefined ? t("engine.computing") : verdict === null ? t("checking.no_limit") : t(`checking.wedge_${verdict}`, { limit: gapText(limit ?? 0) });
  return (
    <div class={`verdict ${verdict ?? ""}`} role="status" data-testid="wedge-verdict" data-verdict={verdict ?? ""}>
      <span class="sign" aria-hidden="true">{verdict === null ? SIGNS.not_read : SIGNS[verdict]}</span>
      <p class="words">{t("checking.measured", { gap: gapText(gap) })}</p>
      <p class="more">{more}</p>
    </div>
  );
}

/** The keys for the gap; one that cannot be stays typed. */
export function WedgeSheet({ room, edge, at, isPassedOver = false, onKept, onClose }: SheetProps) {
  const [fault, setFault] = useState<string | null>(null);
  const long = lengthOf(edge);
  const keep = (gap: number, typed: string) => {
    const found = gapFault(gap, long);
    setFault(found);
    if (found !== null) return;
    const told = { ...(at ? { at } : {}), ...(isPassedOver ? { passed_over: true } : {}) };
    void saved(addGap(room, { from: edge.from, to: edge.to, gap, ...told, typed: { gap: typed } }, { draft: wedgeDraft(room) })).then((isSaved) => { if (isSaved) onKept(); });
  };
  return (
    <Dialog title={t("checking.wedge")} testid="wedge" onClose={onClose}>
      <p class="quiet">{t(isPassedOver ? "checking.wedge_worst" : "checking.wedge_how")}</p>
      <Entry what={t("checking.gap_under", { rule: ruleText(long) })} draft={wedgeDraft(room)} measure="length" goesOn nextLabel={t("keys.set")} onDone={keep} {...(fault === null ? {} : { note: fault })} />
    </Dialog>
  );
}

export function Wedge({ room, edge, answer, outdated }: WedgeProps) {
  const [typing, setTyping] = useState(false);
  const here = measuredHere(gapsOf(room).value.filter(({ id }) => !outdated.has(id)), edge);
  const begin = () => { if (mayWrite.value) setTyping(true); else sayOnlyLooks(); };
  const close = () => setTyping(false);
  return (
    <>
      {here && <Said gap={here.fields.gap ?? 0} limit={answer ? answer.limit : undefined} />}
      <button type="button" class="button main wide" data-testid="type-gap" onClick={begin}>{t(here ? "checking.type_another" : "checking.type_gap")}</button>
      {here && mayWrite.value && <PassedOver gap={here} />}
      {typing && <WedgeSheet room={room} edge={edge} at={answer?.gap?.at ?? null} onKept={close} onClose={close} />}
    </>
  );
}
