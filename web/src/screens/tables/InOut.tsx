/** Readings brought in from a table or a scan, with a preview on the drawing before anything is taken; and written out. */
import { useState } from "preact/hooks";
import type { Place } from "../../drawing/camera";
import { mayWrite } from "../../state";
import { t } from "../../words";
import { Choice } from "../common/Choice";
import { Missing } from "../common/Missing";
import { RoomFrame } from "../common/RoomFrame";
import { useRoom, type RoomView } from "../common/useRoom";
import { ScanIn } from "../scans/ScanIn";
import { useScan } from "../scans/useScan";
import { openPair, withPair } from "./Placing";
import { Preview } from "./Preview";
import { TableIn } from "./TableIn";
import { TableOut } from "./TableOut";
import { useTableIn, type TableIn as TableState } from "./useTableIn";

const WAYS = ["table_in", "scan_in", "table_out"] as const;
type Way = (typeof WAYS)[number];

/** A tap that says where a known point of the table belongs; none is waited for most of the time. */
function placingTap({ form }: TableState): ((at: Place) => void) | undefined {
  const { pairs } = form.values;
  const open = openPair(form.values);
  return open === null ? undefined : (at) => form.set({ pairs: withPair(pairs, open, { ...pairs[open], at }) });
}

function Ways({ room }: { room: RoomView }) {
  const [way, setWay] = useState<Way>(mayWrite.value ? "table_in" : "table_out");
  const table = useTableIn(room);
  const scan = useScan(room.id);
  const found = way === "table_in" ? table.found : way === "scan_in" ? scan.found : [];
  return (
    <RoomFrame room={room} step={null} drawing={<Preview room={room} found={found} onPlace={way === "table_in" ? placingTap(table) : undefined} />}>
      <div class="stack">
        <Choice label={t("in_out.what")} quiet name="way" value={way} onChoose={setWay} options={WAYS.map((value) => ({ value, label: t(`in_out.${value}`) }))} />
        {way === "table_in" && <TableIn room={room} state={table} />}
        {way === "scan_in" && <ScanIn room={room} scan={scan} />}
        {way === "table_out" && <TableOut room={room} />}
      </div>
    </RoomFrame>
  );
}

export function InOut({ id }: { id: string }) {
  const room = useRoom(id);
  return room ? <Ways room={room} /> : <Missing />;
}
