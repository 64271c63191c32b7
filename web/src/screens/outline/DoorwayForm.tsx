/** A doorway: which wall, from where to where, whether the crew leaves there, and the floor beyond. */
import { editRoom } from "../../state";
import type { Opening } from "../../wire";
import { t } from "../../words";
import { Choice } from "../common/Choice";
import { formOf, type Taped } from "../common/form";
import { saved } from "../common/saving";
import { TapedField } from "../common/TapedField";
import type { RoomView } from "../common/useRoom";
import { WallChooser } from "../common/WallChooser";
import { nextName } from "./names";

interface Door {
  readonly wall: number;
  readonly from: Taped | null;
  readonly to: Taped | null;
  readonly exit: "yes" | "no";
  readonly beyond: Taped | null;
  readonly leaf: Taped | null;
}

const BEGIN: Door = { wall: 0, from: null, to: null, exit: "no", beyond: null, leaf: null };

export interface PartFormProps {
  readonly room: RoomView;
  readonly lengths: readonly number[];
  readonly onDone: () => void;
}

function doorFrom({ wall, from, to, exit, beyond, leaf }: Door, id: string): Opening | null {
  if (!from || !to || to.mm <= from.mm) return null;
  return { id, wall, from: from.mm, to: to.mm, exit: exit === "yes", adjoining_height: beyond?.mm ?? null, door_bottom: leaf?.mm ?? null };
}

export function DoorwayForm({ room, lengths, onDone }: PartFormProps) {
  const { values, set, draft } = formOf(`doorway:${room.id}`, BEGIN);
  const doors = room.fields.openings ?? [];
  const door = doorFrom(values, nextName("D", doors.map(({ id }) => id)));
  const add = async () => {
    if (door && (await saved(editRoom(room.id, { openings: [...doors, door] }, { draft })))) onDone();
  };
  const isPast = values.to !== null && values.to.mm > (lengths[values.wall] ?? 0) + 1;
  const isBackwards = values.from !== null && values.to !== null && values.to.mm <= values.from.mm;
  return (
    <div class="stack">
      <WallChooser lengths={lengths} wall={values.wall} onWall={(wall) => set({ wall })} />
      <TapedField name="door-from" label={t("door.from")} value={values.from} onSet={(from) => set({ from })} />
      <TapedField name="door-to" label={t("door.to")} value={values.to} onSet={(to) => set({ to })} />
      {isBackwards && <p class="caution" role="status">{t("door.backwards")}</p>}
      {isPast && <p class="caution" role="status">{t("door.past")}</p>}
      <Choice label={t("door.exit")} name="exit" value={values.exit} onChoose={(exit) => set({ exit })} options={[{ value: "yes", label: t("yes") }, { value: "no", label: t("no") }]} />
      <TapedField name="door-beyond" label={t("door.beyond")} note={t("door.beyond_more")} signed value={values.beyond} onSet={(beyond) => set({ beyond })} />
      <TapedField name="door-leaf" label={t("door.leaf")} note={t("door.leaf_more")} signed value={values.leaf} onSet={(leaf) => set({ leaf })} />
      <button type="button" class="button main wide" data-testid="keep-doorway" disabled={!door || isPast} onClick={() => void add()}>{t("door.add")}</button>
    </div>
  );
}
