/** Choices of the room that are temperatures, or differences of temperature: in the person's degrees. */
import { celsiusFrom } from "../../units";
import { reader, t } from "../../words";
import { NumberSetting } from "../common/Setting";
import type { RoomView } from "../common/useRoom";

const F_PER_K = 1.8;

interface DegreesProps {
  readonly room: RoomView;
  readonly name: "curing.assumed" | "curing.reference" | "curing.datum" | "curing.forecast_doubt";
  readonly label: string;
  /** True for a difference: no zero of a scale is in it. */
  readonly isDifference?: boolean;
}

export function DegreesSetting({ room, name, label, isDifference = false }: DegreesProps) {
  const { units } = reader.value;
  const isImperial = units === "imperial";
  const zero = isDifference ? 0 : 32;
  return (
    <NumberSetting
      room={room} name={name} label={label} unit={isImperial ? "°F" : "°C"} places={1}
      toShown={(celsius) => (isImperial ? celsius * F_PER_K + zero : celsius)}
      toStored={(value) => (isDifference && isImperial ? value / F_PER_K : isDifference ? value : celsiusFrom(value, units))}
    />
  );
}

export function AssumedTemperature({ room }: { room: RoomView }) {
  return <DegreesSetting room={room} name="curing.assumed" label={t("climate.assumed")} />;
}
