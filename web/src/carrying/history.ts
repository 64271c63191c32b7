/** Whether the changes of a file make one job: each record's first change names what it belongs to, made before it. */
import { JobFileError } from "./faults";
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
  const standing = new Set(records.map(({ kind, id }) => keyOf(kind, id)));
  const isWhole = standing.size === records.length && standing.size === made.size && [...standing].every((key) => made.has(key));
  if (!isWhole || !made.has(keyOf("job", job))) throw new JobFileError("records_differ");
}

function keyOf(kind: string, id: string): string {
  return `${kind}/${id}`;
}

function checkEnvelope({ kind, change_id, record_id }: FileChange, ids: Set<string>): void {
  if (!isJobKind(kind)) throw new JobFileError("unknown_kind", kind);
  const wrong = [change_id, record_id].find((id) => !isUuid(id));
  if (wrong !== undefined) throw new JobFileError("bad_id", wrong);
  if (ids.has(change_id)) throw new JobFileError("double_change");
  ids.add(change_id);
}

function isJobKind(kind: string): kind is JobKind {
  return kind === "job" || Object.hasOwn(PARENTS, kind);
}

function checkPlace(job: string, { kind, record_id, fields }: FileChange, made: ReadonlySet<string>): void {
  if (kind === "job") {
    if (record_id !== job) throw new JobFileError("other_job");
    return;
  }
  const [parent, field] = PARENTS[kind];
  const named = fields[field];
  if (typeof named === "string" && made.has(keyOf(parent, named))) return;
  if (parent === "job" && typeof named === "string" && named !== job) throw new JobFileError("other_job");
  throw new JobFileError("no_parent", `${kind} ${record_id}`);
}
