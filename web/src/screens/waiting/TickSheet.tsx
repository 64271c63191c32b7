/** Somebody looked at the bed: how, who, when. Before the window opens it is asked once more, with the reason. */
import { useEffect, useRef, useState } from "preact/hooks";
import { session, tickMilestone } from "../../state";
import { momentText } from "../../units";
import { reader, t, told } from "../../words";
import { Choice } from "../common/Choice";
import { Dialog } from "../common/Dialog";
import { formOf } from "../common/form";
import { TimeSheet } from "../common/Moment";
import { saved } from "../common/saving";
import { useNow } from "../common/useNow";
import { doubtOf, type Countdown, type Doubt } from "./standing";

const WAYS = ["scratch", "sounding", "thumb", "foot", "moisture_test", "other"] as const;
type Way = (typeof WAYS)[number];
const HOUR_MS = 3_600_000;
const A_MINUTE_MS = 60_000;

interface Look {
  readonly how: Way;
  readonly by: string;
  /** Null: now. */
  readonly at: string | null;
  readonly text: string;
}

interface TickProps {
  readonly room: string;
  readonly one: Countdown;
  readonly onClose: () => void;
}

function When({ name, at, onSet }: { name: string; at: string | null; onSet: (at: string) => void }) {
  const [open, setOpen] = useState(false);
  const now = useNow(A_MINUTE_MS);
  return (
    <>
      <button type="button" class="value-button" data-testid="tick-when" onClick={() => setOpen(true)}>
        <span>{t("tick.when")}</span><span class="given">{at === null ? t("moment.now") : momentText(at, reader.value)}</span>
      </button>
      {open && <TimeSheet name={name} title={t("tick.when")} at={at === null ? now : Date.parse(at)} onKeep={onSet} onClose={() => setOpen(false)} />}
    </>
  );
}

function reasonText(doubt: Doubt, { early }: Countdown, at: number): string {
  return doubt === "early" ? t("tick.early", { early, left: (Date.parse(early ?? "") - at) / HOUR_MS }) : t(`tick.early_${doubt}`);
}

/** The same tick, asked once more. */
function AskAgain({ reason, onKeep, onWait }: { reason: string; onKeep: () => void; onWait: () => void }) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => box.current?.scrollIntoView({ block: "nearest" }), []);
  return (
    <div class="stack tight" role="alert" ref={box}>
      <p class="caution" data-testid="tick-early">{reason}</p>
      <div class="row even">
        <button type="button" class="button" data-testid="tick-wait" onClick={onWait}>{t("tick.early_wait")}</button>
        <button type="button" class="button danger" data-testid="tick-all-the-same" onClick={onKeep}>{t("tick.early_keep")}</button>
      </div>
    </div>
  );
}

function missingOf(by: string, at: number): string | null {
  if (by === "") return t("tick.name_missing");
  return at > Date.now() + A_MINUTE_MS ? t("tick.in_future") : null;
}

const LONGEST_NAME = 200;
const LONGEST_TEXT = 10_000;

function Line({ label, testid, value, most, onText }: { label: string; testid: string; value: string; most: number; onText: (text: string) => void }) {
  return (
    <div class="field">
      <label for={testid}>{label}</label>
      <input id={testid} type="text" autocomplete="off" maxLength={most} data-testid={testid} value={value} onInput={(event) => onText(event.currentTarget.value)} />
    </div>
  );
}

function lookFrom({ by, text }: Look, at: number) {
  return { by: by.trim(), at: new Date(at).toISOString(), ...(text.trim() === "" ? {} : { text: text.trim() }) };
}

export function TickSheet({ room, one, onClose }: TickProps) {
  const { values, set, draft } = formOf<Look>(`tick:${room}:${one.milestone}`, { how: "scratch", by: session.value.person ?? "", at: null, text: "" });
  const [isAsked, setAsked] = useState(false);
  const at = values.at === null ? Date.now() : Date.parse(values.at);
  const doubt = doubtOf(one, at);
  const inTheWay = missingOf(values.by.trim(), at);
  const keep = async () => {
    if (await saved(tickMilestone(room, one.milestone, values.how, lookFrom(values, at), { draft }))) onClose();
  };
  return (
    <Dialog title={t("tick.title", { milestone: told("milestone", one.milestone, {}, one.milestone) })} testid="tick" onClose={onClose}>
      <div class="stack tight">
        <p class="caution" data-code="prediction">{t("tick.more")}</p>
        <Choice label={t("tick.how")} name="tick-how" value={values.how} onChoose={(how) => set({ how })} options={WAYS.map((value) => ({ value, label: t(`how.${value}`) }))} />
        <Line label={t("tick.who")} testid="tick-by" most={LONGEST_NAME} value={values.by} onText={(by) => set({ by })} />
        <When name={draft} at={values.at} onSet={(moment) => set({ at: moment })} />
        <Line label={t("tick.found")} testid="tick-text" most={LONGEST_TEXT} value={values.text} onText={(text) => set({ text })} />
        {inTheWay !== null && <p class="notice" role="status" data-testid="tick-missing">{inTheWay}</p>}
        {isAsked && doubt
          ? <AskAgain reason={reasonText(doubt, one, at)} onKeep={() => void keep()} onWait={onClose} />
          : <button type="button" class="button main wide" data-testid="keep-tick" disabled={inTheWay !== null} onClick={() => { if (doubt) setAsked(true); else void keep(); }}>{t("tick.keep")}</button>}
      </div>
    </Dialog>
  );
}
