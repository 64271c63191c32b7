/** Who works on the job: a foreman's choice, made with or without a network. Foremen see every job anyhow. */
import { useEffect } from "preact/hooks";
import { loadPeople, people, setCrew, type KnownPerson, type Row } from "../../state";
import { t } from "../../words";
import { saved } from "../common/saving";

function Member({ person, crew, onToggle }: { person: KnownPerson; crew: readonly string[]; onToggle: (id: string) => void }) {
  return (
    <button type="button" class="button wide member" aria-pressed={crew.includes(person.id)} data-testid="crew-member" onClick={() => onToggle(person.id)}>
      <span>{person.name}</span>
      <span class="small">{t(`role.${person.role}`)}</span>
    </button>
  );
}

function noteOf(crew: readonly string[] | null, others: number): string {
  if (people.value === null) return t("crew.no_list");
  if (others === 0) return t("crew.nobody_else");
  return crew === null ? t("crew.never_set") : t("crew.more");
}

export function Crew({ job }: { job: Row<"job"> }) {
  useEffect(() => void loadPeople(), []);
  const crew = job.fields.crew ?? null;
  const others = people.value?.list.filter(({ role }) => role !== "foreman") ?? [];
  const toggle = (id: string) => {
    const now = crew ?? [];
    void saved(setCrew(job.id, now.includes(id) ? now.filter((one) => one !== id) : [...now, id]));
  };
  return (
    <section class="stack tight" data-testid="crew">
      <h3>{t("crew.title")}</h3>
      <p class="quiet small">{noteOf(crew, others.length)}</p>
      {others.map((person) => <Member key={person.id} person={person} crew={crew ?? []} onToggle={toggle} />)}
    </section>
  );
}
