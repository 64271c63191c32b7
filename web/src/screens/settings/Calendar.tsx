/** A secret address at which this person's own calendar program reads which room when: made, shown once, revoked. */
import { useEffect, useState } from "preact/hooks";
import { calendarStanding, loadCalendar, makeCalendar, preferences, revokeCalendar, saveLine } from "../../state";
import { t } from "../../words";
import { ownZone } from "../common/CalendarButton";
import { Failure, useWish, type Wish } from "../people/Outcome";
import { QrCode } from "../people/QrCode";

function Address({ address }: { address: string }) {
  const [isCopied, setCopied] = useState(false);
  const copy = () => { void navigator.clipboard.writeText(address).then(() => setCopied(true), () => setCopied(false)); };
  return (
    <div class="stack tight">
      <div class="field">
        <label for="calendar-address">{t("calendar.address")}</label>
        <input id="calendar-address" type="text" readOnly value={address} data-testid="calendar-address" onFocus={(event) => event.currentTarget.select()} />
      </div>
      <div class="row even">
        <button type="button" class="button" data-testid="copy-calendar" onClick={copy}>{t(isCopied ? "calendar.copied" : "calendar.copy")}</button>
        <a class="button" href={address.replace(/^https?:/, "webcal:")} data-testid="subscribe-calendar">{t("calendar.subscribe")}</a>
      </div>
      <QrCode text={address} label={t("calendar.picture")} />
      <p class="caution">{t("calendar.secret")}</p>
    </div>
  );
}

function Standing({ wish, onRevoked }: { wish: Wish; onRevoked: () => void }) {
  const madeAt = calendarStanding.value?.madeAt ?? null;
  const revoke = async () => { if ((await wish.ask(revokeCalendar)).outcome === "done") onRevoked(); };
  if (madeAt === null) return null;
  return (
    <>
      <p data-testid="calendar-since">{t("calendar.since", { at: madeAt })}</p>
      <button type="button" class="button danger wide" data-testid="revoke-calendar" disabled={wish.isAsking} onClick={() => void revoke()}>{t("calendar.revoke")}</button>
    </>
  );
}

export function Calendar() {
  const [address, setAddress] = useState<string | null>(null);
  const wish = useWish();
  const { online } = saveLine.value;
  useEffect(() => { if (online) void loadCalendar(); }, [online]);
  const make = async () => {
    const answer = await wish.ask(() => makeCalendar(preferences.value.language, ownZone()));
    if (answer.outcome === "done") setAddress(`${location.origin}${answer.path}`);
  };
  return (
    <section class="stack tight" data-testid="calendar">
      <h2>{t("calendar.title")}</h2>
      <p class="quiet small">{t("calendar.more")}</p>
      {!online && <p class="notice" data-testid="calendar-offline">{t("calendar.offline")}</p>}
      {address !== null && <Address address={address} />}
      <button type="button" class="button wide" data-testid="make-calendar" disabled={!online || wish.isAsking} onClick={() => void make()}>{t(calendarStanding.value?.madeAt ? "calendar.make_new" : "calendar.make")}</button>
      <Standing wish={wish} onRevoked={() => setAddress(null)} />
      <Failure wish={wish} />
    </section>
  );
}
