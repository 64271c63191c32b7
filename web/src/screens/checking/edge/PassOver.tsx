/**
 * A straightedge was passed over the whole bed: one tap tells where it stood open most, the keys how much. Then the
 * whole bed counts as judged under its length, and the verdict follows.
 */
import { useState } from "preact/hooks";
import type { Place } from "../../../drawing/camera";
import { roomiestPlace } from "../../../drawing/figure";
import { addGap, clearDraft, getDraft, mayWrite, setDraft } from "../../../state";
import type { StraightedgeCheck } from "../../../wire";
import { t } from "../../../words";
import { ruleText } from "../../common/flatness";
import { go, pathOfCheck, pathOfRoom } from "../../common/route";
import { saved } from "../../common/saving";
import { isOnBed, laidOver, type Floor } from "./inRoom";
import { edgeDraft, lengthOf, passedDraft, type Edge } from "./laid";
import { WedgeSheet } from "./Wedge";

/** From the verdict: to where its worst gap is told, for the length that the readings cannot judge. */
export function PassOverLink({ room, check }: { room: string; check: StraightedgeCheck }) {
  if (!mayWrite.value) return null;
  const begin = () => { void setDraft(passedDraft(room), `${check.length}`); go(pathOfCheck(room, "edge")); };
  return <button type="button" class="button wide" data-testid="pass-over" onClick={begin}>{t("checking.pass", { rule: ruleText(check.length) })}</button>;
}

/** The length that is told of now, mm; null while none is. Subscribes. */
export function passedLength(room: string): number | null {
  const kept = getDraft(passedDraft(room));
  return kept === undefined || !mayWrite.value ? null : Number(kept);
}

/** Lays one of that length where the drawing was tapped; beside the floor nothing was tapped. */
export function laidWhereOpen(room: string, at: Place, length: number, floor: Floor): Edge | null {
  if (!isOnBed(floor, at)) return null;
  const { edge } = laidOver(at, length, floor);
  void setDraft(edgeDraft(room), JSON.stringify(edge));
  return edge;
}

interface PassOverProps {
  readonly room: string;
  readonly length: number;
  readonly floor: Floor;
  /** Where it was tapped that it stood open most, and the straightedge there; null before. */
  readonly open: { readonly at: Place; readonly edge: Edge } | null;
  /** True where the last tap was beside the floor. */
  readonly isBeside: boolean;
  readonly onClose: () => void;
}

export function PassOver({ room, length, floor, open, isBeside, onClose }: PassOverProps) {
  const [isBusy, setBusy] = useState(false);
  const leave = () => { onClose(); void clearDraft(passedDraft(room)); };
  const done = () => { leave(); go(pathOfRoom(room, "checking")); };
  const nowhere = () => {
    const { edge } = laidOver(roomiestPlace(floor.outline), length, floor);
    setBusy(true);
    void saved(addGap(room, { from: edge.from, to: edge.to, gap: 0, passed_over: true, typed: { gap: "0" } })).then((isSaved) => { setBusy(false); if (isSaved) done(); });
  };
  const isShort = open !== null && lengthOf(open.edge) < length - 1;
  return (
    <section class="stack tight" data-testid="passing">
      <h3>{t("checking.pass", { rule: ruleText(length) })}</h3>
      <p class="notice" role="status">{t("checking.pass_tap", { rule: ruleText(length) })}</p>
      {isBeside && <p class="caution" role="status" data-testid="pass-beside">{t("levels.outside")}</p>}
      <div class="row even">
        <button type="button" class="button" data-testid="passed-none" disabled={isBusy} onClick={nowhere}>{t("checking.pass_none")}</button>
        <button type="button" class="button" data-testid="pass-leave" onClick={leave}>{t("checking.pass_leave")}</button>
      </div>
      {isShort && <p class="caution" role="status">{t("checking.pass_short", { rule: ruleText(length), long: ruleText(lengthOf(open.edge)) })}</p>}
      {open && <WedgeSheet room={room} edge={open.edge} at={open.at} isPassedOver onKept={done} onClose={onClose} />}
    </section>
  );
}
