/** Least and greatest thickness, and what will lie on the bed: defaults that show when they were changed. */
import type { Plan } from "../../wire";
import { t } from "../../words";
import { LengthSetting } from "../common/Setting";
import type { RoomView } from "../common/useRoom";

/** Without a plan a least thickness of the room's own can be changed still: it may be what stands in the plan's way. */
export function Limits({ room, plan }: { room: RoomView; plan: Plan | null }) {
  const minimum = plan?.bed.minimum_thickness ?? room.fields["bed.minimum_thickness"];
  return (
    <section class="stack tight">
      {typeof minimum === "number" && <LengthSetting room={room} name="bed.minimum_thickness" label={t("bed.minimum")} otherwise={minimum} note={t("bed.minimum_more")} />}
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
