/** One tap: the dates of rooms as a file for the phone's own calendar, shared where the phone can, else saved. Offline too. */
import { useState } from "preact/hooks";
import { calendarOfRooms } from "../../state";
import { t, type WordKey } from "../../words";
import { saveFile, shareFile } from "./saveFile";

const TYPE = "text/calendar";

/** The clock that this phone tells the time by; UTC where the browser would not say. */
export function ownZone(): string {
  return Intl.DateTimeFormat().resolvedOptions().timeZone || "UTC";
}

async function handOver(name: string, text: string): Promise<void> {
  const file = { name: `${name.replace(/[^\p{L}\p{N} _-]/gu, "").trim() || "evenbed"}.ics`, text, type: TYPE };
  const mayShare = navigator.userActivation.isActive; // long after the tap no browser shares any more
  if (mayShare && shareFile.isOffered(file)) await shareFile.share(file);
  else saveFile(file.name, text, TYPE);
}

/** `name` is what the calendar and its file are called. */
export function CalendarButton({ rooms, name, testid = "save-dates" }: { rooms: readonly string[]; name: string; testid?: string }) {
  const [isMaking, setMaking] = useState(false);
  const [said, setSaid] = useState<WordKey | null>(null);
  const make = async () => {
    setMaking(true);
    setSaid(null);
    const made = await calendarOfRooms(rooms, name, { say: t, zone: ownZone() });
    setMaking(false);
    if (made.outcome === "made") await handOver(name, made.text);
    else setSaid(made.outcome === "nothing" ? "dates.nothing" : "engine.failed");
  };
  return (
    <>
      <button type="button" class="button wide" data-testid={testid} disabled={isMaking} onClick={() => void make()}>{t("dates.to_calendar")}</button>
      {said && <p class="notice" role="status" data-testid="dates-said">{t(said)}</p>}
    </>
  );
}
