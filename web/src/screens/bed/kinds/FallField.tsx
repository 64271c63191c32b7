/** A fall, typed as inches in a foot or as percent. */
import { fallFromTyped, fallText } from "../../../units";
import { reader, t } from "../../../words";
import { ValueField } from "../../common/ValueField";

interface FallFieldProps {
  readonly name: string;
  readonly label: string;
  /** Null where none is asked for. */
  readonly fall: number | null;
  readonly none: string;
  readonly onFall: (fall: number) => void;
  readonly onReset?: () => void;
}

export function FallField({ name, label, fall, none, onFall, onReset }: FallFieldProps) {
  const isMetric = reader.value.units === "metric";
  return (
    <ValueField
      name={name} label={label} shown={fall === null ? none : fallText(fall, reader.value)} measure={isMetric ? "number" : "length"}
      note={t(isMetric ? "fall.in_percent" : "fall.in_a_foot")} isChanged={onReset !== undefined && fall !== null} {...(onReset ? { onReset } : {})}
      onValue={(typed) => onFall(fallFromTyped(typed, reader.value))}
    />
  );
}
