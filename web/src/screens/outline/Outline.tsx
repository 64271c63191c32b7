/** The outline: walked or as a rectangle; then its walls, doorways, cutouts and what stands in the floor. */
import { useMemo, useState } from "preact/hooks";
import { Drawing } from "../../drawing/Drawing";
import { walkOf } from "../../drawing/figure";
import { EMPTY_SCENE, type Scene } from "../../drawing/scene";
import { preferences } from "../../state";
import { lengthText } from "../../units";
import { reader, t } from "../../words";
import { Choice } from "../common/Choice";
import { roomScene } from "../common/roomFigure";
import { Missing } from "../common/Missing";
import { RoomFrame } from "../common/RoomFrame";
import { useRoom, type RoomView } from "../common/useRoom";
import { Closed } from "./Closed";
import { Rectangle } from "./Rectangle";
import { Walk } from "./Walk";
import { walkedWalls, type WalkedWall } from "./walkedWalls";

function walkScene(walls: readonly WalkedWall[]): Scene {
  const { places } = walkOf(walls);
  return {
    ...EMPTY_SCENE, outline: places, isClosed: false, wallLabels: walls.map(({ length }) => lengthText(length, reader.value)),
    spoken: t("walk.spoken", { walls: walls.length }),
  };
}

function Open({ room }: { room: RoomView }) {
  const walls = walkedWalls(room.id);
  const [way, setWay] = useState<"walls" | "rectangle">("walls");
  return (
    <RoomFrame room={room} step="outline" still="keys" drawing={<Drawing scene={walkScene(walls)} name="walk" />}>
      {walls.length === 0 && (
        <Choice label={t("outline.way")} name="way" quiet value={way} onChoose={setWay} options={[{ value: "walls", label: t("outline.walls") }, { value: "rectangle", label: t("outline.rectangle") }]} />
      )}
      {way === "walls" || walls.length > 0 ? <Walk room={room} /> : <Rectangle room={room} />}
    </RoomFrame>
  );
}

function Whole({ room }: { room: RoomView }) {
  const { language, units } = preferences.value;
  const scene = useMemo(() => roomScene(room.fields), [room.fields, language, units]);
  return (
    <RoomFrame room={room} step="outline" drawing={<Drawing scene={scene} name="outline" />}>
      <Closed room={room} />
    </RoomFrame>
  );
}

export function Outline({ id }: { id: string }) {
  const room = useRoom(id);
  if (!room) return <Missing />;
  return room.fields.outline ? <Whole room={room} /> : <Open room={room} />;
}
