/** One job as one file: the way out of and into a phone where there is no network at all. */
import { useEffect, useRef, useState } from "preact/hooks";
import { mayWrite, noteOpened, NotSavedError, saveJobFile, takeJobFile, type JobFile, type JobTaken } from "../../state";
import { t, told } from "../../words";
import { Link } from "../common/Link";
import { saveFile } from "../common/saveFile";
import { sayOnlyLooks } from "../common/saving";

const MEDIA_TYPE = "application/zip";

function shareable({ name, content }: JobFile): { readonly files: File[] } {
  return { files: [new File([content], name, { type: MEDIA_TYPE })] };
}

function isShareOffered(file: JobFile): boolean {
  return "canShare" in navigator && navigator.canShare(shareable(file));
}

function Saved({ file }: { file: JobFile }) {
  const share = () => void navigator.share(shareable(file)).catch(() => undefined);
  return (
    <div class="notice" role="status" data-testid="job-file-saved">
      <p>{t("jobfile.saved", { changes: file.changes, photos: file.photos })}</p>
      {!file.hasHistory && <p>{t("jobfile.no_history")}</p>}
      {file.photosMissing > 0 && <p>{t("jobfile.photos_missing", { photos: file.photosMissing })}</p>}
      {isShareOffered(file) && <button type="button" class="button wide" data-testid="share-job-file" onClick={share}>{t("jobfile.share")}</button>}
    </div>
  );
}

/** For the page of a job: looking at it also has its past fetched, so that the file is whole without a network. */
export function SaveJobFile({ job }: { job: string }) {
  const [file, setFile] = useState<JobFile | null>(null);
  useEffect(() => { void noteOpened(job).catch(() => undefined); }, [job]);
  const save = async () => {
    const made = await saveJobFile(job);
    if (made === null) return;
    saveFile(made.name, made.content, MEDIA_TYPE);
    setFile(made);
  };
  return (
    <section class="stack tight">
      <button type="button" class="button wide" data-testid="save-job-file" onClick={() => void save()}>{t("jobfile.save")}</button>
      <p class="quiet small">{t("jobfile.more")}</p>
      {file !== null && <Saved file={file} />}
    </section>
  );
}

function Taken({ taken }: { taken: Extract<JobTaken, { outcome: "taken" }> }) {
  return (
    <>
      <p>{taken.changes + taken.photos === 0 ? t("jobfile.nothing_new", { known: taken.known }) : t("jobfile.taken", { changes: taken.changes, photos: taken.photos, known: taken.known })}</p>
      {!taken.hasHistory && <p>{t("jobfile.had_no_history")}</p>}
      {taken.photosMissing > 0 && <p>{t("jobfile.had_not_all_photos", { photos: taken.photosMissing })}</p>}
      {taken.unknown.length > 0 && <p>{t("jobfile.left_out", { names: taken.unknown.slice(0, 10).join(", ") })}</p>}
      <Link to={`/job/${taken.job}`} class="button wide" testid="open-taken">{t("jobfile.open")}</Link>
    </>
  );
}

function NotTaken({ fault, about }: { fault: string; about: string }) {
  return (
    <>
      <p>{t("jobfile.not_taken")}</p>
      <p>{told("jobfault", fault, { about }, fault)}</p>
    </>
  );
}

type Standing = JobTaken | { readonly outcome: "reading" | "not_saved" };

function Told({ standing }: { standing: Standing }) {
  return (
    <div class={standing.outcome === "not_taken" ? "caution" : "notice"} role="status" data-testid="job-file-told">
      {standing.outcome === "taken" && <Taken taken={standing} />}
      {standing.outcome === "not_taken" && <NotTaken fault={standing.fault} about={standing.about} />}
      {standing.outcome === "reading" && <p>{t("jobfile.reading")}</p>}
      {standing.outcome === "not_saved" && <p>{t("jobfile.not_saved")}</p>}
    </div>
  );
}

/** For the list of jobs. */
export function TakeJobFile() {
  const input = useRef<HTMLInputElement>(null);
  const [standing, setStanding] = useState<Standing | null>(null);
  const take = async (file: File | undefined) => {
    if (!file) return;
    setStanding({ outcome: "reading" });
    setStanding(await takeJobFile(file).catch(notSaved));
  };
  const choose = () => { if (mayWrite.value) input.current?.click(); else sayOnlyLooks(); };
  return (
    <section class="stack tight">
      <input ref={input} type="file" accept="application/zip,.zip" hidden data-testid="job-file" onChange={(event) => { void take(event.currentTarget.files?.[0]); event.currentTarget.value = ""; }} />
      <button type="button" class="button wide" data-testid="take-job-file" onClick={choose}>{t("jobfile.take")}</button>
      {standing !== null && <Told standing={standing} />}
    </section>
  );
}

/** The save line says why as well; here stands that nothing of the file was kept. */
function notSaved(error: unknown): Standing {
  if (!(error instanceof NotSavedError)) throw error;
  return { outcome: "not_saved" };
}
