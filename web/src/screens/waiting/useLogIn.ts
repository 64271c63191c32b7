/** A logger's file being read: its text, how it is to be read, and what the engine makes of it. Nothing is taken here. */
import { useEffect, useMemo, useState } from "preact/hooks";
import { askEngine, clearDraft, getDraft, setDraft, type Asked } from "../../state";
import type { LogInAnswer, LogInQuestion } from "../../wire";
import { formOf, type Form } from "../common/form";

export const LARGEST = 8_000_000; // characters: what the engine takes

/** What the person chose; null is left to the engine to find. */
export interface LogWish extends Pick<Required<LogInQuestion>, "day_first" | "year_first" | "unit" | "time_column" | "temperature_column"> {
  readonly where: "bed" | "air";
}
const AT_FIRST: LogWish = { day_first: null, year_first: null, unit: null, time_column: null, temperature_column: null, where: "bed" };

export interface LogFile {
  readonly name: string;
  readonly text: string;
}

export interface LogIn {
  readonly file: LogFile | null;
  readonly form: Form<LogWish>;
  readonly asked: Asked<LogInAnswer> | null;
  readonly draft: string;
  readonly bring: (file: LogFile) => void;
  readonly clear: () => void;
}

/** How far this phone's clock is ahead of UTC at a moment, minutes. */
export function offsetAt(at: Date): number {
  return -at.getTimezoneOffset();
}

/** Asked again with the offset in force when the file begins, where that is another than today's. */
async function logIn(room: string, text: string, wish: LogWish): Promise<Asked<LogInAnswer>> {
  const ask = (offset: number) => askEngine<LogInAnswer>("log_in", `log:${room}`, { ...wish, text, offset_minutes: offset });
  const today = offsetAt(new Date());
  const first = await ask(today);
  if (first.outcome !== "answered" || first.answer.start === null) return first;
  const then = offsetAt(new Date(first.answer.start));
  return then === today ? first : ask(then);
}

/** The answer to the newest question; the one before it stands until then, so that nothing flickers. */
export function useLogIn(room: string): LogIn {
  const draft = `log:${room}`;
  const kept = getDraft(draft);
  const file = useMemo(() => (kept === undefined ? null : (JSON.parse(kept) as LogFile)), [kept]);
  const form = formOf<LogWish>(`${draft}:how`, AT_FIRST);
  const [asked, setAsked] = useState<Asked<LogInAnswer> | null>(null);
  const wish = JSON.stringify(form.values);
  useEffect(() => {
    if (file === null) { setAsked(null); return; }
    void logIn(room, file.text, JSON.parse(wish) as LogWish).then((answer) => { if (answer.outcome !== "replaced") setAsked(answer); });
  }, [room, file, wish]);
  const clear = () => { form.clear(); void clearDraft(draft); };
  const bring = (file: LogFile) => { form.clear(); setAsked(null); void setDraft(draft, JSON.stringify(file)); };
  return { file, form, asked, draft, bring, clear };
}
