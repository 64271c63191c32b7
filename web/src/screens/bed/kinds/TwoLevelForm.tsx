/** Two levels: how far from which wall the first one ends, how high each is, and the ramp between. */
import { heightText, lengthText } from "../../../units";
import type { Top } from "../../../wire";
import { reader, t } from "../../../words";
import { formOf, type Taped } from "../../common/form";
import { cornersOf, tapedLengths, type RoomFields } from "../../common/roomFigure";
import { TapedField } from "../../common/TapedField";
import { ValueField } from "../../common/ValueField";
import { WallChooser } from "../../common/WallChooser";
import { lineAlongWall } from "./begin";

type TwoLevelTop = Extract<Top, { readonly kind: "two_levels" }>;

interface TwoLevelFormProps {
  readonly id: string;
  readonly room: RoomFields;
  readonly top: TwoLevelTop;
  readonly onTop: (top: TwoLevelTop) => void;
}

interface Edge {
  readonly wall: number;
  readonly distance: Taped | null;
}

export function TwoLevelForm({ id, room, top, onTop }: TwoLevelFormProps) {
  const { values, set } = formOf<Edge>(`two-levels:${id}`, { wall: 0, distance: null });
  const edge = (changed: Partial<Edge>) => {
    const { wall, distance } = { ...values, ...changed };
    set(changed);
    if (distance) onTop({ ...top, line: lineAlongWall(cornersOf(room.outline), wall, distance.mm) });
  };
  const height = (side: "left" | "right") => (
    <ValueField name={`${id}:two-levels-${side}`} label={t(`two_levels.${side}`)} shown={heightText(top[side], reader.value)} measure="length" signed onValue={(z) => onTop({ ...top, [side]: z })} />
  );
  return (
    <section class="stack tight" data-testid="two-levels-form">
      <p class="quiet small">{t("two_levels.more")}</p>
      <WallChooser lengths={tapedLengths(room.outline)} wall={values.wall} onWall={(wall) => edge({ wall })} />
      <TapedField name="two-levels-distance" label={t("two_levels.distance")} value={values.distance} onSet={(distance) => edge({ distance })} />
      {height("left")}
      {height("right")}
      <ValueField name={`${id}:two-levels-ramp`} label={t("two_levels.ramp")} shown={lengthText(top.ramp, reader.value)} measure="length" onValue={(ramp) => onTop({ ...top, ramp })} />
    </section>
  );
}
