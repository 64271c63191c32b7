/** A day-by-day strip of the coming week, on wide windows: a row a room, a bar a window, each told in words too. */
import { dayText } from "../../units";
import { reader, t, told } from "../../words";
import { Link } from "../common/Link";
import { pathOfRoom } from "../common/route";
import type { BoardRow } from "./rows";
import { barsIn, shareAt, weekFrom, type WeekBar } from "./week";

const NOON_MS = 12 * 3_600_000;
const NEAR_END = 0.8; // of the strip: a name written on from there would leave it

function percent(share: number): string {
  return `${(share * 100).toFixed(2)}%`;
}

function Bar({ bar, row }: { bar: WeekBar; row: BoardRow }) {
  const name = told("milestone", bar.milestone, {}, bar.milestone);
  const window = row.milestones.find(({ milestone }) => milestone === bar.milestone);
  const likely = window?.likely ?? "";
  const spoken = t("bar.spoken", { milestone: name, early: window?.early ?? likely, likely, late: window?.late ?? likely });
  return (
    <span class={`week-bar ${bar.milestone}${bar.from > NEAR_END ? " near-end" : ""}`} role="img" aria-label={spoken} title={spoken} style={{ left: percent(bar.from), width: percent(bar.to - bar.from) }} data-testid="week-bar">
      {name}
    </span>
  );
}

export function Week({ rows, now }: { rows: readonly BoardRow[]; now: number }) {
  const week = weekFrom(now);
  const shown = rows.map((row) => ({ row, bars: barsIn(week, row.milestones) })).filter(({ bars }) => bars.length > 0);
  if (shown.length === 0) return null;
  return (
    <section class="week" data-testid="week" aria-label={t("board.week")}>
      <h2>{t("board.week")}</h2>
      <div class="week-head" aria-hidden="true">
        <span />
        <div class="week-days">{week.slice(0, -1).map((midnight) => <span key={midnight}>{dayText(midnight + NOON_MS, reader.value)}</span>)}</div>
      </div>
      <ul class="week-rows">
        {shown.map(({ row, bars }) => (
          <li key={row.room.id} class="week-row">
            <Link to={pathOfRoom(row.room.id, "waiting")} class="week-name">{t("board.room", { job: row.job?.fields.name ?? "", room: row.room.fields.name ?? "" })}</Link>
            <div class="week-track" style={{ height: `${bars.length * 1.75 + 0.5}rem` }}>
              <span class="week-now" style={{ left: percent(shareAt(week, now)) }} />
              {bars.map((bar, index) => <div key={bar.milestone} class="week-lane" style={{ top: `${index * 1.75 + 0.25}rem` }}><Bar bar={bar} row={row} /></div>)}
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}
