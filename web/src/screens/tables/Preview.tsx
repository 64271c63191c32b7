/** Where what was found falls on the drawing, beside what was read already. */
import { useMemo } from "preact/hooks";
import type { Place } from "../../drawing/camera";
import { Drawing } from "../../drawing/Drawing";
import type { ScenePoint } from "../../drawing/scene";
import { preferences } from "../../state";
import { heightText, lengthText, markText } from "../../units";
import { reader } from "../../words";
import { bareScene } from "../common/roomFigure";
import type { RoomView } from "../common/useRoom";
import type { Found } from "./found";

const MOST_LABELLED = 60; // more figures than these cannot be read side by side

function foundPoint({ at, z, down, outside }: Found, index: number, isLabelled: boolean): ScenePoint {
  const text = z === null ? lengthText(down ?? 0, reader.value) : heightText(z, reader.value);
  return { id: `found-${index}`, at, label: isLabelled ? markText(text) : "", kind: outside ? "suspect" : "read" };
}

function readPoints(room: RoomView): readonly ScenePoint[] {
  return room.readings.flatMap(({ id, fields }) => (fields.at ? [{ id, at: fields.at, label: "", kind: "estimated" as const }] : []));
}

export function Preview({ room, found, onPlace }: { room: RoomView; found: readonly Found[]; onPlace?: ((at: Place) => void) | undefined }) {
  const { language, units } = preferences.value;
  const scene = useMemo(() => {
    const points = found.map((one, index) => foundPoint(one, index, found.length <= MOST_LABELLED));
    return { ...bareScene(room.fields), points: [...readPoints(room), ...points] };
  }, [room.fields, room.readings, found, language, units]);
  return <Drawing scene={scene} name="preview" {...(onPlace ? { onPlace } : {})} />;
}
