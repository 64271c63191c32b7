/** Where a step needs readings that are not there yet: what is missing, and the way to it. */
import { countAt } from "../../state";
import { t } from "../../words";
import { Link } from "./Link";
import { pathOfRails, pathOfRoom, type Step } from "./route";
import type { RoomView } from "./useRoom";

function missingText(room: RoomView): string {
  if (!room.fields.outline) return t("noplan.outline");
  return countAt(room.readings, "subfloor") < 3 ? t("noplan.levels") : t("noplan.problems");
}

/** Where choices are made that a plan may fail for, by the group they stand in. */
const STEP_OF: Readonly<Record<string, Step>> = { bed: "bed", mix: "material", curing: "waiting" };

interface Way {
  readonly to: string;
  readonly label: string;
}

/** Where what is missing or wrong is mended. */
export function wayToMend({ id, fields, state }: Pick<RoomView, "id" | "fields" | "state">): Way {
  const group = state.problems[0]?.path.split(".")[0] ?? "";
  if (fields.outline && group === "rails") return { to: pathOfRails(id, "layout"), label: t("rails.layout") };
  const step = fields.outline ? STEP_OF[group] ?? "levels" : "outline";
  return { to: pathOfRoom(id, step), label: t(`step.${step}`) };
}

export function NoPlan({ room }: { room: RoomView }) {
  if (room.state.status !== "problems" && countAt(room.readings, "subfloor") >= 3 && room.fields.outline) return null;
  const { to, label } = wayToMend(room);
  return (
    <div class="stack">
      <p>{missingText(room)}</p>
      <Link to={to} class="button main wide" testid="to-missing-step">{label}</Link>
    </div>
  );
}
