/** A choice of the room with a default: changed where it is used, showing that it was, and put back with one tap. */
import { editRoom } from "../../state";
import { depthText, lengthText, numberText } from "../../units";
import { DEFAULTS, type Fields } from "../../wire";
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
  /** What holds where the room says nothing, where that hangs on another choice; else the engine's default. */
  readonly otherwise?: number;
  readonly note?: string;
}

interface Held {
  readonly value: number;
  readonly isChanged: boolean;
}

function defaultOf(name: NumberName): number {
  const found = (DEFAULTS as Partial<Record<NumberName, number>>)[name];
  if (found === undefined) throw new Error(`The engine has no default for ${name}: give what holds otherwise.`);
  return found;
}

/** A choice equal to its default counts as unchanged, so that the mark says something. */
function heldOf(room: RoomView, name: NumberName, otherwise: number | undefined): Held {
  const own = room.fields[name] ?? null;
  if (otherwise !== undefined) return { value: own ?? otherwise, isChanged: own !== null };
  return { value: own ?? defaultOf(name), isChanged: own !== null && own !== defaultOf(name) };
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
  const { value, isChanged } = heldOf(room, name, otherwise);
  return (
    <ValueField
      name={`${room.id}:${name}`} label={label} shown={lengthOf(value)} measure="length" {...(note === undefined ? {} : { note })}
      isChanged={isChanged} onReset={() => keep(room, name, null)} onValue={(mm, typed) => keep(room, name, mm, typed)}
    />
  );
}

interface NumberSettingProps extends SettingProps {
  /** From what is stored to what is shown and typed, and back: percent, litres, degrees. */
  readonly toShown?: (stored: number) => number;
  readonly toStored?: (shown: number) => number;
  readonly unit?: string;
  readonly places?: number;
  /** True where it may lie below zero. */
  readonly signed?: boolean;
  /** Why what was typed cannot be, in words; null where it can. */
  readonly faultOf?: (shown: number) => string | null;
}

const same = (value: number) => value;

export function NumberSetting({ room, name, label, otherwise, note, toShown = same, toStored = same, unit = "", places = 2, signed = false, faultOf }: NumberSettingProps) {
  const { value: held, isChanged } = heldOf(room, name, otherwise);
  const text = numberText(toShown(held), places, reader.value.language);
  return (
    <ValueField
      name={`${room.id}:${name}`} label={label} shown={unit ? `${text} ${unit}` : text} measure="number" signed={signed} {...(note === undefined ? {} : { note })}
      isChanged={isChanged} onReset={() => keep(room, name, null)} onValue={(value, typed) => keep(room, name, toStored(value), typed)} {...(faultOf ? { faultOf } : {})}
    />
  );
}
