/** A moment by one tap; once it stands, a tap on it changes it or takes it away. */
import { useState } from "preact/hooks";
import { mayWrite } from "../../state";
import { clockText, momentText } from "../../units";
import { reader, t } from "../../words";
import { isSameDay, minutesLater, momentNear, timeOfDay } from "./clockTime";
import { Dialog } from "./Dialog";
import { formOf } from "./form";
import { sayOnlyLooks } from "./saving";

const STEPS = [-5, -1, 1, 5] as const;

interface TimeSheetProps {
  readonly name: string;
  readonly title: string;
  readonly at: number;
  /** The day is the one on which the time typed lies nearest to this moment. */
  readonly near?: number;
  readonly onKeep: (at: string) => void;
  readonly onRemove?: (() => void) | undefined;
  readonly onClose: () => void;
}

function stepText(minutes: number): string {
  return `${minutes < 0 ? "\u2212" : "+"}${Math.abs(minutes)}\u202fmin`;
}

/** Changed by minutes or typed as a clock tells it; kept as a draft until it is set. */
export function TimeSheet({ name, title, at, near = at, onKeep, onRemove, onClose }: TimeSheetProps) {
  const { values, set, clear } = formOf(`time:${name}`, { at });
  const typed = (time: string) => { const found = momentNear(time, near); if (found !== null) set({ at: found }); };
  const close = () => { clear(); onClose(); };
  return (
    <Dialog title={title} testid="time" onClose={close}>
      <div class="stack tight">
        <p class="time-shown" data-testid="time-shown">{isSameDay(values.at, Date.now()) ? clockText(new Date(values.at).toISOString(), reader.value) : momentText(new Date(values.at).toISOString(), reader.value)}</p>
        <div class="row even">
          {STEPS.map((step) => <button key={step} type="button" class="button" data-testid={`time-${step}`} onClick={() => set({ at: minutesLater(values.at, step) })}>{stepText(step)}</button>)}
        </div>
        <div class="field">
          <label for="time-typed">{t("moment.typed")}</label>
          <input id="time-typed" type="time" data-testid="time-typed" value={timeOfDay(values.at)} onInput={(event) => typed(event.currentTarget.value)} />
        </div>
        <button type="button" class="button main wide" data-testid="time-keep" onClick={() => { onKeep(new Date(values.at).toISOString()); close(); }}>{t("keep")}</button>
        {onRemove && <button type="button" class="button danger wide" data-testid="time-remove" onClick={() => { onRemove(); close(); }}>{t("moment.remove")}</button>}
      </div>
    </Dialog>
  );
}

interface MomentProps {
  readonly name: string;
  readonly testid: string;
  readonly label: string;
  readonly at: string | null | undefined;
  /** False where the moment must stand, and can only be changed. */
  readonly canRemove?: boolean;
  readonly onSet: (at: string | null) => void;
}

export function Moment({ name, testid, label, at, canRemove = true, onSet }: MomentProps) {
  const [open, setOpen] = useState(false);
  const tapped = () => {
    if (!mayWrite.value) sayOnlyLooks();
    else if (at) setOpen(true);
    else onSet(new Date().toISOString());
  };
  return (
    <>
      <button type="button" class="value-button" data-testid={testid} onClick={tapped}>
        <span>{label}</span>
        <span class="given">{at ? clockText(at, reader.value) : t("moment.now")}</span>
      </button>
      {open && at && <TimeSheet name={name} title={label} at={Date.parse(at)} onKeep={onSet} onRemove={canRemove ? () => onSet(null) : undefined} onClose={() => setOpen(false)} />}
    </>
  );
}
