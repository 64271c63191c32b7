/** Walking the walls: type a length, say which way the corner turns, and close the figure where the walk began. */
import { useCallback, useEffect, useState } from "preact/hooks";
import { misclosureOf, walkOf } from "../../drawing/figure";
import { typedLength } from "../../keypad/keys";
import { clearDraft, editRoom, getDraft, preferences } from "../../state";
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { Entry } from "../common/Entry";
import { offerStepBack } from "../common/stepBack";
import { saved } from "../common/saving";
import type { RoomView } from "../common/useRoom";
import { closedWalls, keepWalls, typedWalls, walkDraft, walkedWalls, type WalkedWall } from "./walkedWalls";

const LEAST_WALLS = 3;

interface Walking {
  readonly walls: readonly WalkedWall[];
  readonly length: number | null;
  readonly add: (turn: number) => void;
  readonly close: () => void;
}

function useWalk(room: RoomView): Walking {
  const lengthDraft = `wall:${room.id}`;
  const typed = getDraft(lengthDraft) ?? "";
  const walls = walkedWalls(room.id);
  const length = typedLength(typed, preferences.value.units);
  const withTyped = (turn: number) => (length !== null && length > 0 ? [...walls, { length, turn, typed }] : walls);
  const add = (turn: number) => { keepWalls(room.id, withTyped(turn)); void clearDraft(lengthDraft); };
  const close = () => {
    const all = withTyped(90);
    const outline = { walls: closedWalls(all), cutouts: [] };
    const edit = editRoom(room.id, { outline, typed: { ...room.fields.typed, ...typedWalls(all) } }, { draft: walkDraft(room.id) });
    void saved(edit).then((isSaved) => { if (isSaved) void clearDraft(lengthDraft); });
  };
  return { walls, length, add, close };
}

function Turns({ walking, canClose }: { walking: Walking; canClose: boolean }) {
  const asleep = walking.length === null || walking.length <= 0;
  return (
    <div class="row even turns">
      <button type="button" class="button" data-testid="turn-left" disabled={asleep} onClick={() => walking.add(90)}>{`\u21b0 ${t("walk.left")}`}</button>
      <button type="button" class="button" data-testid="turn-right" disabled={asleep} onClick={() => walking.add(-90)}>{`\u21b1 ${t("walk.right")}`}</button>
      <button type="button" class="button main" data-testid="close-figure" disabled={!canClose} onClick={walking.close}>{t("walk.close")}</button>
    </div>
  );
}

function Angle({ onDegrees, onClose }: { onDegrees: (degrees: number) => void; onClose: () => void }) {
  const done = (degrees: number) => { void clearDraft("turn"); onDegrees(degrees); };
  return (
    <Dialog title={t("walk.angle")} testid="angle" onClose={onClose}>
      <p class="quiet">{t("walk.angle_more")}</p>
      <Entry what={t("walk.degrees")} draft="turn" measure="number" signed nextLabel={t("keys.set")} onDone={done} />
    </Dialog>
  );
}

function gapText(walls: readonly WalkedWall[]): string {
  if (walls.length === 0) return t("walk.begin");
  const gap = misclosureOf(walkOf(walls));
  return gap < 0.5 ? t("walk.meets") : t("walk.gap", { gap });
}

export function Walk({ room }: { room: RoomView }) {
  const walking = useWalk(room);
  const [turning, setTurning] = useState(false);
  const { walls, length } = walking;
  const count = walls.length + (length !== null && length > 0 ? 1 : 0);
  const back = useCallback(() => keepWalls(room.id, walkedWalls(room.id).slice(0, -1)), [room.id]);
  useEffect(() => offerStepBack(walls.length > 0 ? back : null), [walls.length > 0, back]);
  const next = useCallback(() => walking.add(90), [walking]);
  return (
    <div class="stack tight">
      <p class="gap-line" role="status" data-testid="gap">{gapText(walls)}</p>
      <Entry
        what={t("walk.length", { wall: walls.length + 1 })} draft={`wall:${room.id}`} measure="length" nextLabel={t("walk.next_left")} onDone={next}
        beside={<button type="button" class="button" data-testid="turn-other" disabled={length === null || length <= 0} onClick={() => setTurning(true)}>{t("walk.other")}</button>}
      />
      <Turns walking={walking} canClose={count >= LEAST_WALLS} />
      {turning && <Angle onDegrees={(degrees) => { setTurning(false); walking.add(degrees); }} onClose={() => setTurning(false)} />}
    </div>
  );
}
