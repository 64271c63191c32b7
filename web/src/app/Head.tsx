/** The head of every screen: back, where one is, undo, settings. */
import { useEffect } from "preact/hooks";
import { canUndo, jobOf, roomOf, undo } from "../state";
import { isOffice, t } from "../words";
import { Link } from "../screens/common/Link";
import { Mark } from "../screens/common/Mark";
import { PART_TITLES } from "../screens/common/RoomFrame";
import { pathOfRecord } from "../screens/common/recordName";
import { beforePrices, beforeSettings, pathOfRoom, type Route } from "../screens/common/route";
import { saved } from "../screens/common/saving";
import { stepBack } from "../screens/common/stepBack";

interface Standing {
  readonly back: string | null;
  readonly title: string;
  readonly over?: string;
}

function placeOf(route: Route): Standing {
  if (route.name === "settings") return { back: beforeSettings.value, title: t("app.name") };
  if (route.name === "people") return { back: "/settings", title: t("app.name") };
  if (route.name === "prices") return { back: beforePrices.value, title: t("app.name") };
  if (route.name === "order") return { back: `/job/${route.job}`, title: t("order.title"), over: jobOf(route.job)?.fields.name ?? "" };
  if (route.name === "history") return { back: pathOfRecord(route.kind, route.id), title: t("history.open") };
  if (route.name === "job") return { back: "/", title: jobOf(route.job)?.fields.name ?? "" };
  if (route.name === "in_out") return { back: pathOfRoom(route.room), title: t("in_out.title"), over: roomOf(route.room)?.fields.name ?? "" };
  if (route.name === "record") return { back: pathOfRoom(route.room), title: t("record.title"), over: roomOf(route.room)?.fields.name ?? "" };
  if (route.name === "joints") return { back: pathOfRoom(route.room), title: t("layer.joints"), over: roomOf(route.room)?.fields.name ?? "" };
  if (route.name === "rails" || route.name === "checking") return { back: pathOfRoom(route.room, route.name), title: t(PART_TITLES[route.part]), over: roomOf(route.room)?.fields.name ?? "" };
  if (route.name !== "room") return { back: route.name === "jobs" ? null : "/", title: t("app.name") };
  const room = roomOf(route.room)?.fields;
  const back = route.step === null ? `/job/${room?.job_id ?? ""}` : pathOfRoom(route.room);
  const name = room?.name ?? "";
  return route.step === null ? { back, title: name } : { back, title: t(`step.${route.step}`), over: name };
}

function takeBack(): void {
  const step = stepBack.peek();
  if (step) step();
  else void saved(undo());
}

export function Head({ route }: { route: Route }) {
  const { back, title, over } = placeOf(route);
  useEffect(() => { document.title = title === t("app.name") ? title : `${title} · ${t("app.name")}`; }, [title]);
  const idle = !canUndo.value && stepBack.value === null;
  return (
    <header class="head">
      {back === null
        ? <span class="head-mark"><Mark /></span>
        : <Link to={back} class="button icon plain" label={t("back")} testid="back">{"\u2039"}</Link>}
      <span class="head-title">{over !== undefined && <span class="over">{over}</span>}<span>{title}</span></span>
      <button type="button" class="button plain" data-testid="undo" disabled={idle} onClick={takeBack}>{t("undo")}</button>
      {isOffice.value && route.name !== "board" && <Link to="/board" class="button plain" testid="open-board">{t("board.title")}</Link>}
      <Link to="/settings" class="button icon plain" label={t("settings.title")} testid="open-settings" current={route.name === "settings"}>{"\u2630"}</Link>
    </header>
  );
}
