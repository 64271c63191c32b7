/** Whether alarms may make a noise, and whether they may come as messages of the phone while the app is behind others. */
import { useState } from "preact/hooks";
import { alarmBook, silenceAlarms } from "../../state";
import { t } from "../../words";

type Permission = "default" | "granted" | "denied" | "unsupported";

function permissionNow(): Permission {
  return "Notification" in window && "serviceWorker" in navigator ? Notification.permission : "unsupported";
}

/** Asked by this button only, never by itself. */
function Messages() {
  const [permission, setPermission] = useState(permissionNow);
  if (permission !== "default") return <p class="quiet small" data-testid="alarm-messages">{t(`alarm.messages_${permission}`)}</p>;
  const ask = () => void Notification.requestPermission().then(() => setPermission(permissionNow()));
  return <button type="button" class="button wide" data-testid="ask-messages" onClick={ask}>{t("alarm.messages_ask")}</button>;
}

export function AlarmSettings() {
  const { isSilent } = alarmBook.value;
  return (
    <section class="stack tight">
      <h3>{t("alarm.title")}</h3>
      <p class="quiet small">{t("alarm.more")}</p>
      <button type="button" class="button member wide" aria-pressed={!isSilent} data-testid="alarm-sound" onClick={() => silenceAlarms(!isSilent)}>{t(isSilent ? "alarm.is_silent" : "alarm.is_loud")}</button>
      <Messages />
    </section>
  );
}
