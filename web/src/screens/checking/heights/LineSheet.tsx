/** A line of heights that was kept: its heights, its own F-numbers; deleted where it was wrong. */
import { deleteRecord, mayWrite, type Row } from "../../../state";
import { heightText, momentText } from "../../../units";
import { reader, t } from "../../../words";
import { Dialog } from "../../common/Dialog";
import { Link } from "../../common/Link";
import type { FlatnessView } from "../../common/flatness";
import { pathOfHistory } from "../../common/route";
import { saved } from "../../common/saving";
import { fText } from "../telling";

interface LineSheetProps {
  readonly line: Row<"height_line">;
  readonly view: FlatnessView | null;
  readonly onClose: () => void;
}

/** "FF 34.1 · FL 22.0", as far as the line tells. */
export function lineNumbers(id: string, view: FlatnessView | null): string {
  const found = view?.flatness.f_lines.find(({ line }) => line === id);
  if (!found) return "";
  const flat = t("checking.ff_of", { ff: fText(found.ff) });
  return found.fl === null ? flat : `${flat} · ${t("checking.fl_of", { fl: fText(found.fl) })}`;
}

export function LineSheet({ line: { id, fields }, view, onClose }: LineSheetProps) {
  const heights = fields.heights ?? [];
  const numbers = lineNumbers(id, view);
  const remove = () => void saved(deleteRecord("height_line", id)).then((isSaved) => { if (isSaved) onClose(); });
  return (
    <Dialog title={t("checking.line_of", { heights: heights.length, spacing: fields.spacing ?? 0 })} testid="line-sheet" onClose={onClose}>
      {numbers !== "" && <p data-testid="line-numbers">{numbers}</p>}
      {fields.taken_at && <p class="quiet">{momentText(fields.taken_at, reader.value)}</p>}
      <p>{t("checking.line_from_first")}</p>
      <ol class="typed-line" data-testid="line-heights">{heights.map((z, index) => <li key={index}>{heightText(z - (heights[0] ?? 0), reader.value)}</li>)}</ol>
      {mayWrite.value && <button type="button" class="button danger wide" data-testid="delete-line" onClick={remove}>{t("reading.delete")}</button>}
      <Link to={pathOfHistory("height_line", id)} class="button wide" testid="line-history">{t("history.open")}</Link>
    </Dialog>
  );
}
