/** One room on the board: what it waits for next, how long, when, and what somebody let pass. */
import { t, told } from "../../words";
import { Link } from "../common/Link";
import { pathOfRoom } from "../common/route";
import type { Milestone } from "../waiting/standing";
import { betweenText, likelyText } from "../waiting/windowText";
import type { BoardRow } from "./rows";

const HOUR_MS = 3_600_000;

function leftText({ likely }: Milestone, now: number): string {
  const left = (Date.parse(likely ?? "") - now) / HOUR_MS;
  return left >= 0 ? t("waiting.left", { left }) : t("waiting.past", { past: -left });
}

function nameOf({ milestone }: Milestone): string {
  return told("milestone", milestone, {}, milestone);
}

function Passed({ one }: { one: Milestone }) {
  const { by, at } = one.tick?.fields ?? {};
  const words = by ? t("tick.line", { by, at }) : t("tick.line_nobody", { at });
  return <li class="passed" data-testid="board-passed">{nameOf(one)}: {words}</li>;
}

/** The next milestone in words: also on the page of a job. */
export function NextWords({ next, now }: { next: Milestone; now: number }) {
  return (
    <>
      <span class="board-next"><strong>{nameOf(next)}</strong> {next.likely !== null && <span class="board-left" data-testid="board-left">{leftText(next, now)}</span>}</span>
      <span class="card-fact">{likelyText(next)}</span>
    </>
  );
}

export function RowCard({ row, now }: { row: BoardRow; now: number }) {
  const { room, job, group, next, milestones } = row;
  const between = next === null || group === "bare" ? "" : betweenText(next);
  const passed = milestones.filter(({ tick }) => tick !== null);
  return (
    <li>
      <Link to={pathOfRoom(room.id, "waiting")} class={`card board-row ${group}`} testid="board-row">
        <span class="card-name">{t("board.room", { job: job?.fields.name ?? "", room: room.fields.name ?? "" })}</span>
        {next && group !== "bare" && <NextWords next={next} now={now} />}
        {between !== "" && <span class="card-fact">{between}</span>}
        {group === "unknown" && !next && <span class="card-fact">{t("board.unreadable")}</span>}
        {passed.length > 0 && <ul class="board-passed">{passed.map((one) => <Passed key={one.milestone} one={one} />)}</ul>}
      </Link>
    </li>
  );
}

