/** Why a job file is not taken: a closed set, the same on phone and service. Nothing of such a file is kept. */
export const FAULTS = [
  "not_a_zip", "too_large", "too_many_parts", "encrypted", "bad_name", "double_name", "damaged", "no_job", "too_deep", "not_json",
  "not_a_job_file", "newer_version", "wrong_shape", "bad_id", "unknown_kind", "other_job", "no_parent", "double_change",
  "records_differ", "photo_differs", "photo_missing", "photo_unnamed", "refused",
] as const;

export type JobFault = (typeof FAULTS)[number];

const QUOTED = 80;

export class JobFileError extends Error {
  /** The place in it, no longer than a line. */
  readonly about: string;

  constructor(
    readonly fault: JobFault,
    about = "",
  ) {
    super(`The job file is not taken: ${fault}`);
    this.name = "JobFileError";
    this.about = about.slice(0, QUOTED).replace(/\p{C}/gu, "?");
  }
}
