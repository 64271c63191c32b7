/** All jobs on this phone. */
import { jobs, mayWrite, roomsOf, session, type Row } from "../../state";
import { t } from "../../words";
import { Link } from "../common/Link";
import { Mark } from "../common/Mark";
import { ToDecide } from "../common/ToDecide";
import { TakeJobFile } from "./JobFile";

function JobCard({ job }: { job: Row<"job"> }) {
  const rooms = roomsOf(job.id).value;
  return (
    <li>
      <Link to={`/job/${job.id}`} class="card job" testid="job">
        <span class="card-name">{job.fields.name}</span>
        {job.fields.place && <span class="quiet">{job.fields.place}</span>}
        <span class="card-fact">{t("jobs.rooms", { count: rooms.length })}</span>
        <ToDecide job={job.id} />
      </Link>
    </li>
  );
}

function Nothing() {
  return (
    <div class="nothing">
      <Mark large />
      <h2>{t("jobs.none")}</h2>
      <p class="quiet">{t(session.value.joined ? "jobs.none_assigned" : "jobs.none_more")}</p>
    </div>
  );
}

export function Jobs() {
  return (
    <main class="page" data-testid="jobs">
      <h1>{t("jobs.title")}</h1>
      {jobs.value.length === 0 ? <Nothing /> : <ul class="cards">{jobs.value.map((job) => <JobCard key={job.id} job={job} />)}</ul>}
      {jobs.value.length > 0 && <Link to="/board" class="button wide" testid="to-board">{t("board.title")}</Link>}
      {mayWrite.value && <Link to="/new" class="button main wide" testid="new-job">{t("jobs.new")}</Link>}
      <TakeJobFile />
      {!session.value.joined && <Link to="/settings" class="button wide" testid="go-join">{t("jobs.join")}</Link>}
    </main>
  );
}
