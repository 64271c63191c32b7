/** The stories behind open decisions are asked for as soon as they come, so that who and when is known without a network. */
import { effect } from "@preact/signals";
import { historyOf, openConflicts } from "../../state";

export function keepStoriesOfConflicts(): () => void {
  const asked = new Set<string>();
  return effect(() => {
    for (const { kind, id, field, others } of openConflicts.value) {
      const key = [kind, id, field, others.length].join();
      if (!asked.has(key)) void historyOf(kind, id);
      asked.add(key);
    }
  });
}
