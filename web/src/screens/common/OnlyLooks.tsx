/** For viewers: what they may do, always in sight; and the plain answer to a tap on something that changes the job. */
import { mayWrite } from "../../state";
import { t } from "../../words";
import { Dialog } from "./Dialog";
import { onlyLooksSaid } from "./saving";

export function ViewerBanner() {
  return mayWrite.value ? null : <p class="viewer-line" data-testid="viewer">{t("viewer.line")}</p>;
}

export function OnlyLooks() {
  if (!onlyLooksSaid.value) return null;
  const close = () => { onlyLooksSaid.value = false; };
  return (
    <Dialog title={t("viewer.title")} testid="only-looks" onClose={close}>
      <p>{t("viewer.more")}</p>
      <button type="button" class="button main wide" data-testid="only-looks-seen" onClick={close}>{t("viewer.seen")}</button>
    </Dialog>
  );
}
