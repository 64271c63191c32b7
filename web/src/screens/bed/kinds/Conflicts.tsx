/** Heights that cannot all hold: which they are, what each alone would have to give, and one tap to let it give. */
import { fallText } from "../../../units";
import type { Problem, Top } from "../../../wire";
import { reader, t } from "../../../words";
import { problemText } from "../../common/plan";
import type { RoomFields } from "../../common/roomFigure";
import { heldAt, holdPlaces } from "./holds";
import { placeName } from "./LeastForm";
import { conflictOf, heldIndex, isConflict, reliefFor, type Relief } from "./relief";

interface ConflictsProps {
  readonly room: RoomFields;
  readonly problems: readonly Problem[];
  readonly top: Top;
  readonly onRelief: (relief: Relief) => void;
}

/** What the person calls the place that is held, empty where no place is. */
function heldPlace({ path }: Problem, top: Top, room: RoomFields): string {
  const held = top.kind === "least_mortar" ? top.holds?.[heldIndex(path)] : undefined;
  const place = held && holdPlaces(room).find((one) => heldAt([held], one) !== null);
  return place ? placeName(place) : "";
}

function conflictText(problem: Problem, top: Top, room: RoomFields): string {
  const conflict = conflictOf(problem);
  if (conflict === null) return problemText(problem);
  const { limit, alone } = problem.values;
  const values = { ...problem.values, place: heldPlace(problem, top, room) };
  if (!conflict.startsWith("fall")) return t(`unfit.${conflict}`, values);
  const fall = (ratio: unknown) => (typeof ratio === "number" ? fallText(ratio, reader.value) : "");
  return t(`unfit.${conflict}`, { limit: fall(limit), alone: fall(alone) });
}

export function Conflicts({ room, problems, top, onRelief }: ConflictsProps) {
  const found = problems.filter(isConflict);
  const together = found[0]?.values["together"];
  if (found.length === 0) return null;
  return (
    <section class="conflicts" role="status" data-testid="conflicts">
      <h3>{t("unfit.title")}</h3>
      <p>{t(typeof together === "number" ? "unfit.more" : "unfit.one", { together })}</p>
      <ul class="lines">
        {found.map((problem) => {
          const relief = reliefFor(problem, top);
          return (
            <li key={`${problem.path} ${problem.code}`} class="line tall">
              <span data-code={problem.code}>{conflictText(problem, top, room)}</span>
              {relief && <button type="button" class="button" data-testid={`relieve-${problem.code}`} onClick={() => onRelief(relief)}>{t("unfit.let")}</button>}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
