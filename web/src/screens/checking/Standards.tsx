/** Against whose limits the bed is held: chosen from a list with what each asks, or the company's own. A change shows. */
import { useState } from "preact/hooks";
import { editRoom, mayWrite } from "../../state";
import type { GapLimit, Standard } from "../../wire";
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { gapText, ruleText } from "../common/flatness";
import { saved, sayOnlyLooks } from "../common/saving";
import type { RoomView } from "../common/useRoom";
import { ValueField } from "../common/ValueField";
import { changedLimit, freshLimit, isOutOfRange, limitWithout, NAMED_LENGTHS, OWN_RANGE, STANDARDS, USUAL } from "./standards";

function standardOf({ fields }: RoomView): Standard {
  return fields["flatness.standard"] ?? USUAL;
}

function keepOwn(room: RoomView, own: readonly GapLimit[]): void {
  void saved(editRoom(room.id, { "flatness.own": own }));
}

const MOST_LIMITS = 20;

function lengthFault(length: number): string | null {
  return isOutOfRange("length", length) ? t("checking.own_length_fault", OWN_RANGE.length) : null;
}

function limitFault(gap: number): string | null {
  return isOutOfRange("gap", gap) ? t("checking.own_gap_fault", OWN_RANGE.gap) : null;
}

function OwnLimits({ room }: { room: RoomView }) {
  const own = room.fields["flatness.own"] ?? [];
  return (
    <section class="stack tight" data-testid="own-limits">
      <h3>{t("checking.own")}</h3>
      {own.length === 0 && <p class="notice">{t("checking.own_none")}</p>}
      {own.map((limit, index) => (
        <div key={index} class="row even" data-testid="own-limit">
          <ValueField name={`${room.id}:own-length-${index}`} label={t("checking.own_length")} shown={ruleText(limit.length)} measure="length" faultOf={lengthFault} onValue={(length) => keepOwn(room, changedLimit(own, index, { length }))} />
          <ValueField name={`${room.id}:own-gap-${index}`} label={t("checking.own_gap")} shown={gapText(limit.gap)} measure="length" faultOf={limitFault} onValue={(gap) => keepOwn(room, changedLimit(own, index, { gap }))} />
          {mayWrite.value && <button type="button" class="button icon danger" aria-label={t("remove")} data-testid={`own-remove-${index}`} onClick={() => keepOwn(room, limitWithout(own, index))}>{"\u2715"}</button>}
        </div>
      ))}
      {mayWrite.value && own.length < MOST_LIMITS && <button type="button" class="button wide" data-testid="own-add" onClick={() => keepOwn(room, freshLimit(own))}>{t("checking.own_add")}</button>}
    </section>
  );
}

function StandardSheet({ room, onClose }: { room: RoomView; onClose: () => void }) {
  const held = standardOf(room);
  const choose = (standard: Standard) => {
    const own = standard === "own" && !room.fields["flatness.own"]?.length ? { "flatness.own": freshLimit([]) } : {};
    void saved(editRoom(room.id, { "flatness.standard": standard, ...own })).then((isSaved) => { if (isSaved) onClose(); });
  };
  return (
    <Dialog title={t("named.room.flatness.standard")} testid="standards" onClose={onClose}>
      <ul class="stack tight">
        {STANDARDS.map((standard) => (
          <li key={standard}>
            <button type="button" class="button wide standard" aria-pressed={standard === held} data-testid={`standard-${standard}`} onClick={() => choose(standard)}>
              <span>{t(`standard.${standard}`)}</span><span class="quiet small">{t(`checking.asks.${standard}`, NAMED_LENGTHS)}</span>
            </button>
          </li>
        ))}
      </ul>
    </Dialog>
  );
}

export function Standards({ room }: { room: RoomView }) {
  const [open, setOpen] = useState(false);
  const held = standardOf(room);
  const isChanged = held !== USUAL;
  const show = () => { if (mayWrite.value) setOpen(true); else sayOnlyLooks(); };
  return (
    <section class="stack tight">
      <button type="button" class={isChanged ? "value-button is-changed" : "value-button"} data-testid="standard" onClick={show}>
        <span>{t("named.room.flatness.standard")}{isChanged && <span class="changed"> · {t("changed")}</span>}</span>
        <span class="given standard-name">{t(`standard.${held}`)}</span>
      </button>
      <p class="quiet small">{t(`checking.asks.${held}`, NAMED_LENGTHS)}</p>
      {isChanged && mayWrite.value && <button type="button" class="button wide" data-testid="standard-usual" onClick={() => void saved(editRoom(room.id, { "flatness.standard": null }))}>{t("checking.usual", { standard: t(`standard.${USUAL}`) })}</button>}
      {held === "own" && <OwnLimits room={room} />}
      {open && <StandardSheet room={room} onClose={() => setOpen(false)} />}
    </section>
  );
}
