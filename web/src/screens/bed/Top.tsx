/** The top of bed: the lowest that keeps the least thickness, or a height that the thumb steps up and down. */
import { editRoom, preferences } from "../../state";
import { heightText } from "../../units";
import type { Plan } from "../../wire";
import { reader, t } from "../../words";
import { Choice } from "../common/Choice";
import { saved } from "../common/saving";
import type { RoomView } from "../common/useRoom";
import { ValueField } from "../common/ValueField";
import { steppedHeight } from "./steps";

const EIGHTH = 25.4 / 8;
const TWO_MM = 2;

export function Top({ room, plan }: { room: RoomView; plan: Plan }) {
  const top = room.fields["bed.top"];
  const given = top?.kind === "level" ? top.height : null;
  const height = given ?? plan.bed.top[0]?.a ?? 0;
  const step = preferences.value.units === "imperial" ? EIGHTH : TWO_MM;
  const set = (to: number | null) => void saved(editRoom(room.id, { "bed.top": { kind: "level", height: to } }));
  const choose = (kind: "lowest" | "height") => { if (kind === "lowest") set(null); else set(steppedHeight(height - 1e-3, 1, step)); };
  return (
    <section class="stack tight">
      <Choice
        label={t("bed.top")} name="top" value={given === null ? "lowest" : "height"} onChoose={choose}
        options={[{ value: "lowest", label: t("bed.lowest") }, { value: "height", label: t("bed.at_height") }]}
      />
      <div class="stepper">
        <button type="button" class="button" aria-label={t("bed.lower")} data-testid="top-down" onClick={() => set(steppedHeight(height, -1, step))}>{"\u2212"}</button>
        <output class="shown" aria-live="polite"><span class="number" data-testid="top-shown">{heightText(height, reader.value)}</span></output>
        <button type="button" class="button" aria-label={t("bed.raise")} data-testid="top-up" onClick={() => set(steppedHeight(height, 1, step))}>+</button>
      </div>
      {given !== null && <ValueField name={`${room.id}:top-height`} label={t("bed.type_height")} shown={heightText(height, reader.value)} measure="length" signed onValue={set} />}
    </section>
  );
}
