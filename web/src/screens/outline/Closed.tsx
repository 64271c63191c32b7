/** A closed outline: how well it closed, its walls to correct, and what belongs to it. */
import { editRoom } from "../../state";
import { areaText, lengthText } from "../../units";
import type { Outline } from "../../wire";
import { reader, t } from "../../words";
import { Figure } from "../common/Figure";
import { Cautions, PlanNotes } from "../common/Notes";
import { roundTheWalls } from "../common/ownExplanations";
import { cautionsAt } from "../common/plan";
import { saved } from "../common/saving";
import type { RoomView } from "../common/useRoom";
import { ValueField } from "../common/ValueField";
import { Misclosure } from "./Misclosure";
import { Cutouts, Doorways, Fixtures } from "./Parts";
import { keepWalls } from "./walkedWalls";

function WallLines({ room, outline }: { room: RoomView; outline: Outline }) {
  const walls = outline.walls ?? [];
  if (walls.length === 0) return null;
  const change = (index: number, length: number, typed: string) => {
    const changed = walls.map((wall, other) => (other === index ? { ...wall, length } : wall));
    void saved(editRoom(room.id, { outline: { ...outline, walls: changed }, typed: { ...room.fields.typed, [`outline.walls.${index}`]: typed } }));
  };
  return (
    <section class="stack tight">
      <h3>{t("walls.title")}</h3>
      {walls.map(({ length }, index) => (
        <ValueField key={index} name={`${room.id}:wall-${index + 1}`} label={t("walls.one", { wall: index + 1 })} shown={lengthText(length, reader.value)} measure="length" onValue={(mm, typed) => change(index, mm, typed)} />
      ))}
    </section>
  );
}

async function walkAgain(room: RoomView, outline: Outline): Promise<void> {
  const typed = room.fields.typed ?? {};
  const walls = (outline.walls ?? []).map((wall, index) => ({ ...wall, typed: typed[`outline.walls.${index}`] ?? "" }));
  if (await saved(editRoom(room.id, { outline: null }))) keepWalls(room.id, walls.slice(0, -1));
}

export function Closed({ room }: { room: RoomView }) {
  const outline = room.fields.outline ?? {};
  const { plan } = room;
  return (
    <div class="stack">
      {!room.state.problems.some(({ code }) => code === "does_not_close") && <Misclosure outline={outline} />}
      {plan && <Cautions cautions={cautionsAt(plan, "outline")} />}
      <PlanNotes state={room.state} />
      {plan && (
        <div class="figures">
          <Figure label={t("outline.area")} value={areaText(plan.outline.area, reader.value)} plan={plan} path="outline.area" />
          <Figure label={t("outline.perimeter")} value={lengthText(plan.outline.perimeter, reader.value)} plan={plan} path="outline.perimeter" explanation={roundTheWalls(plan)} />
        </div>
      )}
      <Doorways room={room} />
      <Cutouts room={room} />
      <Fixtures room={room} />
      <WallLines room={room} outline={outline} />
      <button type="button" class="button danger wide" data-testid="walk-again" onClick={() => void walkAgain(room, outline)}>{t("outline.again")}</button>
    </div>
  );
}
