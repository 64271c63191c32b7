/** The station in hand: its shim in giant figures, where it is, what must be known there, and what comes next. */
import { useState } from "preact/hooks";
import { errorText } from "../../units";
import type { SetStation } from "../../state";
import type { Plan, Station } from "../../wire";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";
import { Figure } from "../common/Figure";
import { Cautions } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { roundedMm, shimText } from "../common/shims";
import { isMoved, toldBefore, type Standing } from "./stations";
import type { SettingStations } from "./useSetting";

/** Where a station is, in the words of its strip's lie. */
export function whereText({ rail, lie, lies, place, places }: Standing): string {
  return t(lies > 1 ? "rails.where_lie" : "rails.where", { rail: rail.id, lie, lies, place, places });
}

export function nextText({ rail, lie, lies, place, station }: Standing): string {
  return t(lies > 1 ? "rails.next_lie" : "rails.next", { rail: rail.id, lie, place, shim: shimText(station) });
}

/** Whether the rounded shim hides something of the exact one. */
function isRounded({ station }: Standing): boolean {
  return shimText(station) !== errorText(station.shim, reader.value);
}

function placeText(hand: Standing): string {
  const { along, shim } = hand.station;
  return t(isRounded(hand) ? "rails.from_beginning_exactly" : "rails.from_beginning", { along, shim });
}

/** What is done before the first station of a strip's next lie is set. */
export function movesOf({ begins }: Standing): readonly string[] {
  if (!begins) return [];
  if (begins.overlap <= 0) return [t("rails.new_strip")];
  return [t("rails.move", { overlap: begins.overlap }), t("rails.move_clean"), t("rails.move_level")];
}

/** What was set and what is told now, both as they are set. */
export function wasText(before: SetStation, station: Station): string {
  return t("rails.was", { was: toldBefore(before, station), now: roundedMm(station) });
}

/** What a person must know at this station and at no other. */
export function notesOf(hand: Standing, { set, strips }: Pick<SettingStations, "set" | "strips">): readonly string[] {
  const { station, key, place } = hand;
  const strip = place === 1 && hand.strip !== null ? strips[hand.strip] : undefined;
  const before = set.get(key);
  return [
    ...(before && isMoved(before, station) ? [wasText(before, station)] : []),
    ...(strip ? [t("rails.take", { long: strip.length, thick: strip.thickness })] : []),
    ...(station.is_break ? [t("rails.break")] : []),
  ];
}

function TooThick({ plan, hand }: { plan: Plan; hand: Standing }) {
  if (hand.station.shim >= 0) return null;
  const told = cautionsAt(plan, `rails[${plan.rails.indexOf(hand.rail)}]`).filter(({ code }) => code === "strip_too_thick");
  return told.length > 0 ? <Cautions cautions={told} /> : <p class="caution">{t("rails.too_thick", { by: -hand.station.shim })}</p>;
}

function Notes({ hand, setting }: { hand: Standing; setting: SettingStations }) {
  const notes = notesOf(hand, setting);
  if (notes.length === 0) return null;
  return <ul class="notice station-notes" data-testid="station-notes">{notes.map((note) => <li key={note}>{note}</li>)}</ul>;
}

/** At the first station of a strip's next lie, and only there: what is done before, on a sheet of its own. */
function Move({ hand }: { hand: Standing }) {
  const [open, setOpen] = useState(false);
  const { begins, rail, lie, lies, station } = hand;
  const moves = movesOf(hand);
  if (!begins || moves.length === 0) return null;
  return (
    <>
      <button type="button" class="button wide warns" data-testid="station-move" onClick={() => setOpen(true)}>{t(begins.overlap > 0 ? "rails.move_first" : "rails.new_first", { overlap: begins.overlap })}</button>
      {open && (
        <Dialog title={t("rails.move_title", { rail: rail.id, lie, lies })} testid="move-sheet" onClose={() => setOpen(false)}>
          <ul class="stack tight">{moves.map((line) => <li key={line}>{line}</li>)}</ul>
          {station.is_break && <p>{t("rails.break")}</p>}
        </Dialog>
      )}
    </>
  );
}

function Buttons({ hand, setting }: { hand: Standing; setting: SettingStations }) {
  const isDone = setting.done.has(hand.key);
  const press = () => { if (isDone) setting.unmark(hand); else setting.mark(hand); };
  return (
    <div class="row set-row">
      <button type="button" class="button icon" aria-label={t("rails.before")} data-testid="station-before" onClick={() => setting.step(-1)}>{"\u2039"}</button>
      <button type="button" class={isDone ? "button" : "button main"} data-testid="station-set" onClick={press}>{isDone ? t("rails.unset") : t("rails.set")}</button>
      <button type="button" class="button icon" aria-label={t("rails.after")} data-testid="station-after" onClick={() => setting.step(1)}>{"\u203a"}</button>
    </div>
  );
}

export function Hand({ plan, hand, setting }: { plan: Plan; hand: Standing; setting: SettingStations }) {
  const path = `rails[${plan.rails.indexOf(hand.rail)}].stations[${hand.index}].shim`;
  return (
    <div class="hand">
      <div data-testid="station-shim"><Figure size="giant" label={hand.isStart ? t("rails.start_here") : t("rails.shim")} value={shimText(hand.station)} plan={plan} path={path} /></div>
      <p class="where" data-testid="station-where">{whereText(hand)}</p>
      <p class="quiet small" data-testid="station-exactly">{placeText(hand)}</p>
      <TooThick plan={plan} hand={hand} />
      <Move hand={hand} />
      <Notes hand={hand} setting={setting} />
      <p class="quiet next-line" data-testid="station-next">{setting.next ? nextText(setting.next) : t("rails.last")}</p>
      <Buttons hand={hand} setting={setting} />
    </div>
  );
}
