/** A choice of the room with a default: changed where it is used, showing that it was, and put back with one tap. */
import { editRoom } from "../../state";
import { depthText, lengthText, numberText } from "../../units";
import type { Fields } from "../../wire";
import { reader } from "../../words";
import { saved } from "./saving";
import type { RoomView } from "./useRoom";
import { ValueField } from "./ValueField";

type NumberName = {
  [P in keyof Fields<"room">]-?: NonNullable<Fields<"room">[P]> extends number ? P : never;
}[keyof Fields<"room">];

interface SettingProps {
  readonly room: RoomView;
  readonly name: NumberName;
  readonly label: string;
  readonly otherwise: number;
  readonly note?: string;
}

const LONG = 600; // mm: longer things are told in feet

function keep(room: RoomView, name: NumberName, value: number | null, typed?: string): void {
  const kept = typed === undefined ? {} : { typed: { ...room.fields.typed, [name]: typed } };
  void saved(editRoom(room.id, { [name]: value, ...kept }));
}

function lengthOf(mm: number): string {
  return mm >= LONG ? lengthText(mm, reader.value) : depthText(mm, reader.value);
}

export function LengthSetting({ room, name, label, otherwise, note }: SettingProps) {
  const own = room.fields[name] ?? null;
  return (
    <ValueField
      name={`${room.id}:${name}`} label={label} shown={lengthOf(own ?? otherwise)} measure="length" {...(note === undefined ? {} : { note })}
      isChanged={own !== null} onReset={() => keep(room, name, null)} onValue={(mm, typed) => keep(room, name, mm, typed)}
    />
  );
}

interface NumberSettingProps extends SettingProps {
  /** From what is stored to what is shown and typed, and back: percent, litres, degrees. */
  readonly toShown?: (stored: number) => number;
  readonly toStored?: (shown: number) => number;
  readonly unit?: string;
  readonly places?: number;
}

const same = (value: number) => value;

export function NumberSetting({ room, name, label, otherwise, note, toShown = same, toStored = same, unit = "", places = 2 }: NumberSettingProps) {
  const own = room.fields[name] ?? null;
  const text = numberText(toShown(own ?? otherwise), places, reader.value.language);
  return (
    <ValueField
      name={`${room.id}:${name}`} label={label} shown={unit ? `${text} ${unit}` : text} measure="number" {...(note === undefined ? {} : { note })}
      isChanged={own !== null} onReset={() => keep(room, name, null)} onValue={(value, typed) => keep(room, name, toStored(value), typed)}
    />
  );
}
