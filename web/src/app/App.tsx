/** The frame of every screen: where one is, the way back, the one undo, and the quiet line that says what is saved. */
import { useEffect } from "preact/hooks";
import { acceptUpdate, loaded, updateOffered } from "../state";
import { OnlyLooks, ViewerBanner } from "../screens/common/OnlyLooks";
import { listenForBack, path, routeFromPath, type Route } from "../screens/common/route";
import { Missing } from "../screens/common/Missing";
import { Bed } from "../screens/bed/Bed";
import { Floor } from "../screens/floor/Floor";
import { Job } from "../screens/jobs/Job";
import { Jobs } from "../screens/jobs/Jobs";
import { NewJob } from "../screens/jobs/NewJob";
import { Levels } from "../screens/levels/Levels";
import { Outline } from "../screens/outline/Outline";
import { Rails } from "../screens/rails/Rails";
import { keepStoriesOfConflicts } from "../screens/review/keptStories";
import { t } from "../words";
import { AlarmBand } from "./AlarmBand";
import { watchAlarms } from "./alarms";
import { Head } from "./Head";
import { later } from "./later";
import { SaveLine } from "./SaveLine";
import { startFault } from "./startFault";

/** Not needed for the first look and the first round: each in a file of its own. */
const Board = later(() => import("../screens/board/Board").then((file) => file.Board));
const Checking = later(() => import("../screens/checking/Checking").then((file) => file.Checking));
const Filling = later(() => import("../screens/filling/Filling").then((file) => file.Filling));
const HeightLine = later(() => import("../screens/checking/heights/HeightLine").then((file) => file.HeightLine));
const History = later(() => import("../screens/history/History").then((file) => file.History));
const InOut = later(() => import("../screens/tables/InOut").then((file) => file.InOut));
const Joints = later(() => import("../screens/joints/Joints").then((file) => file.Joints));
const JobOrder = later(() => import("../screens/order/JobOrder").then((file) => file.JobOrder));
const People = later(() => import("../screens/people/People").then((file) => file.People));
const Prices = later(() => import("../screens/prices/Prices").then((file) => file.Prices));
const HandsOff = later(() => import("../screens/rails/hands/HandsOff").then((file) => file.HandsOff));
const LayEdge = later(() => import("../screens/checking/edge/LayEdge").then((file) => file.LayEdge));
const Layout = later(() => import("../screens/rails/layout/Layout").then((file) => file.Layout));
const Truing = later(() => import("../screens/rails/true/Truing").then((file) => file.Truing));
const ReadBed = later(() => import("../screens/checking/ReadBed").then((file) => file.ReadBed));
const Review = later(() => import("../screens/review/Review").then((file) => file.Review));
const Record = later(() => import("../screens/record/Record").then((file) => file.Record));
const Settings = later(() => import("../screens/settings/Settings").then((file) => file.Settings));
const Material = later(() => import("../screens/material/Material").then((file) => file.Material));
const Waiting = later(() => import("../screens/waiting/Waiting").then((file) => file.Waiting));

const STEP_SCREENS = { outline: Outline, levels: Levels, bed: Bed, material: Material, rails: Rails, filling: Filling, checking: Checking, waiting: Waiting } as const;
const PART_SCREENS = { layout: Layout, true: Truing, hands: HandsOff, read: ReadBed, edge: LayEdge, heights: HeightLine } as const;

function Screen({ route }: { route: Route }) {
  if (route.name === "room") {
    const Step = route.step === null ? Floor : STEP_SCREENS[route.step];
    return <Step key={route.room} id={route.room} />;
  }
  if (route.name === "rails" || route.name === "checking") {
    const Part = PART_SCREENS[route.part];
    return <Part key={route.room} id={route.room} />;
  }
  if (route.name === "in_out") return <InOut key={route.room} id={route.room} />;
  if (route.name === "record") return <Record key={route.room} id={route.room} />;
  if (route.name === "joints") return <Joints key={route.room} id={route.room} />;
  if (route.name === "job") return <Job key={route.job} id={route.job} />;
  if (route.name === "order") return <JobOrder key={route.job} id={route.job} />;
  if (route.name === "prices") return <Prices />;
  if (route.name === "jobs") return <Jobs />;
  if (route.name === "board") return <Board />;
  if (route.name === "new_job") return <NewJob />;
  if (route.name === "settings") return <Settings />;
  if (route.name === "people") return <People />;
  if (route.name === "history") return <History key={route.id} kind={route.kind} id={route.id} />;
  return route.name === "review" ? <Review /> : <Missing />;
}

function UpdateOffer() {
  if (!updateOffered.value) return null;
  return (
    <div class="offer" role="status">
      <span>{t("update.ready")}</span>
      <button type="button" class="button" data-testid="accept-update" onClick={acceptUpdate}>{t("update.take")}</button>
    </div>
  );
}

/** The way out that needs no app: at once where the start failed; once the stored records keep one waiting (the style sheet counts). */
function NotLoaded() {
  return (
    <main class={startFault.value ? "page narrow" : "page narrow not-loaded"} data-testid="not-loaded">
      <p class="caution">{t(startFault.value ? "start.failed" : "start.slow")}</p>
      <a class="button main wide" href="/rescue.html">{t("start.rescue")}</a>
    </main>
  );
}

export function App() {
  useEffect(listenForBack, []);
  useEffect(keepStoriesOfConflicts, []);
  useEffect(watchAlarms, []);
  const route = routeFromPath(path.value);
  return (
    <div class="app">
      <Head route={route} />
      <SaveLine />
      <div class="offers"><AlarmBand /><ViewerBanner /><UpdateOffer /></div>
      {loaded.value ? <Screen route={route} /> : <NotLoaded />}
      <OnlyLooks />
    </div>
  );
}
