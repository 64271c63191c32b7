/** The mix, changed where it is used: parts, bag, water, voids, waste, and what the mixer takes. */
import { editRoom } from "../../state";
import { volumeText } from "../../units";
import { reader, t } from "../../words";
import { saved } from "../common/saving";
import { NumberSetting } from "../common/Setting";
import type { RoomView } from "../common/useRoom";
import { ValueField } from "../common/ValueField";

const POUND = 0.45359237; // kg
const FOOT3 = 0.028316846592; // m³
const LITRE = 0.001; // m³

const percent = (fraction: number) => fraction * 100;
const fraction = (shown: number) => shown / 100;

function BagMass({ room }: { room: RoomView }) {
  const isImperial = reader.value.units === "imperial";
  const unit = isImperial ? POUND : 1;
  return (
    <NumberSetting
      room={room} name="mix.bag_mass" label={t("mix.bag")} places={1} unit={isImperial ? "lb" : "kg"}
      toShown={(kg) => kg / unit} toStored={(shown) => shown * unit}
    />
  );
}

function BatchVolume({ room }: { room: RoomView }) {
  const isImperial = reader.value.units === "imperial";
  const unit = isImperial ? FOOT3 : LITRE;
  const own = room.fields["mix.batch_volume"] ?? null;
  const keep = (value: number | null) => void saved(editRoom(room.id, { "mix.batch_volume": value }));
  return (
    <ValueField
      name={`${room.id}:mix.batch_volume`} label={t("mix.batch")} shown={own === null ? t("mix.one_bag") : volumeText(own, reader.value)} measure="number"
      note={isImperial ? t("mix.batch_feet") : t("mix.batch_litres")} isChanged={own !== null} onReset={() => keep(null)} onValue={(value) => keep(value * unit)}
    />
  );
}

export function MixFields({ room }: { room: RoomView }) {
  return (
    <section class="stack tight">
      <h3>{t("mix.title")}</h3>
      <NumberSetting room={room} name="mix.cement" label={t("mix.cement")} />
      <NumberSetting room={room} name="mix.sand" label={t("mix.sand")} />
      <NumberSetting room={room} name="mix.lime" label={t("mix.lime")} />
      <NumberSetting room={room} name="mix.water_cement" label={t("mix.water")} note={t("mix.water_more")} />
      <NumberSetting room={room} name="mix.air" label={t("mix.air")} unit="%" places={1} toShown={percent} toStored={fraction} note={t("mix.air_more")} />
      <NumberSetting room={room} name="mix.waste" label={t("mix.waste")} unit="%" places={1} toShown={percent} toStored={fraction} />
      <NumberSetting room={room} name="mix.sand_moisture" label={t("named.room.mix.sand_moisture")} unit="%" places={1} toShown={percent} toStored={fraction} note={t("mix.moisture_more")} />
      <NumberSetting room={room} name="mix.sand_bulking" label={t("named.room.mix.sand_bulking")} unit="%" places={1} toShown={percent} toStored={fraction} note={t("mix.bulking_more")} />
      <BagMass room={room} />
      <BatchVolume room={room} />
    </section>
  );
}
