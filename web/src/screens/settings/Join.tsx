/** Joining the office with the foreman's code: typed, read from its picture, or brought by the address. */
import { useState } from "preact/hooks";
import { clearDraft, join, session, setDraft, type JoinOutcome } from "../../state";
import { t } from "../../words";
import { TextField, typedIn } from "../common/TextField";
import { ReadCode } from "./ReadCode";
import { useCodeFromAddress } from "./useCodeFromAddress";

const CODE = "join:code";
const PERSON = "join:person";
const DEVICE = "join:device";

function putCode(code: string): void {
  void setDraft(CODE, code);
}

function outcomeText(outcome: JoinOutcome): string {
  return outcome.outcome === "failed" ? t("join.failed", { message: outcome.message }) : t(`join.${outcome.outcome}`);
}

function whyText(): string {
  const { mustJoinAgain, removed } = session.value;
  if (removed) return t("join.removed");
  return mustJoinAgain ? t("join.again") : t("join.more");
}

function bringIntoSight(box: HTMLElement | null): void {
  box?.scrollIntoView();
}

function Fields({ needsName }: { needsName: boolean }) {
  return (
    <>
      <TextField label={t("join.code")} draft={CODE} testid="join-code" autocapitalize="characters" />
      <ReadCode onCode={putCode} />
      <TextField label={t(needsName ? "join.person_needed" : "join.person")} draft={PERSON} testid="join-person" autocapitalize="words" />
      <TextField label={t("join.device")} draft={DEVICE} testid="join-device" />
    </>
  );
}

export function Join() {
  const [outcome, setOutcome] = useState<JoinOutcome | null>(null);
  const [asking, setAsking] = useState(false);
  const isBrought = useCodeFromAddress(putCode);
  const [code, person, device] = [typedIn(CODE).trim(), typedIn(PERSON).trim(), typedIn(DEVICE).trim()];
  const ask = async () => {
    setAsking(true);
    const answer = await join(code, person, device || t("join.device_default"));
    setAsking(false);
    setOutcome(answer);
    if (answer.outcome === "joined") await clearDraft(CODE);
  };
  return (
    <section>
      <form class="stack tight" data-testid="join" onSubmit={(event) => { event.preventDefault(); if (code) void ask(); }}>
        <h2>{t("join.title")}</h2>
        <p class="quiet">{whyText()}</p>
        {isBrought && <p class="notice" data-testid="code-brought" ref={bringIntoSight}>{t("join.brought")}</p>}
        <Fields needsName={outcome?.outcome === "name_needed"} />
        <button type="submit" class="button main wide" data-testid="join-now" disabled={!code || asking}>{asking ? t("join.asking") : t("join.now")}</button>
        {outcome && outcome.outcome !== "joined" && <p class="caution" role="alert" data-testid="join-outcome">{outcomeText(outcome)}</p>}
      </form>
    </section>
  );
}
