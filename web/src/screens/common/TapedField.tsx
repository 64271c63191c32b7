/** One length of a form. */
import { lengthText } from "../../units";
import { reader, t } from "../../words";
import type { Taped } from "./form";
import { ValueField } from "./ValueField";

interface TapedFieldProps {
  readonly name: string;
  readonly label: string;
  readonly value: Taped | null;
  readonly signed?: boolean;
  readonly note?: string;
  readonly onSet: (value: Taped) => void;
}

export function TapedField({ name, label, value, signed = false, note, onSet }: TapedFieldProps) {
  return (
    <ValueField
      name={name} label={label} measure="length" signed={signed} {...(note === undefined ? {} : { note })}
      shown={value ? lengthText(value.mm, reader.value) : t("none_yet")} onValue={(mm, typed) => onSet({ mm, typed })}
    />
  );
}
