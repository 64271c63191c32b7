/** A place by two tapes: from two corners, jambs or read places, each with its distance; where both may meet twice, by tap. */
import { useEffect, useState } from "preact/hooks";
import type { Place } from "../../drawing/camera";
import { Drawing } from "../../drawing/Drawing";
import type { ScenePoint } from "../../drawing/scene";
import { askEngine, type Asked } from "../../state";
import type { Stage, TapedPlaceAnswer } from "../../wire";
import { t } from "../../words";
import { formOf, type Taped } from "../common/form";
import { problemText } from "../common/plan";
import { bareScene, roomScene } from "../common/roomFigure";
import { TapedField } from "../common/TapedField";
import type { RoomView } from "../common/useRoom";
import { isSamePlace, placesRead } from "./round";

interface Tapes {
  readonly from: readonly Place[];
  readonly first: Taped | null;
  readonly second: Taped | null;
}

type Answer = Asked<TapedPlaceAnswer> | null;

const NO_TAPES: Tapes = { from: [], first: null, second: null };
const NAMES = ["A", "B"];

/** What a tape can be held to: corners, jambs, places read. */
function holds(room: RoomView, stage: Stage): readonly Place[] {
  const { outline, doorways } = roomScene(room.fields);
  return [...outline, ...doorways.flatMap(({ from, to }) => [from, to]), ...placesRead(room.readings, stage)];
}

/** The engine's answer for two places and two distances; null while something is missing or it reckons. */
function useMeeting(room: RoomView, { from, first, second }: Tapes): Answer {
  const [answer, setAnswer] = useState<Answer>(null);
  const asked = from.length === 2 && first && second ? { outline: room.fields.outline, from, distances: [first.mm, second.mm] } : null;
  const text = JSON.stringify(asked);
  useEffect(() => {
    let isCurrent = true;
    setAnswer(null);
    if (asked) void askEngine<TapedPlaceAnswer>("taped_place", `taped:${room.id}`, asked).then((found) => { if (isCurrent) setAnswer(found); });
    return () => { isCurrent = false; };
  }, [text]);
  return answer;
}

function pointsOf(room: RoomView, stage: Stage, from: readonly Place[], found: readonly Place[]): readonly ScenePoint[] {
  const open = holds(room, stage).filter((place) => !from.some((other) => isSamePlace(other, place)));
  return [
    ...open.map((at, index): ScenePoint => ({ id: `hold-${index}`, at, label: "", kind: "estimated" })),
    ...from.map((at, index): ScenePoint => ({ id: `from-${index}`, at, label: NAMES[index] ?? "", kind: "current" })),
    ...found.map((at, index): ScenePoint => ({ id: `found-${index}`, at, label: `${index + 1}`, kind: "wanting" })),
  ];
}

function Outcome({ answer, onPlace }: { answer: Answer; onPlace: (at: Place) => void }) {
  if (answer?.outcome === "failed") return <p class="caution" role="status">{t("engine.failed")}</p>;
  if (answer?.outcome === "problems") return <p class="caution" role="status" data-testid="tapes-problem">{answer.problems.map(problemText).join(" ")}</p>;
  if (answer?.outcome !== "answered") return null;
  const { places } = answer.answer;
  return (
    <div class="row even">
      {places.map((at, index) => (
        <button key={index} type="button" class="button main" data-testid="tapes-place" onClick={() => onPlace(at)}>{places.length === 1 ? t("levels.stand") : t("tapes.place", { number: index + 1 })}</button>
      ))}
    </div>
  );
}

export function TwoTapes({ room, stage, onPlace }: { room: RoomView; stage: Stage; onPlace: (at: Place) => void }) {
  const form = formOf(`tapes:${room.id}`, NO_TAPES);
  const { from, first, second } = form.values;
  const answer = useMeeting(room, form.values);
  const found = answer?.outcome === "answered" ? answer.answer.places : [];
  const points = pointsOf(room, stage, from, found);
  const stand = ([x, y]: Place) => { form.clear(); onPlace([Math.round(x), Math.round(y)]); };
  const tapped = (id: string) => {
    const point = points.find((other) => other.id === id);
    if (point?.kind === "wanting") stand(point.at);
    else if (point?.kind === "current") form.set({ from: from.filter((other) => other !== point.at) });
    else if (point) form.set({ from: [...from.slice(-1), point.at] });
  };
  return (
    <div class="stack">
      <p class="quiet">{t(from.length < 2 ? "tapes.choose" : found.length > 1 ? "tapes.which" : "tapes.measure")}</p>
      <div class="pick"><Drawing scene={{ ...bareScene(room.fields), points }} name="tapes" onOpen={tapped} /></div>
      <TapedField name="tape-first" label={t("tapes.from", { name: "A" })} value={first} onSet={(set) => form.set({ first: set })} />
      <TapedField name="tape-second" label={t("tapes.from", { name: "B" })} value={second} onSet={(set) => form.set({ second: set })} />
      <Outcome answer={answer} onPlace={stand} />
    </div>
  );
}
