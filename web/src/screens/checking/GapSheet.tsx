/** A gap that a wedge showed: what it was, what it means, corrected or deleted; its history keeps what stood before. */
import { useState } from "preact/hooks";
import { deleteRecord, editGap, mayWrite, type Row } from "../../state";
import { distance } from "../../drawing/camera";
import { momentText } from "../../units";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";
import { Entry } from "../common/Entry";
import { gapText, ruleText, type FlatnessView } from "../common/flatness";
import { Link } from "../common/Link";
import { placeText } from "../common/roomFigure";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import { gapFault } from "./gapFault";
import { PassedOver } from "./PassedOver";

interface GapSheetProps {
  readonly gap: Row<"gap">;
  readonly view: FlatnessView | null;
  readonly onClose: () => void;
}

/** What the engine says of it; nothing until it has. */
export function gapVerdict(id: string, view: FlatnessView | null): string {
  if (view?.flatness.stale.includes(id)) return t("checking.gap_stale");
  const found = view?.flatness.gaps.find(({ gap }) => gap === id);
  if (!found) return "";
  return found.limit === null ? t("checking.no_limit") : t(`checking.wedge_${found.verdict === "beyond" ? "beyond" : "within"}`, { limit: gapText(found.limit) });
}

function Facts({ gap: { id, fields }, view }: Pick<GapSheetProps, "gap" | "view">) {
  const { from, to, at, taken_at: takenAt } = fields;
  const verdict = gapVerdict(id, view);
  return (
    <dl class="inputs">
      {from && to && <div><dt>{t("checking.rule")}</dt><dd>{ruleText(distance(from, to))}</dd></div>}
      {from && <div><dt>A</dt><dd>{placeText(from)}</dd></div>}
      {to && <div><dt>B</dt><dd>{placeText(to)}</dd></div>}
      {at && <div><dt>{t("checking.open_most")}</dt><dd>{placeText(at)}</dd></div>}
      {verdict !== "" && <div class="tall"><dt>{t("checking.limit_name")}</dt><dd data-testid="gap-verdict">{verdict}</dd></div>}
      {takenAt && <div><dt>{t("reading.taken")}</dt><dd>{momentText(takenAt, reader.value)}</dd></div>}
    </dl>
  );
}

/** The keys; what cannot be stays typed. */
function Correcting({ gap: { id, fields }, shown, onSaved }: { gap: Row<"gap">; shown: string; onSaved: (isSaved: boolean) => void }) {
  const [fault, setFault] = useState<string | null>(null);
  const draft = `correct-gap:${id}`;
  const long = fields.from && fields.to ? distance(fields.from, fields.to) : Infinity;
  const corrected = (mm: number, typed: string) => {
    const found = gapFault(mm, long);
    setFault(found);
    if (found === null) void saved(editGap(id, { gap: mm, typed: { ...fields.typed, gap: typed } }, { draft })).then(onSaved);
  };
  return <Entry what={t("field.now", { value: shown })} draft={draft} measure="length" nextLabel={t("keys.set")} onDone={corrected} {...(fault === null ? {} : { note: fault })} />;
}

export function GapSheet({ gap, view, onClose }: GapSheetProps) {
  const [correcting, setCorrecting] = useState(false);
  const shown = gapText(gap.fields.gap ?? 0);
  const close = (isSaved: boolean) => { if (isSaved) onClose(); };
  return (
    <Dialog title={t("checking.gap_title", { gap: shown })} testid="gap-sheet" onClose={onClose}>
      <Facts gap={gap} view={view} />
      {correcting ? <Correcting gap={gap} shown={shown} onSaved={close} /> : mayWrite.value && (
        <div class="row even">
          <button type="button" class="button main" data-testid="correct-gap" onClick={() => setCorrecting(true)}>{t("reading.correct")}</button>
          <button type="button" class="button danger" data-testid="delete-gap" onClick={() => void saved(deleteRecord("gap", gap.id)).then(close)}>{t("reading.delete")}</button>
        </div>
      )}
      {!correcting && mayWrite.value && <PassedOver gap={gap} />}
      {!correcting && <Link to={pathOfHistory("gap", gap.id)} class="button wide" testid="gap-history">{t("history.open")}</Link>}
    </Dialog>
  );
}
