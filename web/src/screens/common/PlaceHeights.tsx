/** The heights at a doorway or a fixture: known when it is drawn or learnt much later, and changed wherever they count. */
import { editRoom } from "../../state";
import { heightText } from "../../units";
import type { Fixture, Opening } from "../../wire";
import { reader, t } from "../../words";
import { saved } from "./saving";
import type { RoomView } from "./useRoom";
import { ValueField } from "./ValueField";

interface HeightFieldProps {
  readonly name: string;
  readonly label: string;
  readonly note: string;
  /** z; null where nobody knows it. */
  readonly value: number | null;
  readonly onValue: (value: number | null) => void;
}

function HeightField({ name, label, note, value, onValue }: HeightFieldProps) {
  return (
    <ValueField
      name={name} label={label} note={note} measure="length" signed shown={value === null ? t("not_known") : heightText(value, reader.value)}
      canReset={value !== null} resetLabel={t("field.unknown")} onReset={() => onValue(null)} onValue={onValue}
    />
  );
}

export function DoorHeights({ room, door }: { room: RoomView; door: Opening }) {
  const change = (changed: Partial<Opening>) => {
    const openings = (room.fields.openings ?? []).map((one) => (one.id === door.id ? { ...one, ...changed } : one));
    void saved(editRoom(room.id, { openings }));
  };
  return (
    <div class="stack tight">
      <HeightField name={`${room.id}:beyond-${door.id}`} label={t("door.beyond")} note={t("door.beyond_more")} value={door.adjoining_height ?? null} onValue={(z) => change({ adjoining_height: z })} />
      <HeightField name={`${room.id}:leaf-${door.id}`} label={t("door.leaf")} note={t("door.leaf_more")} value={door.door_bottom ?? null} onValue={(z) => change({ door_bottom: z })} />
    </div>
  );
}

export function FixtureTop({ room, fixture }: { room: RoomView; fixture: Fixture }) {
  const change = (height: number | null) => {
    const fixtures = (room.fields.fixtures ?? []).map((one) => (one.id === fixture.id ? { ...one, height } : one));
    void saved(editRoom(room.id, { fixtures }));
  };
  return <HeightField name={`${room.id}:top-${fixture.id}`} label={t("fixture.height")} note={t("fixture.height_more")} value={fixture.height ?? null} onValue={change} />;
}
