/** Letting a device in: for somebody new by name and role, or for somebody known; then the code, large, and its picture. */
import { useEffect, useState } from "preact/hooks";
import { clearDraft, invitePerson, type Invite, type KnownPerson, type Role } from "../../state";
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { TextField, typedIn } from "../common/TextField";
import { Failure, useWish } from "./Outcome";
import { QrCode } from "./QrCode";
import { RoleChoice } from "./RoleChoice";

const NAME = "invite:name";
const SECOND_MS = 1000;

/** The service's own address with the code behind the hash, which no browser sends and no log keeps. */
export function joinAddress(code: string): string {
  return `${location.origin}/settings#join=${encodeURIComponent(code)}`;
}

function leftText(expiresAt: string, now: number): string {
  const seconds = Math.max(0, Math.floor((Date.parse(expiresAt) - now) / SECOND_MS));
  if (seconds === 0) return t("invite.over");
  return t("invite.left", { left: `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}` });
}

function TimeLeft({ expiresAt }: { expiresAt: string }) {
  const [now, setNow] = useState(Date.now());
  useEffect(() => {
    const clock = setInterval(() => setNow(Date.now()), SECOND_MS);
    return () => clearInterval(clock);
  }, []);
  return <p class="center" data-testid="invite-left">{leftText(expiresAt, now)}</p>;
}

/** Only this computer itself reaches it under such a name. */
function isOnlyHere(): boolean {
  return /^(localhost|127\.|\[::1\])/.test(location.hostname);
}

function Code({ invite }: { invite: Invite }) {
  return (
    <div class="stack tight">
      <p class="code" data-testid="invite-code">{invite.code}</p>
      <TimeLeft expiresAt={invite.expires_at} />
      <QrCode text={joinAddress(invite.code)} label={t("invite.picture")} />
      {isOnlyHere() && <p class="caution">{t("invite.only_here", { address: location.origin })}</p>}
      <p>{t("invite.how")}</p>
      <p class="quiet small">{t("invite.once")}</p>
    </div>
  );
}

/** A new person's code, or with `known` one more device for somebody who is on the list. */
export function InviteSheet({ known, onClose }: { known?: KnownPerson; onClose: () => void }) {
  const [invite, setInvite] = useState<Invite | null>(null);
  const [role, setRole] = useState<Role>("setter");
  const wish = useWish();
  const name = typedIn(NAME).trim();
  const make = async () => {
    const answer = await wish.ask(() => invitePerson(known ? { personId: known.id } : { role, name }));
    if (answer.outcome !== "done") return;
    setInvite(answer.invite);
    if (!known) await clearDraft(NAME);
  };
  const title = known ? t("invite.device_for", { person: known.name }) : t("invite.title");
  return (
    <Dialog title={title} testid="invite" onClose={onClose}>
      {invite ? <Code invite={invite} /> : (
        <form class="stack" onSubmit={(event) => { event.preventDefault(); if (known || name) void make(); }}>
          {known ? <p>{t("invite.device_more")}</p> : (
            <>
              <TextField label={t("invite.name")} draft={NAME} testid="invite-name" autocapitalize="words" />
              <RoleChoice value={role} onChoose={setRole} />
            </>
          )}
          <button type="submit" class="button main wide" data-testid="make-code" disabled={wish.isAsking || (!known && !name)}>{wish.isAsking ? t("join.asking") : t("invite.make")}</button>
          <Failure wish={wish} />
        </form>
      )}
    </Dialog>
  );
}
