/** What was decided about a room, by whom and when, from the room's story: of the office, or without it the last one kept here. */
import { historyOf, session, unsentOf } from "../../state";
import { storyOf, type StoryStep } from "../history/story";
import type { Decided, Story } from "./content";

/** Choices that somebody made; what was measured or drawn stands in tables of its own. */
const CHOICES = /^(bed|rails|mix|joints|curing|flatness|filling|adjustment|supplies)\./;

export async function loadDecided(room: string): Promise<Story> {
  const [told, unsent] = await Promise.all([historyOf("room", room), unsentOf("room", room)]);
  const { steps } = storyOf([{ entries: told.entries, unsent }]);
  return { at: told.at, decided: [...steps].reverse().flatMap(decidedIn) };
}

function decidedIn(step: StoryStep): readonly Decided[] {
  const by = step.person ?? session.peek().person ?? "";
  const told = step.lines.filter(({ field, isOverruled }) => CHOICES.test(field) && !isOverruled);
  return told.map(({ field, before, after }) => ({ at: step.at, by, field, before, after }));
}
