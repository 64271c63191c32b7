/** The signatures of a room: each with its copy, read once. */
import { signOffsOf, type Row } from "../../state";
import { contentFromCopy, type Content } from "./content";
import type { Signed } from "./Paper";

export function signedFrom({ id, fields }: Row<"sign_off">): Signed {
  return {
    id, by: fields.by ?? "", at: fields.at ?? "", note: fields.note ?? "", engine: fields.engine ?? "", engineHash: fields.engine_hash ?? "",
    inputsHash: fields.inputs_hash ?? "",
  };
}

/** The newest last. Subscribes. */
export function signaturesOf(room: string): readonly Signed[] {
  return signOffsOf(room).value.map(signedFrom);
}

/** Null where the copy cannot be read by this version. Subscribes. */
export function copyOf(room: string, id: string): Content | null {
  const row = signOffsOf(room).value.find((one) => one.id === id);
  return row ? contentFromCopy(row.fields.copy ?? "") : null;
}
