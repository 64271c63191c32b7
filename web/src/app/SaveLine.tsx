/** The quiet line: what is saved here, what waits, what was sent and when, and what wants a person's eye. */
import { openConflicts, saveLine, session, storageState } from "../state";
import { clockText } from "../units";
import { Link } from "../screens/common/Link";
import { PhotosWaiting } from "../screens/photos/PhotosWaiting";
import { reader, t } from "../words";

function sentText(): string {
  const { waiting, lastSentAt, phase } = saveLine.value;
  if (session.value.removed) return t("save.removed", { waiting });
  if (phase === "update_needed") return t("save.update_needed", { waiting });
  if (phase === "full") return t("save.full", { waiting });
  if (phase === "only_looks" && waiting > 0) return t("save.only_looks", { waiting });
  if (lastSentAt === null) return waiting === 0 ? t("save.here") : t("save.waiting", { waiting });
  const at = clockText(lastSentAt, reader.value);
  return waiting === 0 ? t("save.sent", { at }) : t("save.waiting_sent", { waiting, at });
}

function alarmText(): string | null {
  const { error, blocked } = storageState.value;
  if (error !== null) return t(`save.error_${error}`);
  return blocked ? t("save.blocked") : null;
}

function joinText(): string | null {
  const { mustJoinAgain, removed } = session.value;
  if (removed) return t("save.what_now");
  return mustJoinAgain ? t("save.join_again") : null;
}

export function SaveLine() {
  const { refused } = saveLine.value;
  const [alarm, join, decisions] = [alarmText(), joinText(), openConflicts.value.length];
  if (alarm !== null) return <p class="save-line alarm" role="alert" data-testid="save-line">{alarm}</p>;
  return (
    <div class="save-line">
      <p role="status" aria-live="polite" data-testid="save-line">{sentText()}</p>
      <PhotosWaiting />
      {decisions > 0 && <Link to="/review" class="refused-link" testid="decide-link">{t("conflict.count", { count: decisions })}</Link>}
      {refused > 0 && <Link to="/review" class="refused-link" testid="refused-link">{t("save.refused", { count: refused })}</Link>}
      {join !== null && <Link to="/settings" class="refused-link" testid="join-again">{join}</Link>}
    </div>
  );
}
