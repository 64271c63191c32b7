/** A person's name and role, changed by a foreman; it holds from that person's next request on. */
import { useState } from "preact/hooks";
import { clearDraft, renamePerson, setRole, type Answer, type KnownPerson } from "../../state";
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { TextField, typedIn } from "../common/TextField";
import { Failure, useWish } from "./Outcome";
import { RoleChoice } from "./RoleChoice";

export function PersonSheet({ person, onClose }: { person: KnownPerson; onClose: () => void }) {
  const draft = `person-name:${person.id}`;
  const [role, choose] = useState(person.role);
  const wish = useWish();
  const name = typedIn(draft, person.name).trim();
  const change = async (): Promise<Answer> => {
    const named = name === person.name ? ({ outcome: "done" } as const) : await renamePerson(person.id, name);
    return named.outcome !== "done" || role === person.role ? named : setRole(person.id, role);
  };
  const keep = async () => {
    if ((await wish.ask(change)).outcome !== "done") return;
    await clearDraft(draft);
    onClose();
  };
  return (
    <Dialog title={person.name} testid="person-sheet" onClose={onClose}>
      <form class="stack" onSubmit={(event) => { event.preventDefault(); if (name) void keep(); }}>
        <TextField label={t("person.name")} draft={draft} testid="person-name" otherwise={person.name} autocapitalize="words" />
        <RoleChoice value={role} onChoose={choose} />
        <button type="submit" class="button main wide" data-testid="keep-person" disabled={wish.isAsking || !name}>{t("keep")}</button>
        <Failure wish={wish} />
      </form>
    </Dialog>
  );
}
