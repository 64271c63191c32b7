/** Strips on hand: of each length and thickness how many; a line is changed where it stands. */
import { useState } from "preact/hooks";
import { editRoom, mayWrite } from "../../../state";
import { depthText, lengthText, numberText } from "../../../units";
import { DEFAULTS, type StripsOnHand as Strips } from "../../../wire";
import { reader, t } from "../../../words";
import { Dialog } from "../../common/Dialog";
import { formOf, type Taped } from "../../common/form";
import { saved, sayOnlyLooks } from "../../common/saving";
import { TapedField } from "../../common/TapedField";
import type { RoomView } from "../../common/useRoom";
import { ValueField } from "../../common/ValueField";

const MOST = 200; // of one kind

interface Values {
  readonly length: Taped | null;
  readonly thickness: Taped | null;
  readonly width: Taped | null;
  readonly count: number;
}

function taped(mm: number | null | undefined): Taped | null {
  return mm == null ? null : { mm, typed: "" };
}

/** What the form begins with: the strips that are changed, else one like the room's strip. */
function beginOf(room: RoomView, strips: Strips | null): Values {
  const strip = strips ?? { length: room.fields["rails.strip.length"] ?? DEFAULTS["rails.strip.length"], thickness: room.fields["rails.strip.thickness"] ?? DEFAULTS["rails.strip.thickness"] };
  return { length: taped(strip.length), thickness: taped(strip.thickness), width: taped(strips?.width), count: strips?.count ?? 2 };
}

interface FormProps {
  readonly room: RoomView;
  /** The line that is changed; null for a new one. */
  readonly index: number | null;
  readonly strips: readonly Strips[];
  readonly onDone: () => void;
}

function Form({ room, index, strips, onDone }: FormProps) {
  const before = index === null ? null : strips[index] ?? null;
  const { values, set, draft } = formOf(`strips:${room.id}:${index ?? "new"}`, beginOf(room, before));
  const { length, thickness, width, count } = values;
  const keep = async (kept: readonly Strips[]) => {
    if (await saved(editRoom(room.id, { "rails.strips": kept.length === 0 ? null : kept }, { draft }))) onDone();
  };
  const done = () => {
    if (!length || !thickness) return;
    const told: Strips = { length: length.mm, thickness: thickness.mm, count, ...(width ? { width: width.mm } : {}) };
    void keep(index === null ? [...strips, told] : strips.map((one, other) => (other === index ? told : one)));
  };
  return (
    <div class="stack">
      <TapedField name="strips-length" label={t("tool.rails.strip.length")} value={length} onSet={(value) => set({ length: value })} />
      <TapedField name="strips-thickness" label={t("tool.rails.strip.thickness")} value={thickness} onSet={(value) => set({ thickness: value })} />
      <TapedField name="strips-width" label={t("tool.rails.strip.width")} note={t("lay.width_more")} value={width} onSet={(value) => set({ width: value })} />
      <ValueField
        name="strips-count" label={t("lay.how_many")} shown={numberText(count, 0, reader.value.language)} measure="number"
        onValue={(value) => set({ count: Math.min(MOST, Math.max(1, Math.round(value))) })}
      />
      <button type="button" class="button main wide" data-testid="keep-strips" disabled={!length || !thickness} onClick={done}>{t("lay.keep_strips")}</button>
      {index !== null && <button type="button" class="button danger wide" data-testid="remove-strips" onClick={() => void keep(strips.filter((_, other) => other !== index))}>{t("remove")}</button>}
    </div>
  );
}

export function StripsOnHand({ room }: { room: RoomView }) {
  const [open, setOpen] = useState<number | "new" | null>(null);
  const strips = room.fields["rails.strips"] ?? [];
  const show = (line: number | "new") => { if (mayWrite.value) setOpen(line); else sayOnlyLooks(); };
  return (
    <>
      <h3>{t("lay.strips")}</h3>
      {strips.length === 0 && <p class="quiet small">{t("lay.strips_none")}</p>}
      {strips.map((one, index) => (
        <button key={index} type="button" class="value-button" data-testid="strips-line" onClick={() => show(index)}>
          <span>{t("lay.strips_line", { length: lengthText(one.length, reader.value), thickness: depthText(one.thickness, reader.value) })}</span>
          <span class="given">{t("lay.strips_count", { count: one.count ?? 2 })}</span>
        </button>
      ))}
      <button type="button" class="button wide" data-testid="add-strips" onClick={() => show("new")}>{t("lay.add_strips")}</button>
      {open !== null && (
        <Dialog title={t(open === "new" ? "lay.add_strips" : "lay.change_strips")} testid="strips-form" onClose={() => setOpen(null)}>
          <Form room={room} index={open === "new" ? null : open} strips={strips} onDone={() => setOpen(null)} />
        </Dialog>
      )}
    </>
  );
}
