/** Which kind of top. */
import { useState } from "preact/hooks";
import type { Top } from "../../../wire";
import { t } from "../../../words";
import { Choice } from "../../common/Choice";
import type { RoomFields } from "../../common/roomFigure";
import { begunTop, TOP_KINDS, type TopKind } from "./begin";

interface KindChoiceProps {
  readonly room: RoomFields;
  readonly kind: TopKind;
  /** Where a new top begins, z of the top of bed. */
  readonly height: number;
  readonly onTop: (top: Top) => void;
}

/** All kinds are offered; one that the room has nothing for says what is missing. */
export function KindChoice({ room, kind, height, onTop }: KindChoiceProps) {
  const [isWanting, setIsWanting] = useState(false);
  const choose = (chosen: TopKind) => {
    const begun = chosen === kind ? null : begunTop(chosen, room, height);
    setIsWanting(chosen !== kind && begun === null);
    if (begun) onTop(begun);
  };
  return (
    <div class="kinds">
      <Choice label={t("bed.top")} name="top-kind" quiet value={kind} onChoose={choose} options={TOP_KINDS.map((value) => ({ value, label: t(`top_kind.${value}`) }))} />
      {isWanting && <p class="caution" role="status" data-testid="no-drain">{t("top_kind.no_drain")}</p>}
    </div>
  );
}
