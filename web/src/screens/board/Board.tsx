/** Which room when: all rooms of all jobs on this phone, what waits next in each, and what should have been looked at. */
import { boardLeft } from "../../state";
import { isOffice, t } from "../../words";
import { CalendarButton } from "../common/CalendarButton";
import { useNow } from "../common/useNow";
import { boardRooms, boardRow, GROUPS, inOrder, type BoardGroup, type BoardRow } from "./rows";
import { RowCard } from "./BoardRow";
import { useBoard } from "./useBoard";
import { Week } from "./Week";

const EVERY_MS = 20_000;

function Group({ group, rows, now }: { group: BoardGroup; rows: readonly BoardRow[]; now: number }) {
  const own = rows.filter((row) => row.group === group);
  if (own.length === 0) return null;
  return (
    <section class="stack tight" data-testid={`board-${group}`}>
      <h2>{t(`board.${group}`)}</h2>
      {group === "due" && <p class="caution">{t("board.due_more")}</p>}
      <ul class="cards">{own.map((row) => <RowCard key={row.room.id} row={row} now={now} />)}</ul>
    </section>
  );
}

export function Board() {
  useBoard();
  const now = useNow(EVERY_MS);
  const rows = inOrder(boardRooms().map((room) => boardRow(room, now)));
  const placed = rows.filter(({ group }) => group !== "bare");
  return (
    <main class="page board" data-testid="board">
      <h1>{t("board.title")}</h1>
      {boardLeft.value > 0 && <p class="quiet" role="status" data-testid="board-busy">{t("board.busy", { left: boardLeft.value })}</p>}
      {rows.length === 0 && <p class="quiet">{t("board.none")}</p>}
      {isOffice.value && <Week rows={placed} now={now} />}
      {GROUPS.map((group) => <Group key={group} group={group} rows={rows} now={now} />)}
      {placed.length > 0 && <p class="quiet small">{t("dates.no_test")}</p>}
      {placed.length > 0 && <CalendarButton rooms={placed.map(({ room }) => room.id)} name={t("dates.calendar")} />}
    </main>
  );
}
