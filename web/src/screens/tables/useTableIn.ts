/** A table being read in: its text, how it is to be read, and what the engine makes of it. Nothing is taken here. */
import { useEffect, useMemo, useState } from "preact/hooks";
import type { Place } from "../../drawing/camera";
import { askEngine, clearDraft, getDraft, setDraft, type Asked } from "../../state";
import type { TableInAnswer, TableInQuestion } from "../../wire";
import { formOf, type Form } from "../common/form";
import type { RoomView } from "../common/useRoom";
import type { Columns } from "./columns";
import type { Found, HowToTake } from "./found";

type Mapping = NonNullable<TableInQuestion["mapping"]>;
type PlacingKind = TableInAnswer["placing"]["kind"];

export interface Pair {
  readonly line: number | null;
  readonly at: Place | null;
}

/** What the person chose; null is left to the engine to find. */
export interface Reading extends HowToTake {
  readonly separator: Mapping["separator"] | null;
  readonly decimal: Mapping["decimal"] | null;
  readonly unit: Mapping["unit"] | null;
  readonly header: boolean | null;
  readonly heights: Mapping["heights"] | null;
  readonly columns: Columns | null;
  readonly placing: PlacingKind | null;
  readonly pairs: readonly [Pair, Pair];
}

const NO_PAIR: Pair = { line: null, at: null };
const AT_FIRST: Reading = {
  separator: null, decimal: null, unit: null, header: null, heights: null, columns: null, placing: null, pairs: [NO_PAIR, NO_PAIR],
  zero: "relative", already: "again",
};

export interface TableIn {
  readonly text: string;
  readonly draft: string;
  readonly form: Form<Reading>;
  readonly asked: Asked<TableInAnswer> | null;
  readonly found: readonly Found[];
  readonly read: (text: string) => void;
  readonly clear: () => void;
}

function placeOf({ placing, pairs }: Reading): TableInQuestion["place"] {
  if (placing === null) return null;
  const full = pairs.flatMap(({ line, at }) => (line !== null && at !== null ? [{ line, at: [at[0], at[1]] as [number, number] }] : []));
  if (placing !== "pairs") return { kind: placing };
  return full.length === 2 ? { kind: "pairs", pairs: full } : { kind: "low_corner" };
}

function questionOf(text: string, reading: Reading, room: RoomView): object {
  const { separator, decimal, unit, header, heights, columns } = reading;
  const place = placeOf(reading);
  return { text, mapping: { separator, decimal, unit, header, heights, columns }, ...(place ? { place } : {}), outline: room.fields.outline };
}

/** The answer to the newest question; the one before it stands until then, so that nothing flickers. */
function useAnswer(room: RoomView, question: string | null): Asked<TableInAnswer> | null {
  const [asked, setAsked] = useState<Asked<TableInAnswer> | null>(null);
  useEffect(() => {
    if (question === null) { setAsked(null); return; }
    void askEngine<TableInAnswer>("table_in", `table:${room.id}`, JSON.parse(question) as object).then((answer) => {
      if (answer.outcome !== "replaced") setAsked(answer);
    });
  }, [room.id, question]);
  return asked;
}

function foundFrom(asked: Asked<TableInAnswer> | null): readonly Found[] {
  return asked?.outcome === "answered" ? asked.answer.rows.map(foundFromRow) : [];
}

function foundFromRow({ at, z, down, note, point, stage, outside }: TableInAnswer["rows"][number]): Found {
  return { at, z, down, stage, outside, note: [point, note].filter((part) => part !== "").join(" ") };
}

export function useTableIn(room: RoomView): TableIn {
  const draft = `table:${room.id}`;
  const text = getDraft(draft) ?? "";
  const form = formOf(`${draft}:how`, AT_FIRST);
  const question = text.trim() === "" ? null : JSON.stringify(questionOf(text, form.values, room));
  const asked = useAnswer(room, question);
  const found = useMemo(() => foundFrom(asked), [asked]);
  const clear = () => { form.clear(); void clearDraft(draft); };
  return { text, draft, form, asked, found, read: (next) => void setDraft(draft, next), clear };
}
