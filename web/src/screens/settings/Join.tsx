/** Joining the office with the foreman's code. */
import { useState } from "preact/hooks";
import { clearDraft, join, type JoinOutcome } from "../../state";
import { t } from "../../words";
import { TextField, typedIn } from "../common/TextField";

const CODE = "join:code";
const PERSON = "join:person";
const DEVICE = "join:device";

function outcomeText(outcome: JoinOutcome): string {
  return outcome.outcome === "failed" ? t("join.failed", { message: outcome.message }) : t(`join.${outcome.outcome}`);
}

export function Join({ again }: { again: boolean }) {
  const [outcome, setOutcome] = useState<JoinOutcome | null>(null);
  const [asking, setAsking] = useState(false);
  const [code, person, device] = [typedIn(CODE).trim(), typedIn(PERSON).trim(), typedIn(DEVICE).trim()];
  const ask = async () => {
    setAsking(true);
    const answer = await (device === "" ? join(code, person) : join(code, person, device));
    setAsking(false);
    setOutcome(answer);
    if (answer.outcome === "joined") await clearDraft(CODE);
  };
  return (
    <section>
      <form class="stack tight" data-testid="join" onSubmit={(event) => { event.preventDefault(); if (code && person) void ask(); }}>
        <h2>{t("join.title")}</h2>
        <p class="quiet">{again ? t("join.again") : t("join.more")}</p>
        <TextField label={t("join.code")} draft={CODE} testid="join-code" autocapitalize="characters" />
        <TextField label={t("join.person")} draft={PERSON} testid="join-person" autocapitalize="words" />
        <TextField label={t("join.device")} draft={DEVICE} testid="join-device" />
        <button type="submit" class="button main wide" data-testid="join-now" disabled={!code || !person || asking}>{asking ? t("join.asking") : t("join.now")}</button>
        {outcome && <p class={outcome.outcome === "joined" ? "notice good" : "caution"} role="alert" data-testid="join-outcome">{outcomeText(outcome)}</p>}
      </form>
    </section>
  );
}
