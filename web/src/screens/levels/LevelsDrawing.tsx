/** The drawing while the floor is read: what is read, what is left, what was passed over, and where the rod stands now. */
import { useMemo } from "preact/hooks";
import type { Place } from "../../drawing/camera";
import { Drawing } from "../../drawing/Drawing";
import { isOnFloor } from "../../drawing/figure";
import type { PointKind, Scene, ScenePoint } from "../../drawing/scene";
import { FIRST_SETUP, preferences, setDraft } from "../../state";
import { lengthText, markText } from "../../units";
import { reader } from "../../words";
import { bareScene } from "../common/roomFigure";
import { layingIn, layTo } from "./laying";
import { draftFromTarget, targetDraft } from "./round";
import { suspectsIn } from "./suspects";
import type { Work } from "./work";

/** What was read; figures only where they hang from the line that one reads from now. */
function readPoints({ room, readings, outdated, standing }: Work): readonly ScenePoint[] {
  const suspects = new Set(suspectsIn(room, readings).map(({ reading }) => reading));
  return readings.flatMap(({ id, fields }): readonly ScenePoint[] => {
    if (!fields.at) return [];
    const isOwn = "setup" in standing && (fields.setup ?? FIRST_SETUP) === standing.setup;
    const label = isOwn ? markText(lengthText(fields.down ?? 0, reader.value)) : "";
    return [{ id, at: fields.at, label, kind: suspects.has(id) ? "suspect" : outdated.has(id) ? "estimated" : "read" }];
  });
}

function currentPlace({ round: { current }, room }: Work): Place | null {
  if (current && "again" in current) return room.readings.find(({ id }) => id === current.again)?.fields.at ?? null;
  return current && "place" in current ? current.place : null;
}

function point(kind: PointKind, at: Place, index: number): ScenePoint {
  return { id: `${kind}-${index}`, at, label: "", kind };
}

function pointsOf(work: Work): readonly ScenePoint[] {
  const { round, setups, standing } = work;
  const here = "laying" in standing ? null : currentPlace(work);
  const stands = "setup" in standing ? setups.find(({ id }) => id === standing.setup)?.at : undefined;
  return [
    ...round.left.map((at, index) => point("proposed", at, index)),
    ...round.skipped.map((at, index) => point("skipped", at, index)),
    ...(stands ? [point("instrument", stands, 0)] : []),
    ...readPoints(work),
    ...(here ? [point("current", here, 0)] : []),
  ];
}

function cutOf(work: Work): Scene["cut"] {
  const laying = "laying" in work.standing ? layingIn(work) : null;
  return laying?.to ? { from: laying.from, to: laying.to, at: null } : null;
}

export function LevelsDrawing({ work, onOpen }: { work: Work; onOpen: (id: string) => void }) {
  const { room, stage, standing } = work;
  const { language, units } = preferences.value;
  const bare = useMemo(() => bareScene(room.fields), [room.fields, language, units]);
  const scene: Scene = { ...bare, points: pointsOf(work), cut: cutOf(work) };
  const stand = (at: Place) => {
    if ("laying" in standing) layTo(work, [Math.round(at[0]), Math.round(at[1])]);
    else void setDraft(targetDraft(room.id, stage), draftFromTarget({ place: at }));
  };
  const opened = (id: string) => {
    const found = scene.points.find((other) => other.id === id);
    if (found?.kind === "proposed" || found?.kind === "skipped") stand(found.at);
    else if (found?.kind === "read" || found?.kind === "suspect" || found?.kind === "estimated") onOpen(id);
  };
  const placed = (at: Place) => { if (isOnFloor(scene.outline, scene.cutouts, at)) stand(at); };
  const touch = scene.points.filter(({ kind }) => kind !== "instrument" && kind !== "current");
  return <Drawing scene={scene} name="levels" touch={touch} onOpen={opened} onPlace={placed} />;
}
