/** Whether the changes of a file make one job: each record's first change names what it belongs to, made before it. */
import { JobFileError } from "./faults";
import { keyOf } from "./rules";
import { PARENTS, type FileChange, type JobContents, type JobKind } from "./shapes";

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;

export function isUuid(text: string): boolean {
  return UUID.test(text);
}

/** So nothing can go round in a ring, and nothing of another job comes along. Throws JobFileError. */
export function checkHistory({ job, history, records }: JobContents): void {
  const made = new Set<string>();
  const ids = new Set<string>();
  for (const change of history) {
    checkEnvelope(change, ids);
    const key = keyOf(change.kind, change.record_id);
    if (!made.has(key)) checkPlace(job, change, made);
    made.add(key);
  }
  if (!made.has(keyOf("job", job))) throw new JobFileError("records_differ", `job ${job}`);
  checkRecords(records, made);
}

/** Each record once, and each that the history made. */
function checkRecords(records: JobContents["records"], made: ReadonlySet<string>): void {
  const standing = new Set<string>();
  for (const { kind, id } of records) {
    const key = keyOf(kind, id);
    if (standing.has(key) || !made.has(key)) throw new JobFileError("records_differ", `${kind} ${id}`);
    standing.add(key);
  }
  const lacking = [...made].filter((key) => !standing.has(key)).sort()[0];
  if (lacking !== undefined) throw new JobFileError("records_differ", lacking.replace("/", " "));
}

function checkEnvelope({ kind, change_id, record_id }: FileChange, ids: Set<string>): void {
  if (!isJobKind(kind)) throw new JobFileError("unknown_kind", kind);
  const wrong = [change_id, record_id].find((id) => !isUuid(id));
  if (wrong !== undefined) throw new JobFileError("bad_id", wrong);
  if (ids.has(change_id)) throw new JobFileError("double_change", change_id);
  ids.add(change_id);
}

function isJobKind(kind: string): kind is JobKind {
  return kind === "job" || Object.hasOwn(PARENTS, kind);
}

function checkPlace(job: string, { kind, record_id, fields }: FileChange, made: ReadonlySet<string>): void {
  const told = `${kind} ${record_id}`;
  if (kind === "job") {
    if (record_id !== job) throw new JobFileError("other_job", told);
    return;
  }
  const [parent, field] = PARENTS[kind];
  const named = fields[field];
  if (typeof named === "string" && made.has(keyOf(parent, named))) return;
  if (parent === "job" && typeof named === "string" && named !== job) throw new JobFileError("other_job", told);
  throw new JobFileError("no_parent", told);
}
