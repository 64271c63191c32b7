/** Setting the rails, one station at a time: the shim in giant figures, where it is, what comes next. */
import { useMemo, useState } from "preact/hooks";
import { Drawing } from "../../drawing/Drawing";
import { preferences } from "../../state";
import type { Plan } from "../../wire";
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { Habits } from "../common/Habits";
import { bareScene } from "../common/roomFigure";
import { sceneRails } from "../common/layers";
import { Link } from "../common/Link";
import { Missing } from "../common/Missing";
import { NoPlan } from "../common/NoPlan";
import { Cautions, PlanNotes } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { RoomFrame } from "../common/RoomFrame";
import { pathOfRails } from "../common/route";
import { useAwake } from "../common/useAwake";
import { useRoom, type RoomView } from "../common/useRoom";
import { Hand } from "./Hand";
import { ShimDialog } from "./ShimTable";
import { useSetting, type SettingStations } from "./useSetting";

type Sheet = "table" | "know";

function RailsDrawing({ room, setting }: { room: RoomView; setting: SettingStations }) {
  const { language, units } = preferences.value;
  const bare = useMemo(() => bareScene(room.fields), [room.fields, language, units]);
  const { set, done, hand, choose } = setting;
  const asPlanned = new Map([...set].filter(([key]) => done.has(key)));
  const rails = room.plan ? sceneRails(room.plan.rails, asPlanned, hand?.key ?? null) : [];
  const touch = rails.flatMap((rail) => rail.stations.map((station, index) => ({ id: `${rail.id}:${index}`, at: station.at })));
  return <Drawing scene={{ ...bare, rails }} name="rails" onOpen={choose} touch={touch} />;
}

/** The station in hand, or that there is none; and how many are to be set anew, where the one in hand does not say it of itself. */
function Standing({ plan, setting }: { plan: Plan; setting: SettingStations }) {
  const { hand, moved, standings } = setting;
  const isToldInHand = hand !== null && moved.has(hand.key);
  return (
    <>
      {moved.size > 0 && !isToldInHand && <p class="caution short" data-testid="stations-changed">{t("rails.changed", { count: moved.size })}</p>}
      {hand && <Hand plan={plan} hand={hand} setting={setting} />}
      {!hand && <p class="notice good" data-testid="rails-done">{standings.length > 0 ? t("rails.all_set") : t("rails.none")}</p>}
    </>
  );
}

interface WaysProps {
  readonly room: RoomView;
  readonly cautions: number;
  readonly onSheet: (sheet: Sheet) => void;
}

/** What else is done about the rails, beside setting the one in hand. */
function Ways({ room, cautions, onSheet }: WaysProps) {
  return (
    <div class="row even ways">
      <button type="button" class="button" data-testid="shim-table" disabled={!room.plan} onClick={() => onSheet("table")}>{t("rails.table")}</button>
      {cautions > 0 && <button type="button" class="button warns" data-testid="rail-cautions" onClick={() => onSheet("know")}>{t("rails.know", { count: cautions })}</button>}
      <Link to={pathOfRails(room.id, "layout")} class="button" testid="rails-layout">{t("rails.to_layout")}</Link>
      <Link to={pathOfRails(room.id, "hands")} class="button" testid="rails-hands">{t("rails.to_hands")}</Link>
      <Link to={pathOfRails(room.id, "true")} class="button" testid="rails-true">{t("rails.to_true")}</Link>
    </div>
  );
}

export function Rails({ id }: { id: string }) {
  useAwake();
  const room = useRoom(id);
  const setting = useSetting(id, room?.plan ?? null);
  const [sheet, setSheet] = useState<Sheet | null>(null);
  if (!room) return <Missing />;
  const { plan } = room;
  const cautions = plan ? cautionsAt(plan, "rails") : [];
  const close = () => setSheet(null);
  return (
    <RoomFrame room={room} step="rails" still="thumb" drawing={<RailsDrawing room={room} setting={setting} />}>
      {!plan && <><PlanNotes state={room.state} /><NoPlan room={room} /></>}
      {plan && <Standing plan={plan} setting={setting} />}
      <Habits room={room} at="before_rails" />
      <Ways room={room} cautions={cautions.length} onSheet={setSheet} />
      {sheet === "table" && plan && <ShimDialog plan={plan} set={setting.set} onChoose={(key) => { setting.choose(key); close(); }} onClose={close} />}
      {sheet === "know" && <Dialog title={t("rails.know_title")} testid="rails-know" onClose={close}><Cautions cautions={cautions} /></Dialog>}
    </RoomFrame>
  );
}
