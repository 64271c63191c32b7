/** All that was measured on the bed: readings, gaps under a wedge, lines of heights. Each opens. */
import { useState } from "preact/hooks";
import { gapsOf, heightLinesOf, readingsAt, type Row } from "../../state";
import { distance } from "../../drawing/camera";
import { lengthText } from "../../units";
import { reader, t } from "../../words";
import { gapText, ruleText, type FlatnessView } from "../common/flatness";
import type { RoomView } from "../common/useRoom";
import { ReadingDialog } from "../levels/ReadingDialog";
import { gapVerdict } from "./GapSheet";
import { LineSheet, lineNumbers } from "./heights/LineSheet";

interface MeasuredProps {
  readonly room: RoomView;
  readonly view: FlatnessView | null;
  /** Opens what stands on the drawing, by its id there. */
  readonly onOpen: (id: string) => void;
}

function Gaps({ room, view, onOpen }: MeasuredProps) {
  const gaps = gapsOf(room.id).value;
  if (gaps.length === 0) return null;
  return (
    <>
      <h3>{t("checking.gaps")}</h3>
      {[...gaps].reverse().map(({ id, fields: { from, to, gap } }) => (
        <button key={id} type="button" class="value-button" data-testid="measured-gap" onClick={() => onOpen(`wedge-${id}`)}>
          <span>{from && to ? t("checking.under", { rule: ruleText(distance(from, to)) }) : ""}<br /><span class="quiet small">{gapVerdict(id, view)}</span></span>
          <span class="given">{gapText(gap ?? 0)}</span>
        </button>
      ))}
    </>
  );
}

function Lines({ room, view }: Pick<MeasuredProps, "room" | "view">) {
  const [open, setOpen] = useState<string | null>(null);
  const lines = heightLinesOf(room.id).value;
  const opened = lines.find(({ id }) => id === open);
  if (lines.length === 0) return null;
  return (
    <>
      <h3>{t("checking.lines")}</h3>
      {[...lines].reverse().map((line) => (
        <button key={line.id} type="button" class="value-button" data-testid="measured-line" onClick={() => setOpen(line.id)}>
          <span>{t("checking.line_of", { heights: line.fields.heights?.length ?? 0, spacing: line.fields.spacing ?? 0 })}</span>
          <span class="given">{lineNumbers(line.id, view)}</span>
        </button>
      ))}
      {opened && <LineSheet line={opened} view={view} onClose={() => setOpen(null)} />}
    </>
  );
}

function Readings({ room, view }: Pick<MeasuredProps, "room" | "view">) {
  const [open, setOpen] = useState<string | null>(null);
  const readings = readingsAt(room.readings, "bed").filter(({ fields }: Row<"reading">) => fields.at);
  const stale = new Set(view?.flatness.stale ?? []);
  const opened = readings.find(({ id }) => id === open);
  if (readings.length === 0) return null;
  return (
    <>
      <h3>{t("checking.readings", { readings: readings.length })}</h3>
      <ul class="reading-list">
        {readings.map(({ id, fields }, index) => (
          <li key={id}>
            <button type="button" class={stale.has(id) ? "button wide outdated" : "button wide"} data-testid="bed-reading" onClick={() => setOpen(id)}>
              {index + 1}: {lengthText(fields.down ?? 0, reader.value)}{stale.has(id) && <span class="small"> {t("checking.stale")}</span>}
            </button>
          </li>
        ))}
      </ul>
      {opened && <ReadingDialog reading={opened} plan={room.plan} onClose={() => setOpen(null)} />}
    </>
  );
}

export function Measured(props: MeasuredProps) {
  return (
    <section class="stack tight" data-testid="measured">
      <Gaps {...props} />
      <Lines {...props} />
      <Readings {...props} />
    </section>
  );
}
