/** Who signed a room off last, and whether what it rests on changed since. Nothing where nobody did. */
import { useMemo } from "preact/hooks";
import { documentTextOf, signOffsOf } from "../../state";
import type { RoomDocument } from "../../wire";
import { t } from "../../words";
import { hashOf } from "./canonical";

/** The hash of what a record rests on: the document without money. */
export function inputsHashOf({ prices: _prices, ...document }: RoomDocument): string {
  return hashOf(document);
}

export function SignedLine({ room }: { room: string }) {
  const last = signOffsOf(room).value.at(-1)?.fields;
  const text = documentTextOf(room).value;
  const hash = useMemo(() => (last && text ? inputsHashOf(JSON.parse(text) as RoomDocument) : null), [last, text]);
  if (!last) return null;
  const values = { person: last.by ?? "", at: last.at ?? "" };
  const isChanged = hash !== last.inputs_hash;
  return <span class={isChanged ? "card-fact warns" : "card-fact"} data-testid="signed-line">{t(isChanged ? "record.signed_changed" : "record.signed_by", values)}</span>;
}
