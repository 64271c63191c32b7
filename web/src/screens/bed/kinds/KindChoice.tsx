/** Which kind of top. */
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

export function KindChoice({ room, kind, height, onTop }: KindChoiceProps) {
  const offered = TOP_KINDS.filter((one) => one === kind || begunTop(one, room, height) !== null);
  const choose = (chosen: TopKind) => {
    const begun = chosen === kind ? null : begunTop(chosen, room, height);
    if (begun) onTop(begun);
  };
  return (
    <>
      <Choice label={t("bed.top")} name="top-kind" value={kind} onChoose={choose} options={offered.map((value) => ({ value, label: t(`top_kind.${value}`) }))} />
      {!offered.includes("to_drain") && <p class="quiet small">{t("top_kind.no_drain")}</p>}
    </>
  );
}
