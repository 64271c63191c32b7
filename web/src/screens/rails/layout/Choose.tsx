/** Which rails: those proposed or those placed by a person, and which way the proposed ones run. */
import { useState } from "preact/hooks";
import { editRoom } from "../../../state";
import { numberText } from "../../../units";
import { reader, t } from "../../../words";
import { Choice } from "../../common/Choice";
import { cornersOf } from "../../common/roomFigure";
import { saved } from "../../common/saving";
import type { RoomView } from "../../common/useRoom";
import { ValueField, ValueSheet, type ValueFieldProps } from "../../common/ValueField";
import type { Lines } from "./useLines";
import { directionOf, halfTurn, longestWallWay, wayNamed, type Way } from "./ways";

const WAYS: readonly Way[] = ["best", "along", "across", "degrees"];

function degreesText(degrees: number): string {
  return `${numberText(degrees, 2, reader.value.language)}°`;
}

function Direction({ room }: { room: RoomView }) {
  const [open, setOpen] = useState(false);
  const held = room.fields["rails.direction"] ?? "auto";
  const longest = longestWallWay(cornersOf(room.fields.outline));
  const way = wayNamed(held, longest);
  const keep = (direction: number | "auto" | null) => void saved(editRoom(room.id, { "rails.direction": direction === "auto" ? null : direction }));
  const choose = (chosen: Way) => {
    const direction = directionOf(chosen, longest);
    if (direction === null) setOpen(true);
    else keep(direction);
  };
  const shown = degreesText(held === "auto" ? room.plan?.rail_direction ?? longest : held);
  const field: ValueFieldProps = {
    name: `${room.id}:rails.direction`, label: t("lay.degrees"), note: t("lay.degrees_more"), measure: "number", signed: true,
    shown, isChanged: held !== "auto", onReset: () => keep(null), onValue: (degrees) => keep(halfTurn(degrees)),
  };
  return (
    <div class="stack tight ways-to-run">
      <Choice label={t("lay.direction")} name="direction" value={way} onChoose={choose} options={WAYS.map((value) => ({ value, label: t(`lay.way_${value}`) }))} />
      {way === "degrees" && <ValueField {...field} />}
      {open && <ValueSheet {...field} onClose={() => setOpen(false)} />}
    </div>
  );
}

export function Choose({ room, laid }: { room: RoomView; laid: Lines }) {
  return (
    <section class="stack tight">
      <h3>{t("lay.which")}</h3>
      <Choice
        label={t("lay.which")} name="lines" quiet value={laid.isPlaced ? "placed" : "proposed"}
        options={[{ value: "proposed", label: t("lay.proposed") }, { value: "placed", label: t("lay.placed") }]}
        onChoose={(which) => { if (which === "placed" && !laid.isPlaced) laid.place(); if (which === "proposed" && laid.isPlaced) laid.toProposal(); }}
      />
      {laid.isPlaced ? <p class="quiet small" data-testid="as-placed">{t("lay.placed_more")}</p> : <Direction room={room} />}
    </section>
  );
}
