/** Tile on the fresh bed or after the night: both ways with their time, what speaks for them and against them. */
import { editRoom, mayWrite } from "../../state";
import { roundedUp } from "../../units";
import type { WaitingAnswer } from "../../wire";
import { t } from "../../words";
import { Link } from "../common/Link";
import { Cautions } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { pathOfHistory } from "../common/route";
import { saved, sayOnlyLooks } from "../common/saving";
import { useNow } from "../common/useNow";
import type { RoomView } from "../common/useRoom";
import { isPlacedInPart } from "./Placed";

const EVERY_MS = 20_000;
const TEN_MINUTES = 10; // a window is not told finer

type Way = "same_day" | "overnight";
type Tile = WaitingAnswer["tile"];

function sameDayText(tile: Tile, now: number): string {
  const { fresh_from: from, fresh_until: until, fresh_hours: hours } = tile;
  if (from === null || until === null) return t("tile.same_day_hours", { hours });
  return now > Date.parse(until) ? t("tile.same_day_gone", { until }) : t("tile.same_day_when", { from, until });
}

/** Sections placed later stay open longer, each for itself. */
function lastText({ fresh_until: until, last_until: last }: Tile, now: number): string {
  const isLater = until !== null && last !== null && Date.parse(last) > Date.parse(until);
  return isLater && now <= Date.parse(last) ? t("tile.same_day_last", { until: last }) : "";
}

/** Once nothing of the bed takes tile while fresh, nobody can choose that any more; a choice made before stands. */
export function isTooLate({ last_until: last }: Pick<Tile, "last_until">, now: number): boolean {
  return last !== null && now > Date.parse(last);
}

function overnightText({ tile, placed_at: placedAt }: WaitingAnswer): string {
  const { hardened_from: early, hardened_likely: likely } = tile;
  if (early !== null && likely !== null) return t("tile.overnight_when", { early: roundedUp(early, TEN_MINUTES), likely: roundedUp(likely, TEN_MINUTES) });
  return t(placedAt === null ? "tile.overnight_hours" : "tile.overnight_never");
}

interface SideProps {
  readonly way: Way;
  readonly when: string;
  readonly more?: string;
  readonly isChosen: boolean;
  /** True where its time is over. */
  readonly isOver?: boolean;
  readonly onChoose: (way: Way | null) => void;
}

function ChooseKey({ way, isChosen, isOver = false, onChoose }: Pick<SideProps, "way" | "isChosen" | "isOver" | "onChoose">) {
  if (isChosen) return <button type="button" class="button wide" data-testid="tile-undo" onClick={() => onChoose(null)}>{t("tile.undo")}</button>;
  if (isOver) return <p class="notice" data-testid={`too-late-${way}`}>{t("tile.too_late")}</p>;
  return <button type="button" class="button wide" data-testid={`choose-${way}`} onClick={() => onChoose(way)}>{t("tile.choose")}</button>;
}

function Side({ way, when, more = "", ...key }: SideProps) {
  const { isChosen } = key;
  return (
    <li class={isChosen ? "tile-way is-chosen" : "tile-way"} data-testid={`tile-${way}`}>
      <h4>{t(`tile.${way}`)}{isChosen && <span class="chosen"> {"\u2713"} {t("tile.chosen")}</span>}</h4>
      <p class="when" data-testid={`tile-${way}-when`}>{when}</p>
      {more !== "" && <p>{more}</p>}
      <p>{t(`tile.${way}_for`)}</p>
      <p class="caution">{t(`tile.${way}_against`)}</p>
      <ChooseKey way={way} {...key} />
    </li>
  );
}

export function TileChoice({ room, answer }: { room: RoomView; answer: WaitingAnswer }) {
  const now = useNow(EVERY_MS);
  const { tile } = answer;
  const chosen = room.fields["curing.tile_when"] ?? null;
  const choose = (way: Way | null) => {
    if (!mayWrite.value) sayOnlyLooks();
    else void saved(editRoom(room.id, { "curing.tile_when": way }));
  };
  return (
    <section class="stack tight" data-testid="tile-choice">
      <h3>{t("tile.title")}</h3>
      {chosen === null && <p class="quiet small" data-testid="tile-undecided">{t("tile.undecided")}</p>}
      <ul class="tile-ways">
        <Side way="same_day" when={sameDayText(tile, now)} more={lastText(tile, now)} isChosen={chosen === "same_day"} isOver={isTooLate(tile, now) && !isPlacedInPart(room)} onChoose={choose} />
        <Side way="overnight" when={overnightText(answer)} isChosen={chosen === "overnight"} onChoose={choose} />
      </ul>
      <Cautions cautions={cautionsAt(answer, "tile")} />
      <p class="quiet small">{t("tile.practice")}</p>
      {chosen !== null && <Link to={pathOfHistory("room", room.id)} class="button wide" testid="tile-history">{t("history.open")}</Link>}
    </section>
  );
}
