/** Setting with wet hands: one station at a time, its shim across the whole screen, and the lower half to go on. */
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { preferences } from "../../../state";
import { t } from "../../../words";
import { Missing } from "../../common/Missing";
import { NoPlan } from "../../common/NoPlan";
import { PlanNotes } from "../../common/Notes";
import { go, pathOfRails, pathOfRoom } from "../../common/route";
import { shimText } from "../../common/shims";
import { useAwake } from "../../common/useAwake";
import { useRoom, type RoomView } from "../../common/useRoom";
import { movesOf, notesOf, whereText } from "../Hand";
import type { Standing } from "../stations";
import { useSetting, type SettingStations } from "../useSetting";
import { numeralOf, sizeOf } from "./numeral";
import { useHits, type Hit } from "./useHits";

function Numerals({ text }: { text: string }) {
  const numeral = numeralOf(text);
  const { minus, whole, part, unit } = numeral;
  return (
    <p class={`numeral ${sizeOf(numeral)}`} data-testid="hands-shim" role="img" aria-label={text}>
      {minus && <span class="whole">{"\u2212"}</span>}
      {(whole || !part) && <span class="whole">{whole || "0"}</span>}
      {part && <span class="part"><span class="over">{part[0]}</span><span class="under">{part[1]}</span></span>}
      <span class="unit">{unit}</span>
    </p>
  );
}

interface FaceProps {
  readonly room: RoomView;
  readonly hit: Hit;
  readonly title: string;
  readonly foot: string;
  readonly main: { readonly label: string; readonly onHit: () => void } | null;
  readonly onBack: (() => void) | null;
  readonly aside?: { readonly label: string; readonly onHit: () => void } | null;
  readonly children: ComponentChildren;
}

/** The screen in its parts: the place, the figure, what follows, the way out and back, and the large area. */
function Face({ room, hit, title, foot, main, onBack, aside, children }: FaceProps) {
  const look = preferences.value.theme === "dark" ? { class: "hands night" } : { class: "hands", "data-theme": "sun" };
  return (
    <main {...look} data-testid="hands">
      <h2 class="hands-head" data-testid="hands-where">{title}</h2>
      <div class="hands-figure">{children}</div>
      <p class="hands-foot" data-testid="hands-next">{foot}</p>
      <div class="hands-side">
        <button type="button" class="button" data-testid="hands-leave" {...hit(() => go(pathOfRoom(room.id, "rails")))}>{t("hands.leave")}</button>
        <button type="button" class="button" data-testid="hands-back" disabled={!onBack} {...hit(onBack ?? (() => undefined))}>{t("hands.back")}</button>
        {aside && <button type="button" class="button" data-testid="hands-unset" {...hit(aside.onHit)}>{aside.label}</button>}
      </div>
      {main && <button type="button" class="hands-main" data-testid="hands-set" {...hit(main.onHit)}>{main.label}</button>}
    </main>
  );
}

function Notes({ hand, setting }: { hand: Standing; setting: SettingStations }) {
  const thick = hand.station.shim < 0 ? [t("rails.too_thick", { by: -hand.station.shim })] : [];
  const notes = [...notesOf(hand, setting), ...thick];
  return notes.length === 0 ? null : <ul class="hands-notes">{notes.map((note) => <li key={note}>{note}</li>)}</ul>;
}

type HandProps = Pick<FaceProps, "room" | "hit" | "onBack"> & { readonly hand: Standing };

function Station({ hand, setting, ...face }: HandProps & { readonly setting: SettingStations }) {
  const { done, next, choose } = setting;
  const isDone = done.has(hand.key);
  const main = isDone
    ? { label: t("hands.is_set"), onHit: () => choose(next?.key ?? null) }
    : { label: t("hands.set"), onHit: () => setting.mark(hand) };
  const aside = isDone ? { label: t("hands.unset"), onHit: () => setting.unmark(hand) } : null;
  const foot = next ? t("hands.next", { shim: shimText(next.station) }) : t("hands.last");
  return (
    <Face {...face} title={whereText(hand)} foot={foot} main={main} aside={aside}>
      {hand.isStart && <p class="hands-tag">{t("rails.start_here")}</p>}
      <Numerals text={shimText(hand.station)} />
      {setting.isLost && <p class="caution" role="alert">{t("hands.not_saved")}</p>}
      <Notes hand={hand} setting={setting} />
    </Face>
  );
}

/** What is done before the first station of the strip's next lie. */
function Move({ hand, onMoved, ...face }: HandProps & { readonly onMoved: () => void }) {
  return (
    <Face {...face} title={t("rails.move_title", { rail: hand.rail.id, lie: hand.lie, lies: hand.lies })} foot="" main={{ label: t("hands.moved"), onHit: onMoved }}>
      <ul class="hands-move" data-testid="hands-move">{movesOf(hand).map((line) => <li key={line}>{line}</li>)}</ul>
    </Face>
  );
}

function Working({ room, setting }: { room: RoomView; setting: SettingStations }) {
  const [moved, setMoved] = useState<ReadonlySet<string>>(new Set());
  const hit = useHits(); // one pause for all that this view shows: a double hit on one face counts for no other
  const { hand, standings, done } = setting;
  const at = hand ? standings.indexOf(hand) : standings.length;
  const before = standings[at - 1];
  const onBack = before ? () => setting.choose(before.key) : null;
  const face = { room, hit, onBack };
  if (!hand) {
    const main = standings.length > 0 ? { label: t("rails.truing"), onHit: () => go(pathOfRails(room.id, "true")) } : null;
    return <Face {...face} title="" foot="" main={main}><p class="hands-done" data-testid="hands-done">{t(standings.length > 0 ? "rails.all_set" : "rails.none")}</p></Face>;
  }
  const isMove = hand.begins !== null && !moved.has(hand.key) && !done.has(hand.key);
  if (isMove) return <Move {...face} hand={hand} onMoved={() => setMoved(new Set([...moved, hand.key]))} />;
  return <Station {...face} hand={hand} setting={setting} />;
}

export function HandsOff({ id }: { id: string }) {
  useAwake();
  const room = useRoom(id);
  const setting = useSetting(id, room?.plan ?? null);
  if (!room) return <Missing />;
  if (!room.plan) return <main class="page narrow"><PlanNotes state={room.state} /><NoPlan room={room} /></main>;
  return <Working room={room} setting={setting} />;
}
