/** The quiet line: what is saved on this phone, what waits, what was sent and when. */
import { saveLine, session, storageState } from "../state";
import { clockText } from "../units";
import { Link } from "../screens/common/Link";
import { reader, t } from "../words";

function sentText(): string {
  const { waiting, lastSentAt, phase } = saveLine.value;
  if (phase === "update_needed") return t("save.update_needed", { waiting });
  if (lastSentAt === null) return waiting === 0 ? t("save.here") : t("save.waiting", { waiting });
  const at = clockText(lastSentAt, reader.value);
  return waiting === 0 ? t("save.sent", { at }) : t("save.waiting_sent", { waiting, at });
}

export function SaveLine() {
  const { error } = storageState.value;
  const { refused } = saveLine.value;
  if (error !== null) return <p class="save-line alarm" role="alert" data-testid="save-line">{t(`save.error_${error}`)}</p>;
  return (
    <div class="save-line">
      <p role="status" aria-live="polite" data-testid="save-line">{sentText()}</p>
      {refused > 0 && <Link to="/review" class="refused-link" testid="refused-link">{t("save.refused", { count: refused })}</Link>}
      {session.value.mustJoinAgain && <Link to="/settings" class="refused-link" testid="join-again">{t("save.join_again")}</Link>}
    </div>
  );
}
