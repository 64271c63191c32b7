/** The hand-over: the record of a room on the screen and on paper, its signatures, its tables. */
import { useMemo, useState } from "preact/hooks";
import { mayWrite, roomOf, signOffsOf } from "../../state";
import { t } from "../../words";
import { Choice } from "../common/Choice";
import { Missing } from "../common/Missing";
import { NoAnswer } from "../common/Notes";
import type { Content } from "./content";
import { LaterThan } from "./LaterThan";
import { choosePaper, paperChosen, PAPERS, usePaper, type Paper } from "./paper";
import { footText, RecordPaper, type Signed } from "./Paper";
import { copyOf, signaturesOf } from "./signed";
import { SignSheet } from "./SignSheet";
import { TablesSheet } from "./TablesSheet";
import { useContent, type Gathered } from "./useContent";

/** `now`, or the id of a signature. */
type Shown = string;
const NOW: Shown = "now";

function Signatures({ room, shown, onShow }: { room: string; shown: Shown; onShow: (shown: Shown) => void }) {
  const all = signaturesOf(room);
  if (all.length === 0) return <p class="notice" data-testid="not-signed">{t("record.not_signed")}</p>;
  return (
    <ul class="stack tight" data-testid="signatures">
      <li><button type="button" class="button wide" aria-pressed={shown === NOW} data-testid="show-now" onClick={() => onShow(NOW)}>{t("record.show_now")}</button></li>
      {all.map((one) => (
        <li key={one.id}>
          <button type="button" class="button wide" aria-pressed={shown === one.id} data-testid="show-copy" onClick={() => onShow(one.id)}>{t("record.signed_by", { person: one.by, at: one.at })}</button>
        </li>
      ))}
    </ul>
  );
}

function Tools({ content, onSign, onTables }: { content: Content; onSign: (() => void) | null; onTables: () => void }) {
  return (
    <div class="stack tight" data-testid="record-tools" data-made={content.made_at}>
      <Choice label={t("record.paper")} name="paper" value={paperChosen()} onChoose={choosePaper} options={PAPERS.map((value) => ({ value, label: t(`record.paper_${value}`) }))} />
      <div class="row even">
        <button type="button" class="button main" data-testid="print-record" onClick={() => window.print()}>{t("print.do")}</button>
        <button type="button" class="button" data-testid="open-tables" onClick={onTables}>{t("record.tables")}</button>
      </div>
      {onSign && <button type="button" class="button wide" data-testid="sign" onClick={onSign}>{t("record.sign")}</button>}
    </div>
  );
}

function Ready({ content, signed, others, paper }: { content: Content; signed: Signed | null; others: readonly Signed[]; paper: Paper }) {
  usePaper(paper, footText(content, signed));
  return <RecordPaper content={content} signed={signed} others={others} />;
}

function Standing({ found }: { found: Gathered }) {
  if (found.status === "no_outline") return <p class="notice">{t("floor.no_outline")}</p>;
  if (found.status === "refused") return <NoAnswer asked={found.asked} />;
  return <p class="notice" role="status" data-testid="record-coming">{t("record.coming")}</p>;
}

export function Record({ id }: { id: string }) {
  const [shown, setShown] = useState<Shown>(NOW);
  const [sheet, setSheet] = useState<"sign" | "tables" | null>(null);
  const found = useContent(id);
  const rows = signOffsOf(id).value;
  const copy = useMemo(() => (shown === NOW ? null : copyOf(id, shown)), [shown, rows]);
  if (!roomOf(id)) return <Missing />;
  const now = found.status === "ready" ? found.content : null;
  const signatures = signaturesOf(id);
  const signed = signatures.find((one) => one.id === shown) ?? null;
  const content = signed ? copy : now;
  const closeSign = (made: string | null) => { setSheet(null); if (made) setShown(made); };
  return (
    <main class="page record printed" data-testid="record">
      <div class="stack screen-only">
        <div><h1>{t("record.title")}</h1><p class="quiet">{t("record.more")}</p></div>
        <Signatures room={id} shown={shown} onShow={setShown} />
        {content && <Tools content={content} onSign={mayWrite.value && !signed ? () => setSheet("sign") : null} onTables={() => setSheet("tables")} />}
        {signed && !copy && <p class="caution" role="alert" data-testid="copy-unreadable">{t("record.copy_unreadable")}</p>}
        {!signed && !now && <Standing found={found} />}
      </div>
      {signed && copy && now && <LaterThan copy={copy} now={now} signed={signed} />}
      {content && <Ready content={content} signed={signed} others={signatures} paper={paperChosen()} />}
      {sheet === "sign" && now && <SignSheet content={now} onClose={closeSign} />}
      {sheet === "tables" && content && <TablesSheet content={content} onClose={() => setSheet(null)} />}
    </main>
  );
}
