/** Alarms that ring, on every screen: what and where, and the tap that says they were heard. */
import { alarmBook, alarmKey, hearAlarm, roomOf } from "../state";
import { t } from "../words";
import { Link } from "../screens/common/Link";
import { pathOfRoom } from "../screens/common/route";
import { ringing } from "./alarms";
import { alarmText } from "./alarmText";

const MOST = 2; // the newest; the others follow once these are heard

export function AlarmBand() {
  const { room } = alarmBook.value;
  if (room === null) return null;
  const name = roomOf(room)?.fields.name ?? "";
  return (
    <>
      {ringing.value.slice(0, MOST).map((alarm) => (
        <div key={alarmKey(alarm)} class="alarm" role="alert" data-testid="alarm" data-code={alarm.code}>
          <Link to={pathOfRoom(room, "filling")} class="alarm-what" testid="alarm-open"><strong>{name}</strong> <span>{alarmText(alarm, room)}</span></Link>
          <button type="button" class="button" data-testid="alarm-heard" onClick={() => hearAlarm(alarmKey(alarm))}>{t("alarm.heard")}</button>
        </div>
      ))}
    </>
  );
}
