/** Choices of the room that are temperatures, or differences of temperature: in the person's degrees. */
import { celsiusFrom } from "../../units";
import { reader, t } from "../../words";
import { NumberSetting } from "../common/Setting";
import type { RoomView } from "../common/useRoom";
import { plainFault, RANGES, temperatureFault, type Range } from "./ranges";

const F_PER_K = 1.8;

interface DegreesProps {
  readonly room: RoomView;
  readonly name: `curing.${"assumed" | "reference" | "datum" | "forecast_doubt"}`;
  readonly label: string;
  /** True for a difference: no zero of a scale is in it. */
  readonly isDifference?: boolean;
}

export function DegreesSetting({ room, name, label, isDifference = false }: DegreesProps) {
  const { units } = reader.value;
  const isImperial = units === "imperial";
  const zero = isDifference ? 0 : 32;
  const unit = isImperial ? "°F" : "°C";
  const range = RANGES[name.slice("curing.".length) as keyof typeof RANGES];
  const wide: Range = isImperial ? [range[0] * F_PER_K, range[1] * F_PER_K] : range;
  return (
    <NumberSetting
      room={room} name={name} label={label} unit={unit} places={1} signed={!isDifference} faultOf={isDifference ? plainFault(wide, unit) : temperatureFault(range)}
      toShown={(celsius) => (isImperial ? celsius * F_PER_K + zero : celsius)}
      toStored={(value) => (isDifference && isImperial ? value / F_PER_K : isDifference ? value : celsiusFrom(value, units))}
    />
  );
}

export function AssumedTemperature({ room }: { room: RoomView }) {
  return <DegreesSetting room={room} name="curing.assumed" label={t("climate.assumed")} />;
}
