/** What joints follow from: where the floor lies, how far apart they may be, how warm and cold it gets. */
import { editRoom } from "../../state";
import { warmthText } from "../../units";
import type { Plan } from "../../wire";
import { reader, t } from "../../words";
import { Choice } from "../common/Choice";
import { saved } from "../common/saving";
import { LengthSetting, NumberSetting } from "../common/Setting";
import type { RoomView } from "../common/useRoom";
import { ValueField } from "../common/ValueField";

const EXPOSURES = ["indoors", "sun_or_wet", "outdoors"] as const;
const MILLION = 1e6;

/** Degrees of the person's in a kelvin. */
function degree(): number {
  return reader.value.units === "imperial" ? 1.8 : 1;
}

function RangeSetting({ room }: { room: RoomView }) {
  const held = room.fields["joints.temperature_range"] ?? null;
  const keep = (kelvin: number | null) => void saved(editRoom(room.id, { "joints.temperature_range": kelvin }));
  return (
    <ValueField
      name={`${room.id}:joints.temperature_range`} label={t("joints.range")} note={t("joints.range_more")} measure="number"
      shown={held === null ? t("joints.range_unknown") : warmthText(held, reader.value)}
      isChanged={held !== null} onReset={() => keep(null)} onValue={(value) => keep(value / degree())}
    />
  );
}

/** Without a plan the spacing of the room's own can be changed still. */
export function JointSettings({ room, plan }: { room: RoomView; plan: Plan | null }) {
  const most = plan?.joints.spacing.most ?? room.fields["joints.spacing"];
  const unit = `×10⁻⁶/${reader.value.units === "imperial" ? "°F" : "°C"}`;
  return (
    <section class="stack tight">
      <Choice
        label={t("joints.exposure")} name="exposure" value={room.fields["joints.exposure"] ?? "indoors"}
        onChoose={(exposure) => void saved(editRoom(room.id, { "joints.exposure": exposure }))}
        options={EXPOSURES.map((value) => ({ value, label: t(`joints.${value}`) }))}
      />
      {typeof most === "number" && <LengthSetting room={room} name="joints.spacing" label={t("joints.spacing")} otherwise={most} note={t("joints.spacing_more")} />}
      <LengthSetting room={room} name="bed.covering.longest_edge" label={t("joints.tile")} note={t("joints.tile_more")} />
      <RangeSetting room={room} />
      <NumberSetting
        room={room} name="joints.expansion" label={t("joints.expansion")} unit={unit} note={t("joints.expansion_more")}
        toShown={(perKelvin) => (perKelvin * MILLION) / degree()} toStored={(shown) => (shown * degree()) / MILLION}
      />
      <NumberSetting
        room={room} name="joints.sealant_movement" label={t("joints.sealant")} unit="%" places={1} note={t("joints.sealant_more")}
        toShown={(share) => share * 100} toStored={(shown) => shown / 100}
      />
    </section>
  );
}
