/** One job as one file: out of this phone and into it, with or without a network. */
import { reload } from "./connect";
import { port, type JobFile, type JobTaken } from "./ports";
import { checkMayWrite } from "./status";

/** Somebody looks at a job: what the office knows of its past comes at the next occasion, so that its file is whole. */
export function noteOpened(jobId: string): Promise<void> {
  return port("jobFiles").noteOpened(jobId);
}

/** Everything known here of a job, as a file to save or share; null where the job is not here. */
export function saveJobFile(jobId: string): Promise<JobFile | null> {
  return port("jobFiles").make(jobId);
}

/** Takes a job file in: what is new of it, or nothing and why. Throws NotSavedError where the phone could not keep it. */
export async function takeJobFile(file: Blob): Promise<JobTaken> {
  checkMayWrite();
  const outcome = await port("jobFiles").take(file);
  if (outcome.outcome === "taken") await reload();
  return outcome;
}
