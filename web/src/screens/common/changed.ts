/** Only what a person changed is written: a field that merely stood in the form is nobody's edit. */

/** The fields of `after` that differ from `before`; an empty text counts as the field that was never set. */
export function changedFields<T extends Readonly<Record<string, string>>>(before: Readonly<Record<keyof T, string | null | undefined>>, after: T): Partial<T> {
  const changed = Object.entries(after).filter(([field, value]) => value !== (before[field] ?? ""));
  return Object.fromEntries(changed) as Partial<T>;
}
