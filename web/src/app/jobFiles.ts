/** Job files put together: what the storage knows of a job packed into one file, and a file looked into before it is taken. */
import { JobFileError, makeJobFile, readJobFile, type JobContents } from "../carrying";
import type { JobFile, JobFilesPort, JobTaken } from "../state/ports";
import type { Storage } from "../storage";
import { SCHEMA } from "../wire";

const APP = `app, schema ${SCHEMA}`;

/** What the state asks for. */
export function jobFilesOf(storage: Storage): JobFilesPort {
  return {
    noteOpened: (jobId) => storage.noteOpened(jobId),
    make: (jobId) => make(storage, jobId),
    take: (file) => take(storage, file),
  };
}

async function make(storage: Storage, jobId: string): Promise<JobFile | null> {
  const told = await storage.jobOut(jobId, APP);
  if (told === null) return null;
  const { contents, photos } = told;
  return {
    name: nameOf(contents),
    content: makeJobFile(contents, photos),
    changes: contents.history.length,
    photos: photos.size,
    photosMissing: contents.complete.photos.length,
    hasHistory: contents.complete.history,
  };
}

function nameOf({ records, job, made_at }: JobContents): string {
  const name = records.find(({ kind, id }) => kind === "job" && id === job)?.fields["name"];
  const plain = (typeof name === "string" ? name : "").replace(/[^\p{L}\p{N}]+/gu, "-").toLowerCase().replace(/^-|-$/g, "");
  return `${plain || "job"}-${made_at.slice(0, 10)}.evenbed.zip`;
}

async function take(storage: Storage, file: Blob): Promise<JobTaken> {
  try {
    const read = await readJobFile(file);
    const { changes, photos, known } = await storage.takeJob(read);
    const { complete, job } = read.contents;
    const rest = { photosMissing: complete.photos.length, hasHistory: complete.history, unknown: read.unknown };
    return { outcome: "taken", job, changes, photos, known, ...rest };
  } catch (error) {
    if (!(error instanceof JobFileError)) throw error;
    return { outcome: "not_taken", fault: error.fault, about: error.about };
  }
}
