/** A small mark where edits met that somebody should look at: at the room, and at its job. */
import { openConflicts, roomOf, type OpenConflict } from "../../state";
import { t } from "../../words";
import { Link } from "./Link";
import { roomOfRecord } from "./recordName";

interface ToDecideProps {
  readonly room?: string;
  readonly job?: string;
  readonly isLink?: boolean;
}

function isOf({ kind, id }: OpenConflict, { room, job }: ToDecideProps): boolean {
  const lies = roomOfRecord(kind, id);
  if (room !== undefined) return lies === room;
  return kind === "job" ? id === job : roomOf(lies ?? "")?.fields.job_id === job;
}

export function ToDecide(props: ToDecideProps) {
  const count = openConflicts.value.filter((conflict) => isOf(conflict, props)).length;
  if (count === 0) return null;
  const words = t("conflict.count", { count });
  return props.isLink ? <Link to="/review" class="button warns wide" testid="to-decide">{words}</Link> : <span class="to-decide" data-testid="to-decide">{words}</span>;
}
