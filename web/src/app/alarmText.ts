/** What an alarm says: what is due, and of which batch or section. */
import { batchesOf } from "../state";
import type { Alarm } from "../wire";
import { t } from "../words";

export function alarmText({ code, batch, section }: Alarm, room: string): string {
  const mixed = batchesOf(room).value.find(({ id }) => id === batch)?.fields.mixed_at ?? "";
  return t(`alarm.${code}`, { mixed, section: section?.replace(/^S/, "") ?? "" });
}
