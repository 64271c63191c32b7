/** Least and greatest thickness, and what will lie on the bed: defaults that show when they were changed. */
import type { Plan } from "../../wire";
import { t } from "../../words";
import { LengthSetting } from "../common/Setting";
import type { RoomView } from "../common/useRoom";

export function Limits({ room, plan }: { room: RoomView; plan: Plan }) {
  const { minimum_thickness: minimum } = plan.bed;
  return (
    <section class="stack tight">
      <LengthSetting room={room} name="bed.minimum_thickness" label={t("bed.minimum")} otherwise={minimum} note={t("bed.minimum_more")} />
      <LengthSetting room={room} name="bed.maximum_thickness" label={t("bed.maximum")} note={t("bed.maximum_more")} />
    </section>
  );
}

export function Covering({ room }: { room: RoomView }) {
  return (
    <section class="stack tight">
      <h3>{t("covering.title")}</h3>
      <LengthSetting room={room} name="bed.covering.tile_thickness" label={t("covering.tile")} />
      <LengthSetting room={room} name="bed.covering.bond_thickness" label={t("covering.bond")} />
    </section>
  );
}
