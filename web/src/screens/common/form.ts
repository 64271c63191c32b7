/** A form of several values, kept as one draft until it is used: leaving it half filled loses nothing. */
import { clearDraft, getDraft, setDraft } from "../../state";

export interface Form<T> {
  readonly values: T;
  readonly set: (changed: Partial<T>) => void;
  readonly clear: () => void;
  readonly draft: string;
}

/** A length as set in a form: the number and what was typed for it. */
export interface Taped {
  readonly mm: number;
  readonly typed: string;
}

export function formOf<T extends object>(draft: string, begin: T): Form<T> {
  const kept = getDraft(draft);
  const values: T = kept === undefined ? begin : { ...begin, ...(JSON.parse(kept) as Partial<T>) };
  return {
    values,
    draft,
    set: (changed) => void setDraft(draft, JSON.stringify({ ...values, ...changed })),
    clear: () => void clearDraft(draft),
  };
}
