/** Which records belong to a job. */
import { PARENTS, type JobKind } from "../carrying";
import type { Row } from "../wire";
import { keyText } from "./overlay";

type JobRow = Row & { readonly kind: JobKind };

/** The job, its rooms, then what is in them: parents before children. Empty where the job is not among the rows. */
export function belongsTo(rows: readonly Row[], jobId: string): readonly JobRow[] {
  const job = rows.filter(({ kind, id }) => kind === "job" && id === jobId);
  const rooms = rows.filter(({ kind, fields }) => kind === "room" && fields["job_id" as never] === jobId);
  const around = new Set([...job, ...rooms].map(({ kind, id }) => keyText(kind, id)));
  if (job.length === 0) return [];
  return [...job, ...rooms, ...rows.filter((row) => isWithin(row, around))] as readonly JobRow[];
}

function isWithin({ kind, fields }: Row, around: ReadonlySet<string>): boolean {
  if (kind === "job" || kind === "room" || kind === "prices" || kind === "supplies") return false;
  const [parent, field] = PARENTS[kind];
  return around.has(keyText(parent, String((fields as Readonly<Record<string, unknown>>)[field])));
}
