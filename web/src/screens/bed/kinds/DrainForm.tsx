/** A top that falls to a drain: which one, how steeply at the least, and how high the walls' line is. */
import { heightText } from "../../../units";
import type { Top } from "../../../wire";
import { reader, t } from "../../../words";
import { Choice } from "../../common/Choice";
import type { RoomFields } from "../../common/roomFigure";
import { ValueField } from "../../common/ValueField";
import { FallField } from "./FallField";

type DrainTop = Extract<Top, { readonly kind: "to_drain" }>;

interface DrainFormProps {
  readonly id: string;
  readonly room: RoomFields;
  readonly top: DrainTop;
  readonly onTop: (top: DrainTop) => void;
}

export function DrainForm({ id, room, top, onTop }: DrainFormProps) {
  const drains = (room.fixtures ?? []).filter(({ kind }) => kind === "drain");
  const isLinear = drains.some((drain) => drain.id === top.drain && drain.to);
  const perimeter = top.perimeter ?? null;
  return (
    <section class="stack tight" data-testid="drain-form">
      {drains.length > 1 && <Choice label={t("drain_top.drain")} name="drain" value={top.drain} onChoose={(drain) => onTop({ ...top, drain })} options={drains.map((drain) => ({ value: drain.id, label: drain.id }))} />}
      <FallField name={`${id}:top-fall`} label={t("drain_top.fall")} none="" fall={top.fall} onFall={(fall) => onTop({ ...top, fall })} />
      {!isLinear && (
        <ValueField
          name={`${id}:top-perimeter`} label={t("drain_top.perimeter")} note={t("drain_top.perimeter_more")} measure="length" signed
          shown={perimeter === null ? t("drain_top.lowest") : heightText(perimeter, reader.value)} isChanged={perimeter !== null}
          onReset={() => onTop({ ...top, perimeter: null })} onValue={(z) => onTop({ ...top, perimeter: z })}
        />
      )}
    </section>
  );
}
