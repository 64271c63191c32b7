/** A room's screen: list, drawing and figures; one above the other on a phone, side by side in a wide window. */
import type { ComponentChildren } from "preact";
import { countAt, roomsOf } from "../../state";
import { t } from "../../words";
import { PrintSheet } from "../print/PrintSheet";
import { Course, StepBar } from "./Course";
import { Link } from "./Link";
import { pathOfRoom, type CheckPart, type RailPart, type Step } from "./route";
import type { RoomView } from "./useRoom";

type Part = RailPart | CheckPart;

interface RoomFrameProps {
  readonly room: RoomView;
  readonly step: Step | null;
  /** Given on a screen that is a part of a step: it has no foot that leads to other steps. */
  readonly part?: Part;
  /** A screen worked by thumb stands still: nothing scrolls away. One with the keys gives them the foot of the screen. */
  readonly still?: "keys" | "thumb";
  readonly drawing: ComponentChildren;
  readonly children: ComponentChildren;
}

export const PART_TITLES = {
  layout: "rails.layout", true: "rails.truing", hands: "rails.hands", read: "checking.read", edge: "checking.edge", heights: "checking.heights",
} as const satisfies Record<Part, string>;

function Rooms({ room, step }: { room: RoomView; step: Step | null }) {
  const rooms = roomsOf(room.fields.job_id ?? "").value;
  return (
    <ul class="rooms-beside">
      {rooms.map(({ id, fields }) => (
        <li key={id}><Link to={pathOfRoom(id, step)} class="button plain wide" current={id === room.id}>{fields.name ?? ""}</Link></li>
      ))}
    </ul>
  );
}

function titleOf(step: Step | null, part: Part | undefined): string | null {
  if (part !== undefined) return t(PART_TITLES[part]);
  return step && t(`step.${step}`);
}

export function RoomFrame({ room, step, part, still, drawing, children }: RoomFrameProps) {
  const title = titleOf(step, part);
  const facts = { readings: countAt(room.readings, "subfloor"), plan: room.plan };
  return (
    <>
      <main class={`room ${still ? `still with-${still}` : "flowing"} at-${part ?? step ?? "floor"}`}>
        <nav class="room-beside" aria-label={t("course.label")}>
          <Rooms room={room} step={step} />
          <Course room={room.id} facts={facts} current={step} />
        </nav>
        <section class="room-drawing" aria-label={t("drawing.label")}>{drawing}</section>
        <section class="room-panel" aria-label={title ?? t("floor.figures")}>
          {title !== null && <h2 class="step-title">{title}</h2>}
          {children}
        </section>
      </main>
      {step && part === undefined && still !== "keys" && <StepBar room={room.id} step={step} />}
      <PrintSheet room={room} />
    </>
  );
}
